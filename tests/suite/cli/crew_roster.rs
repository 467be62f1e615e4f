//! The roster in the logbook: what is wrong with it is found, and how one begins, forks and goes on.

use super::crew::{add_groom, barn, copy, crew, done, list, refused, statements};
use crate::harness::home::Home;
use std::fs;
use std::path::{Path, PathBuf};

#[test]
fn a_roster_edited_cut_or_forked_is_found_with_its_word() {
    let home = barn();
    add_groom(&home);
    done(&home, "retire tobias.fenn --why gone", &[], "demo\n");
    let folders = statements(&home.demo());
    assert_eq!(folders.len(), 3);
    let spoilt = |spoil: &dyn Fn(&Home, &[PathBuf])| {
        let other = Home::new();
        copy(&home.demo(), &other.demo(), "");
        spoil(&other, &statements(&other.demo()));
        let ended = crew(&other, "list", &[]).run();
        (ended.status, ended.err)
    };
    let edit = |file: &Path, from: &str, to: &str| {
        let text = fs::read_to_string(file).unwrap();
        assert!(text.contains(from), "{text}");
        fs::write(file, text.replacen(from, to, 1)).unwrap();
    };
    // A word in a statement; then its crew file; then the copy that the stock tool reads.
    let word = spoilt(&|_, all| edit(&all[2].join("statement.json"), "gone", "left"));
    assert_eq!(word.0, 16, "{}", word.1);
    let file = spoilt(&|_, all| edit(&all[2].join("allowed_signers"), "role:driver", "role:groom"));
    assert_eq!(file.0, 16, "{}", file.1);
    let copied = spoilt(&|home, _| {
        edit(
            &home.demo().join("crew/allowed_signers"),
            "role:driver",
            "role:groom",
        );
    });
    assert_eq!(copied.0, 16, "{}", copied.1);
    assert!(
        copied.1.contains("no manager has signed that"),
        "{}",
        copied.1
    );
    // One taken out of the middle, and one without its signature.
    let middle = spoilt(&|_, all| fs::remove_dir_all(&all[1]).unwrap());
    assert_eq!(middle.0, 12, "{}", middle.1);
    let unsigned = spoilt(&|_, all| fs::remove_file(all[2].join("statement.sig")).unwrap());
    assert_eq!(unsigned.0, 10, "{}", unsigned.1);
    // Under other names they say the same.
    let renamed = spoilt(&|_, all| {
        let other = all[0].with_file_name("000009-00000000");
        fs::rename(&all[0], other).unwrap();
    });
    assert_eq!(renamed, (0, String::new()));
    // Two changes in the place of the same file.
    let fork = spoilt(&|home, all| {
        let apart = Home::new();
        copy(&home.demo(), &apart.demo(), "");
        for logbook in [&apart, home] {
            let last = statements(&logbook.demo()).pop().unwrap();
            fs::remove_dir_all(last).unwrap();
            let before = statements(&logbook.demo()).pop().unwrap();
            let file = logbook.demo().join("crew/allowed_signers");
            fs::copy(before.join("allowed_signers"), file).unwrap();
        }
        done(&apart, "sign-off wren.ashdown", &[], "demo\n");
        done(home, "sign-off wren.ashdown --rig juniper", &[], "demo\n");
        copy(&apart.demo().join("mgr"), &home.demo().join("mgr"), "");
        assert_eq!(all.len(), 3);
        let (_, why) = refused(home, "retire wren.ashdown --why x", &[], "demo\n");
        assert!(why.contains("hames crew settle --demo"), "{why}");
    });
    assert_eq!(fork.0, 15, "{}", fork.1);
}

#[test]
fn two_managers_who_changed_the_same_file_settle_which_goes_on() {
    let (home, apart) = (barn(), Home::new());
    let roles = "roles tobias.fenn --role groom --role manager";
    done(&home, roles, &[], "demo\n");
    copy(&home.demo(), &apart.demo(), "");
    let one = "sign-off wren.ashdown --rig juniper --by odile.marsh";
    done(&home, one, &[], "demo\n");
    let other = "retire wren.ashdown --why gone --by tobias.fenn";
    done(&apart, other, &[], "demo\n");
    copy(&apart.demo().join("mgr"), &home.demo().join("mgr"), "");
    let (_, why) = refused(
        &home,
        "retire wren.ashdown --why x --by odile.marsh",
        &[],
        "demo\n",
    );
    assert!(why.contains("hames crew settle --demo"), "{why}");
    let told = crew(&home, "settle", &[]).run();
    assert_eq!(told.status, 1, "{}{}", told.out, told.err);
    for branch in [
        "crew file 3, by statement 3 of Odile Marsh: wren.ashdown signed off otherwise",
        "crew file 3, by statement 1 of Tobias Fenn: wren.ashdown retired",
    ] {
        assert!(told.out.contains(branch), "{}", told.out);
    }
    let file = fs::read(apart.demo().join("crew/allowed_signers")).unwrap();
    let hash = hames::record::Digest::of(&file).to_string();
    let settle = format!("settle {} --by odile.marsh", &hash[..8]);
    done(&home, &settle, &[], "demo\n");
    let list = list(&home);
    assert!(list.contains("retired by crew file 3: gone"), "{list}");
    done(
        &home,
        "sign-off tobias.fenn --by tobias.fenn",
        &[],
        "demo\n",
    );
}

#[test]
fn a_merge_puts_the_crew_file_in_force_in_the_place_of_one_whose_branch_ended() {
    let (home, apart) = (barn(), Home::new());
    let roles = "roles tobias.fenn --role groom --role manager";
    done(&home, roles, &[], "demo\n");
    copy(&home.demo(), &apart.demo(), "");
    let one = "roles wren.ashdown --role groom --by odile.marsh";
    done(&apart, one, &[], "demo\n");
    let other = "retire wren.ashdown --why gone --by tobias.fenn";
    done(&home, other, &[], "demo\n");
    let in_force = fs::read(home.demo().join("crew/allowed_signers")).unwrap();
    copy(&apart.demo().join("mgr"), &home.demo().join("mgr"), "");
    let hash = hames::record::Digest::of(&in_force).to_string();
    let settle = format!("settle {} --by odile.marsh", &hash[..8]);
    done(&home, &settle, &[], "demo\n");
    // The statement alone leaves the file of the branch that ended in its place.
    copy(&home.demo().join("mgr"), &apart.demo().join("mgr"), "");
    let verify = apart
        .hames("verify")
        .argument(&apart.demo().display().to_string())
        .run();
    let sentence = "is crew file 3, an earlier one. In force is crew file 4";
    assert!(
        verify.out.contains(sentence),
        "{}{}",
        verify.out,
        verify.err
    );
    let merge = apart.hames("logbook merge --logbook share/hames/demo");
    let merged = merge.argument(&home.demo().display().to_string()).run();
    let told = "The one that was here, 3 of Odile Marsh, ended";
    assert!(merged.out.contains(told), "{}{}", merged.out, merged.err);
    let file = fs::read(apart.demo().join("crew/allowed_signers")).unwrap();
    assert_eq!(file, in_force);
    let sentence = "puts that in its place";
    let verify = apart
        .hames("verify")
        .argument(&apart.demo().display().to_string())
        .run();
    assert!(!verify.out.contains(sentence), "{}", verify.out);
}

#[test]
fn two_settlings_apart_are_told_by_the_crew_file_each_goes_on_with() {
    let (home, apart) = (barn(), Home::new());
    let roles = "roles tobias.fenn --role groom --role manager";
    done(&home, roles, &[], "demo\n");
    copy(&home.demo(), &apart.demo(), "");
    let one = "roles wren.ashdown --role groom --by odile.marsh";
    done(&apart, one, &[], "demo\n");
    let other = "retire wren.ashdown --why gone --by tobias.fenn";
    done(&home, other, &[], "demo\n");
    let hash = |home: &Home| {
        let file = fs::read(home.demo().join("crew/allowed_signers")).unwrap();
        hames::record::Digest::of(&file).to_string()
    };
    let (first, second) = (hash(&home), hash(&apart));
    copy(&apart.demo().join("mgr"), &home.demo().join("mgr"), "");
    copy(&home.demo().join("mgr"), &apart.demo().join("mgr"), "");
    let settle = format!("settle {} --by odile.marsh", &first[..8]);
    done(&home, &settle, &[], "demo\n");
    let settle = format!("settle {} --by tobias.fenn", &second[..8]);
    done(&apart, &settle, &[], "demo\n");
    copy(&apart.demo().join("mgr"), &home.demo().join("mgr"), "");
    let told = crew(&home, "settle", &[]).run();
    for settled in [
        "of Odile Marsh: settled for crew file 3, by Tobias Fenn",
        "of Tobias Fenn: settled for crew file 3, by Odile Marsh",
    ] {
        assert!(told.out.contains(settled), "{}", told.out);
    }
}

#[test]
fn a_change_cut_off_before_its_file_was_in_place_is_finished_by_the_next() {
    let home = barn();
    let file = home.demo().join("crew/allowed_signers");
    let before = fs::read(&file).unwrap();
    add_groom(&home);
    fs::write(&file, &before).unwrap();
    done(&home, "roles linnet.ashdown --role driver", &[], "demo\n");
    assert!(list(&home).contains("linnet.ashdown  Linnet Ashdown  driver"));
}

#[test]
fn a_logbook_from_before_rosters_gets_its_first_with_the_first_change() {
    let home = barn();
    fs::remove_dir_all(home.demo().join("mgr")).unwrap();
    let file = home.demo().join("crew/allowed_signers");
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, text.replace(",hames.stated.v1.demo", "")).unwrap();
    let told = done(&home, "retire tobias.fenn --why gone", &[], "demo\n");
    assert!(
        told.contains("No manager had signed for the crew file of this logbook."),
        "{told}"
    );
    assert_eq!(statements(&home.demo()).len(), 2);
    assert!(list(&home).contains("retired by crew file 2: gone"));
}

#[test]
fn who_founded_a_logbook_alone_becomes_its_first_manager() {
    let home = Home::new();
    home.put("rig.yaml", hames::rig::demo::JUNIPER);
    let set_up = "Quillwater Stables\nWren Ashdown\ndriver\nhay and oats\nhay and oats\n";
    let walk = home.hames("walk --plain --rig rig.yaml --logbook book");
    let _ = walk.typed(&format!("{set_up}1\n\n\n\nquit\n")).run();
    let book = |command: &str, typed: &str| {
        home.hames(&format!("crew --logbook book {command}"))
            .typed(typed)
            .run()
    };
    let none = book("retire wren.ashdown --why gone", "hay and oats\n");
    assert!(
        none.err.starts_with("Nobody in this logbook is a manager."),
        "{}",
        none.err
    );
    let roles = "roles wren.ashdown --role driver --role manager";
    let first = book(roles, "hay and oats\n");
    assert_eq!((first.status, first.err.as_str()), (0, ""), "{}", first.out);
    assert!(
        first
            .out
            .contains("Wren Ashdown becomes the first and signs it."),
        "{}",
        first.out
    );
    let then = book("sign-off wren.ashdown", "hay and oats\n");
    assert_eq!((then.status, then.err.as_str()), (0, ""), "{}", then.out);
}

#[test]
fn a_rig_walked_from_a_file_of_elsewhere_can_be_signed_off_and_an_empty_list_says_what_to_do() {
    let home = Home::new();
    home.put("rig.yaml", hames::rig::demo::JUNIPER);
    let set_up = "Quillwater Stables\nWren Ashdown\ndriver\nhay and oats\nhay and oats\n";
    let book = |command: &str| {
        home.hames(&format!("crew --logbook book {command}"))
            .typed("hay and oats\n")
            .run()
    };
    let founded = home
        .hames("walk --plain --logbook book")
        .typed(set_up)
        .run();
    assert_eq!(founded.status, 2, "{}", founded.err);
    let first = book("roles wren.ashdown --role driver --role manager");
    assert_eq!(first.status, 0, "{}", first.err);
    let sign_off = "sign-off wren.ashdown --rig juniper";
    let none = book(sign_off);
    assert_eq!(none.status, 2, "{}", none.out);
    assert_eq!(
        none.err,
        "There is no rig “juniper” here. No rig file lies in book/rigs, and none was walked. Put \
         its file into book/rigs, or walk it once, and name it by the id that stands in the file.\n"
    );
    let walk = home.hames("walk --plain --rig rig.yaml --logbook book");
    let walked = walk.typed("10\n\nquit\n").run();
    assert!(walked.out.contains("Trip 000001-"), "{}", walked.out);
    let then = book(sign_off);
    assert_eq!((then.status, then.err.as_str()), (0, ""), "{}", then.out);
    let other = book("sign-off wren.ashdown --rig mesquite");
    assert!(other.err.contains("There are: juniper."), "{}", other.err);
}

#[test]
fn whom_only_the_side_that_ends_had_added_is_told_as_not_added_and_can_be_let_in_again() {
    let (home, apart) = (barn(), Home::new());
    let roles = "roles tobias.fenn --role groom --role manager";
    done(&home, roles, &[], "demo\n");
    copy(&home.demo(), &apart.demo(), "");
    let one = "roles wren.ashdown --role groom --by odile.marsh";
    done(&home, one, &[], "demo\n");
    let hash =
        hames::record::Digest::of(&fs::read(home.demo().join("crew/allowed_signers")).unwrap());
    let typed = "hay and oats\nhay and oats\ndemo\n";
    let other = "add --role groom --by tobias.fenn";
    done(&apart, other, &["Linnet Ashdown"], typed);
    copy(&apart.demo().join("mgr"), &home.demo().join("mgr"), "");
    let told = crew(&home, "settle", &[]).run().out;
    let (mine, theirs) = told.split_once("by statement 1 of Tobias Fenn").unwrap();
    let not_in_it = "Linnet Ashdown (linnet.ashdown) is not in it; the other side added them";
    let told_of = (mine.contains(not_in_it), theirs.contains(not_in_it));
    assert!(told_of.0 != told_of.1, "{told}");
    let settle = format!("settle {} --by odile.marsh", &hash.to_string()[..8]);
    let told = done(&home, &settle, &[], "demo\n");
    for part in [
        "Linnet Ashdown (linnet.ashdown) was not added: the crew file that goes on never had them.",
        "what comes later is told as signed by somebody not in the crew",
        "hames crew add --demo --role groom --public FILE",
    ] {
        assert!(told.contains(part), "{part}\n{told}");
    }
    let all = list(&home);
    assert!(all.contains("not added by crew file 4"), "{all}");
    assert!(!all.contains("revoked"), "{all}");
    let json = done(&home, "list --all --json", &[], "");
    assert!(json.contains("\"state\":\"not-added\""), "{json}");

    // The laptop that has her key lies apart; its line lets her in again, with that key.
    copy(&home.demo().join("mgr"), &apart.demo().join("mgr"), "");
    copy(&home.demo().join("crew"), &apart.demo().join("crew"), "");
    let doctor = apart.hames("doctor --demo --read-only").run().out;
    assert!(
        doctor.contains("whom only a change of the crew had added"),
        "{doctor}"
    );
    let request = "request --to linnet.pub";
    let typed = "hay and oats\nhay and oats\n";
    let asked = done(&apart, request, &["Linnet Ashdown"], typed);
    assert!(
        !asked.contains("The key is kept in"),
        "it lies there: {asked}"
    );
    let line = apart.path("linnet.pub").display().to_string();
    let add = "add --role groom --by odile.marsh --public";
    done(&home, add, &[&line], "demo\n");
    assert!(list(&home).contains("linnet.ashdown  Linnet Ashdown  groom"));
}
