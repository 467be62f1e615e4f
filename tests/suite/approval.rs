//! A checklist approved by a manager: the signature, what it covers, and who cannot give it.

use crate::harness::home::{Ended, Home};
use crate::record_ssh::id;
use crate::stock::Bench;
use hames::record::{
    Approved, Crew, Deed, Digest, LockedKey, Mode, Namespace, NotApproved, Passphrase, PrintedName,
    approved,
};
use std::fs;
use std::path::PathBuf;

const NEW: &str = "checklist new my-list.yaml";
const APPROVE: &str = "checklist approve my-list.yaml --demo";

/// A home with a list of its own, approved in the demo barn.
fn with_approval() -> Home {
    let home = Home::new();
    assert_eq!(home.hames(NEW).run().status, 0);
    let ended = home.hames(APPROVE).typed("demo\n").run();
    assert_eq!(ended.status, 0, "{}{}", ended.out, ended.err);
    home
}

fn folder(home: &Home) -> PathBuf {
    let below = home.demo().join("approved/my-list");
    let mut found = fs::read_dir(below).unwrap();
    let folder = found.next().unwrap().unwrap().path();
    assert!(found.next().is_none());
    folder
}

/// What is marked at the prompts of a walk by the list.
fn walked(home: &Home) -> Ended {
    let walk = "walk --demo --plain --checklist my-list.yaml";
    home.hames(walk).typed("1\n1\n1\n1\n\n").run()
}

#[test]
fn a_manager_approves_a_list_and_its_walks_are_no_longer_marked() {
    let home = Home::new();
    assert_eq!(home.hames(NEW).run().status, 0);
    let before = walked(&home);
    assert!(
        before.out.contains("revision 1, UNAPPROVED"),
        "{}",
        before.out
    );
    assert!(before.out.contains("DEMO UNAPPROVED. "), "{}", before.out);
    let ended = home.hames(APPROVE).typed("demo\n").run();
    ended.is(
        0,
        "\
Back from a loan, revision 1, is new here: 6 steps. Read it whole before you sign it.

DEMO. Whoever signs states this: I have read this checklist line by line as it stands here, and it is the \
barn's to walk by.
DEMO. Passphrase of Odile Marsh, to approve Back from a loan, revision 1. In the demo it is the \
word demo.
> 
DEMO. Back from a loan, revision 1: approved by Odile Marsh on DATE.
Kept in HOME/share/hames/demo/approved/my-list/TRIP
",
        "",
    );
    let after = walked(&home);
    assert!(!after.out.contains("UNAPPROVED"), "{}", after.out);
    home.hames(APPROVE).run().is(
        0,
        "Back from a loan, revision 1, needs no approval: it stands approved by Odile Marsh on DATE.\n",
        "",
    );
}

#[test]
fn a_changed_byte_is_unapproved_again_and_told_against_what_was_approved() {
    let home = with_approval();
    let text = fs::read_to_string(home.path("my-list.yaml")).unwrap();
    home.put("my-list.yaml", &text.replace("share: 95 %", "share: 90 %"));
    assert!(walked(&home).out.contains("DEMO UNAPPROVED. "));
    home.hames("checklist compare my-list.yaml --demo")
        .run()
        .is(
            0,
            "\
Against my-list, revision 1 (approved by Odile Marsh on DATE):
Looser, or looked at less closely:
  step tire-air: fix below was “95 % of tire.cold” and is “90 % of tire.cold”
",
            "",
        );
}

#[test]
fn the_stock_tool_verifies_an_approval_and_nobody_writes_over_it() {
    let home = with_approval();
    let folder = folder(&home);
    let read = |name: &str| fs::read(folder.join(name)).unwrap();
    let crew = fs::read(home.demo().join("crew/allowed_signers")).unwrap();
    let armor = String::from_utf8(read("approval.sig")).unwrap();
    let bench = Bench::new();
    for (who, namespace, good) in [
        ("odile.marsh", "hames.approved.v1.demo", true),
        ("role:manager", "hames.approved.v1.demo", true),
        ("wren.ashdown", "hames.approved.v1.demo", false),
        ("odile.marsh", "hames.approved.v1", false),
        ("odile.marsh", "hames.performed.v1.demo", false),
    ] {
        let answer = bench.verify(&crew, who, namespace, &read("approval.json"), &armor);
        assert_eq!(answer.good, good, "{who} {namespace}: {}", answer.said);
    }
    let hash = Digest::of(&read("checklist.yaml")).to_string();
    let approval = String::from_utf8(read("approval.json")).unwrap();
    assert!(approval.contains(&hash), "{approval}");
    assert!(folder.ends_with(&hash[..16]), "{folder:?}");
    // A part that was tampered with makes the list unapproved, and no approval replaces it.
    fs::write(folder.join("approval.sig"), armor.replace('A', "B")).unwrap();
    assert!(walked(&home).out.contains("DEMO UNAPPROVED. "));
    let again = home.hames(APPROVE).typed("demo\n").run();
    assert_eq!(again.status, 1, "{}", again.out);
    assert!(
        again.err.contains("give the checklist a new revision"),
        "{}",
        again.err
    );
}

#[test]
fn who_is_no_manager_or_has_another_passphrase_approves_nothing() {
    let home = Home::new();
    assert_eq!(home.hames(NEW).run().status, 0);
    let driver = home
        .hames(&format!("{APPROVE} --by wren.ashdown"))
        .typed("demo\n")
        .run();
    driver.is(
        2,
        "",
        "“wren.ashdown” is no manager with a key on this laptop, and it takes a manager's \
         signature. The managers with a key here are: odile.marsh.\n",
    );
    for (typed, status) in [("hay\n", 2), ("", 2), ("\n", 2)] {
        let ended = home.hames(APPROVE).typed(typed).run();
        assert_eq!(ended.status, status, "{}{}", ended.out, ended.err);
        assert!(!home.demo().join("approved").exists());
    }
}

#[test]
fn what_the_linter_finds_unfit_is_not_put_before_a_manager() {
    let home = Home::new();
    assert_eq!(home.hames(NEW).run().status, 0);
    let text = fs::read_to_string(home.path("my-list.yaml")).unwrap();
    home.put("my-list.yaml", &text.replace("Nothing lies there", "OK"));
    let ended = home.hames(APPROVE).typed("demo\n").run();
    assert_eq!((ended.status, ended.err.as_str()), (1, ""));
    assert!(ended.out.contains("error bare-answer"), "{}", ended.out);
}

#[test]
fn a_crew_line_from_before_approvals_is_completed_by_hand() {
    let home = Home::new();
    assert_eq!(home.hames(NEW).run().status, 0);
    assert_eq!(home.hames(APPROVE).run().status, 2);
    let path = home.demo().join("crew/allowed_signers");
    let today = fs::read_to_string(&path).unwrap();
    let older = today.replace(",hames.approved.v1.demo", "");
    assert_ne!(older, today);
    fs::write(&path, &older).unwrap();
    // Nobody had stated a crew file then.
    fs::remove_dir_all(home.demo().join("mgr")).unwrap();
    // A trip walked under the older line stays what it is.
    assert_eq!(walked(&home).status, 0);
    let ended = home.hames(APPROVE).typed("demo\n").run();
    assert_eq!(ended.status, 1);
    assert!(
        ended
            .err
            .contains("Add hames.approved.v1.demo to the namespaces of that line"),
        "{}",
        ended.err
    );
    fs::write(&path, &today).unwrap();
    assert_eq!(home.hames(APPROVE).typed("demo\n").run().status, 0);
    let verified = home.hames("verify share/hames/demo").run();
    assert!(verified.out.contains("unsealed"), "{}", verified.out);
    assert!(!verified.out.contains("unknown"), "{}", verified.out);
}

#[test]
fn a_list_that_the_barns_settings_change_is_approved_like_any_other() {
    let home = Home::new();
    home.put("rig.yaml", hames::rig::demo::JUNIPER);
    let set_up = "Quillwater Stables\nOdile Marsh\nmanager\nhay and oats\nhay and oats\n";
    let begun = home
        .hames("walk --plain --logbook book --rig rig.yaml")
        .typed(set_up)
        .run();
    assert_eq!(begun.status, 0, "{}{}", begun.out, begun.err);
    let stands = || {
        let listed = home.hames("checklist list --logbook book").run();
        let line = listed
            .out
            .lines()
            .find(|line| line.starts_with("hitch-bumper "));
        line.unwrap().rsplit(": ").next().unwrap().to_owned()
    };
    assert_eq!(stands(), "as it comes with the program");
    let settings = "format: hames-barn/1\nname: Quillwater Stables\nunits: us\nroad-side: right\npolicies:\n  lanyard: after-chains\n";
    home.put("book/barn.yaml", settings);
    assert_eq!(stands(), "UNAPPROVED");
    let approve = "checklist approve hitch-bumper --logbook book";
    let ended = home.hames(approve).typed("hay and oats\n").run();
    assert_eq!(ended.status, 0, "{}{}", ended.out, ended.err);
    for told in [
        "(as it comes with the program):\nNo longer asked, and critical:\n",
        "  step lanyard-length is gone\n",
        "  step lanyard-length-late is new\n",
    ] {
        assert!(ended.out.contains(told), "{}", ended.out);
    }
    assert_eq!(stands(), "approved by Odile Marsh on DATE");
    home.put("book/barn.yaml", &settings.replace("after", "before"));
    assert_eq!(stands(), "as it comes with the program");
}

#[test]
fn an_approval_stands_for_its_manager_mode_and_bytes_and_nothing_else() {
    let home = with_approval();
    let folder = folder(&home);
    let read = |name: &str| fs::read(folder.join(name)).unwrap();
    let crew = fs::read(home.demo().join("crew/allowed_signers")).unwrap();
    let crew = Crew::read(&crew).unwrap();
    let list = read("checklist.yaml");
    let file = read("approval.json");
    let own = Approved::read(&file).unwrap();
    let judged =
        |mode, list: &[u8], file: &[u8], armor: &str| approved(&crew, mode, list, (file, armor));
    let armor = String::from_utf8(read("approval.sig")).unwrap();
    assert_eq!(judged(Mode::Demo, &list, &file, &armor), Ok(own.clone()));
    assert_eq!(own.write().unwrap(), file);
    let changed = [&list[..], b"\n"].concat();
    assert_eq!(
        judged(Mode::Demo, &changed, &file, &armor),
        Err(NotApproved::OtherBytes)
    );
    assert_eq!(
        judged(Mode::Real, &list, &file, &armor),
        Err(NotApproved::NotSigned)
    );
    let later = String::from_utf8(file.clone())
        .unwrap()
        .replace("\"v\":1", "\"v\":2");
    assert_eq!(
        judged(Mode::Demo, &list, later.as_bytes(), &armor),
        Err(NotApproved::NotSigned)
    );
    let sign = |who: &str, deed, file: &[u8]| {
        let key = fs::read_to_string(home.demo().join("keys").join(who)).unwrap();
        let phrase = Passphrase::new("demo".to_owned().into()).unwrap();
        let key = LockedKey::read(&key).unwrap();
        key.sign(&phrase, Namespace::new(deed, Mode::Demo), file)
            .unwrap()
    };
    let forged = Approved {
        name: PrintedName::read("Wren Ashdown").unwrap(),
        person: id("wren.ashdown"),
        ..own.clone()
    };
    let other_mode = Approved {
        mode: Mode::Real,
        ..own
    };
    for (who, deed, approval, why) in [
        (
            "wren.ashdown",
            Deed::Approved,
            &forged,
            NotApproved::NotSigned,
        ),
        (
            "odile.marsh",
            Deed::Performed,
            &other_mode,
            NotApproved::NotSigned,
        ),
        (
            "odile.marsh",
            Deed::Approved,
            &forged,
            NotApproved::OtherPerson(id("wren.ashdown")),
        ),
        (
            "odile.marsh",
            Deed::Approved,
            &other_mode,
            NotApproved::OtherMode(Mode::Real),
        ),
    ] {
        let file = approval.write().unwrap();
        let armor = sign(who, deed, &file);
        assert_eq!(judged(Mode::Demo, &list, &file, &armor), Err(why));
    }
}
