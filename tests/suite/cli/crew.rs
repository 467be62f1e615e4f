//! The crew changed through the program: each change is a manager's signed statement.

mod ends;
mod in_force;
mod keys;

use crate::cli::demo::BEGIN;
use crate::harness::agents::{Answers, answering};
use crate::harness::hardware::{Hardware, TOUCHED};
use crate::harness::home::{Ended, Home, Program, files_below, steady};
use crate::stock::Bench;
use std::fs;
use std::path::{Path, PathBuf};

/// What a person types for a new key, and Odile Marsh to sign.
const NEW_KEY: &str = "hay and oats\nhay and oats\ndemo\n";

/// The walk is given up, and Wren Ashdown signs it.
pub(super) const END: &str = "end\nabandoned\nrain\n1\ndemo\nquit\n";

/// A home with the demo barn founded, and one trip in it.
pub(super) fn barn() -> Home {
    Home::laid("one walk given up", Home::new, |home| {
        let ended = home.hames("--plain").typed(&format!("{BEGIN}{END}")).run();
        assert_eq!(ended.status, 0, "{}{}", ended.out, ended.err);
    })
}

pub(super) fn crew(home: &Home, command: &str, words: &[&str]) -> Program {
    let program = home.hames("crew --demo");
    let arguments = command.split_whitespace().chain(words.iter().copied());
    arguments.fold(program, Program::argument)
}

#[track_caller]
pub(super) fn done(home: &Home, command: &str, words: &[&str], typed: &str) -> String {
    let ended = crew(home, command, words).typed(typed).run();
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    ended.out
}

#[track_caller]
pub(super) fn refused(home: &Home, command: &str, words: &[&str], typed: &str) -> (i32, String) {
    let before = files_below(&home.demo());
    let ended = crew(home, command, words).typed(typed).run();
    let after = files_below(&home.demo());
    assert_ne!(ended.status, 0, "{}", ended.out);
    let kept = |files: &[String]| {
        let kept = files.iter().filter(|file| !file.starts_with("keys/"));
        kept.cloned().collect::<Vec<_>>()
    };
    assert_eq!(kept(&before), kept(&after));
    (ended.status, ended.err)
}

pub(super) fn list(home: &Home) -> String {
    done(home, "list --all", &[], "")
}

pub(super) fn add_groom(home: &Home) {
    done(home, "add --role groom", &["Linnet Ashdown"], NEW_KEY);
}

/// The folders of statements, the oldest first.
pub(super) fn statements(logbook: &Path) -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> = files_below(&logbook.join("mgr"))
        .iter()
        .map(|file| logbook.join("mgr").join(file).parent().unwrap().to_owned())
        .collect();
    folders.dedup();
    folders
}

pub(super) fn copy(from: &Path, to: &Path, but: &str) {
    for file in files_below(from) {
        if !file.starts_with(but) || but.is_empty() {
            let target = to.join(&file);
            fs::create_dir_all(target.parent().unwrap()).unwrap();
            fs::copy(from.join(&file), target).unwrap();
        }
    }
}

#[test]
fn a_person_is_added_and_told_before_anybody_signs() {
    let home = barn();
    let told = crew(&home, "add --role groom --role driver", &["Linnet Ashdown"])
        .typed(NEW_KEY)
        .run();
    assert_eq!((told.status, told.err.as_str()), (0, ""));
    insta::assert_snapshot!("crew_add", without_prints(&told.out));
    insta::assert_snapshot!("crew_list", without_prints(&list(&home)));
}

/// Fingerprints differ from run to run.
fn without_prints(text: &str) -> String {
    let words = text.split_inclusive([' ', '\n']).map(|word| {
        let end = word.trim_end().len();
        match word.strip_prefix("SHA256:") {
            Some(_) => format!("SHA256:PRINT{}", &word[end..]),
            None if word.contains("000002-") => "STATEMENT\n".to_owned(),
            // A laptop is called by two random bytes.
            None if end == 4 && word[..4].bytes().all(|byte| byte.is_ascii_hexdigit()) => {
                format!("BYTES{}", &word[4..])
            }
            None => word.to_owned(),
        }
    });
    words.collect()
}

#[test]
fn who_was_added_signs_a_walk_and_the_stock_tool_checks_the_statement() {
    let home = barn();
    add_groom(&home);
    // Linnet is the fourth of the crew, and signs what she read.
    let walk = "1\n1\n1\n4\n2\n\nend\nabandoned\nrain\n4\nhay and oats\nquit\n";
    let walked = home.hames("--plain").typed(walk).run();
    assert!(
        walked.out.contains("Signed by: Linnet Ashdown, groom."),
        "{}",
        walked.out
    );
    let folders = statements(&home.demo());
    assert_eq!(folders.len(), 2);
    let read = |folder: &Path, name: &str| fs::read_to_string(folder.join(name)).unwrap();
    for folder in &folders {
        // A statement is signed by a manager of the crew before it; the first by one in it.
        let answer = Bench::new().verify(
            read(&folders[0], "allowed_signers"),
            "role:manager",
            "hames.stated.v1.demo",
            read(folder, "statement.json").as_bytes(),
            &read(folder, "statement.sig"),
        );
        assert!(answer.good, "{}", answer.said);
    }
    assert_eq!(
        read(&folders[1], "allowed_signers"),
        fs::read_to_string(home.demo().join("crew/allowed_signers")).unwrap()
    );
}

#[test]
fn a_person_leaves_and_the_list_still_tells_who_it_was_and_why() {
    let home = barn();
    let told = done(&home, "retire tobias.fenn --why", &["moved away"], "demo\n");
    assert!(
        told.contains("tobias.fenn leaves the crew.") && told.contains("Merge every laptop's"),
        "{told}"
    );
    let list = list(&home);
    assert!(
        list.contains("  since crew file 1  retired by crew file 2: moved away\n"),
        "{list}"
    );
    let json = done(&home, "list --all --json", &[], "");
    let gone: serde_json::Value = serde_json::from_str(json.lines().last().unwrap()).unwrap();
    for (field, value) in [
        ("schema", serde_json::json!("hames-crew/1")),
        ("id", "tobias.fenn".into()),
        ("state", "retired".into()),
        ("since", 1.into()),
        ("until", 2.into()),
        ("why", "moved away".into()),
        ("signed_off", serde_json::Value::Null),
    ] {
        assert_eq!(gone[field], value, "{field}");
    }
    // An id is one person's for good; the same person may come back.
    let (_, why) = refused(
        &home,
        "add --role groom --id tobias.fenn",
        &["Linnet Ashdown"],
        NEW_KEY,
    );
    assert!(
        why.starts_with("tobias.fenn was Tobias Fenn before"),
        "{why}"
    );
    done(
        &home,
        "add --role groom",
        &["Tobias Fenn"],
        "hay and oats\nhay and oats\ndemo\n",
    );
}

#[test]
fn who_came_back_with_their_key_has_left_before_and_the_list_tells_both() {
    let home = barn();
    let key = home.demo().join("keys/tobias.fenn");
    let back = ["Tobias Fenn", "--import", key.to_str().unwrap()];
    for why in ["moved away", "moved again"] {
        done(&home, "retire tobias.fenn --why", &[why], "demo\n");
        done(&home, "add --role groom", &back, "demo\n");
    }
    let listed = list(&home);
    let lines = listed
        .lines()
        .filter(|line| line.starts_with("tobias.fenn  "));
    let ends = lines.map(|line| &line[line.find("  since").unwrap()..]);
    assert_eq!(
        ends.collect::<Vec<_>>(),
        [
            "  since crew file 5",
            "  since crew file 1  retired by crew file 2: moved away",
            "  since crew file 3  retired by crew file 4: moved again",
        ],
        "{listed}"
    );
}

#[test]
fn a_manager_who_may_not_replace_their_own_key_is_told_before_anything_is_asked() {
    let home = barn();
    let both = "roles tobias.fenn --role groom --role manager";
    done(&home, both, &[], "demo\n");
    let own = "revoke odile.marsh --why lost --new-key --by odile.marsh";
    let told = crew(&home, own, &[]).typed("").run();
    assert_eq!((told.status, told.out.as_str()), (1, ""), "{}", told.err);
    assert!(told.err.contains("revoke"), "{}", told.err);
}

#[test]
fn the_place_of_words_in_a_printed_command_is_no_reason() {
    let home = barn();
    for typed in ["…", "...", " . . ", "“…”", "WORDS"] {
        let (status, why) = refused(&home, "retire tobias.fenn --why", &[typed], "demo\n");
        assert_eq!(status, 2, "{why}");
        assert!(
            why.contains("stands in the command for words of your own"),
            "{why}"
        );
        let prune =
            home.hames("logbook prune --logbook share/hames/demo --before 2001-01-01 --why");
        let ended = prune.argument(typed).run();
        assert_eq!(ended.status, 2, "{}{}", ended.out, ended.err);
        assert!(ended.err.contains("words of your own"), "{}", ended.err);
    }
}

#[test]
fn the_last_manager_stays_and_a_key_does_not_revoke_itself() {
    let home = barn();
    for (command, why) in [
        ("retire odile.marsh --why gone", "No manager would be left"),
        (
            "roles odile.marsh --role driver",
            "No manager would be left",
        ),
        (
            "revoke odile.marsh --why stolen",
            "odile.marsh is the only manager",
        ),
        (
            "retire nobody --why gone",
            "Nobody in the crew is called nobody.",
        ),
        (
            "roles odile.marsh --role manager",
            "Odile Marsh has exactly these roles already.",
        ),
        (
            "sign-off wren.ashdown --withdraw",
            "Wren Ashdown is signed off for nothing.",
        ),
        (
            "sign-off wren.ashdown --rig pegasus",
            "There is no rig “pegasus” here.",
        ),
    ] {
        let (_, told) = refused(&home, command, &[], "demo\n");
        assert!(told.starts_with(why), "{command}: {told}");
    }
    // The only manager's key is replaced in one go, with a new one of the same person.
    let told = done(
        &home,
        "revoke odile.marsh --why stolen --new-key",
        &[],
        NEW_KEY,
    );
    assert!(
        told.contains("The key of odile.marsh is revoked."),
        "{told}"
    );
    done(
        &home,
        "roles tobias.fenn --role groom --role manager",
        &[],
        "hay and oats\n",
    );
    let by = "revoke odile.marsh --why lost --by odile.marsh";
    let (_, told) = refused(&home, by, &[], "hay and oats\n");
    assert!(told.starts_with("A key cannot revoke itself"), "{told}");
    done(
        &home,
        "revoke odile.marsh --why lost --by tobias.fenn",
        &[],
        "demo\n",
    );
}

#[test]
fn a_wrong_passphrase_or_none_changes_nothing() {
    let home = barn();
    for typed in ["wrong\n", "\n", ""] {
        let before = files_below(&home.demo());
        let command = "retire tobias.fenn --why gone";
        let ended = crew(&home, command, &[]).typed(typed).run();
        assert_ne!(ended.status, 0);
        assert_eq!(files_below(&home.demo()), before);
    }
}

#[test]
fn a_key_is_imported_only_under_a_passphrase_and_belongs_to_one_person_for_good() {
    let home = barn();
    let bench = Bench::new();
    let open = bench.keygen("open", "");
    let locked = bench.keygen("locked", "hay and oats");
    let import = |name: &str, key: &Path, typed: &str| {
        let words = [name, "--import", key.to_str().unwrap()];
        crew(&home, "add --role driver", &words).typed(typed).run()
    };
    let no = import("Linnet Ashdown", &open, "demo\n");
    assert_eq!(no.status, 2);
    let command = format!("ssh-keygen -p -f {}", open.display());
    assert!(no.err.contains(&command), "{}", no.err);
    let yes = import("Linnet Ashdown", &locked, "demo\n");
    assert_eq!((yes.status, yes.err.as_str()), (0, ""), "{}", yes.out);
    let kept = fs::read(home.demo().join("keys/linnet.ashdown")).unwrap();
    assert_eq!(kept, fs::read(&locked).unwrap());
    // Nobody else gets that key, by whatever file, even when she has left.
    let public = bench.path("locked.pub");
    let again = |home: &Home| {
        let words = ["Bryn Ashdown", "--public", public.to_str().unwrap()];
        refused(home, "add --role groom", &words, "demo\n").1
    };
    assert!(again(&home).starts_with("This key is the one of Linnet Ashdown"));
    done(&home, "revoke linnet.ashdown --why lost", &[], "demo\n");
    assert!(again(&home).starts_with("This key is the one of Linnet Ashdown"));
    let words = ["Linnet Ashdown", "--public", public.to_str().unwrap()];
    let (_, why) = refused(&home, "add --role groom", &words, "demo\n");
    assert!(why.starts_with("This key was revoked"), "{why}");
}

#[test]
fn a_hardware_key_is_added_from_the_agent_and_then_signs_changes() {
    let home = barn();
    let key = || Hardware::new(7);
    let folder = tempfile::tempdir().unwrap();
    let socket = answering(folder.path(), Answers::With(key(), TOUCHED));
    let with = |command: &str, words: &[&str], typed: &str| -> Ended {
        let program = crew(&home, command, words).with("SSH_AUTH_SOCK", &socket);
        program.typed(typed).run()
    };
    let added = with(
        "add --role manager",
        &["Linnet Ashdown", "--agent"],
        "demo\n",
    );
    assert_eq!((added.status, added.err.as_str()), (0, ""), "{}", added.out);
    let print = key().key().fingerprint();
    assert!(added.out.contains(&print), "{}", added.out);
    let by = "retire tobias.fenn --why gone --by linnet.ashdown";
    let no = with(by, &[], "\n");
    assert_eq!(no.status, 2, "{}", no.out);
    let yes = with(by, &[], "yes\n");
    assert_eq!((yes.status, yes.err.as_str()), (0, ""), "{}", yes.out);
    let none = with(
        "add --role groom --by odile.marsh",
        &["Bryn Ashdown", "--agent"],
        "demo\n",
    );
    assert!(
        none.err
            .starts_with("The ssh-agent holds no key that could be taken"),
        "{}",
        none.err
    );
}

#[test]
fn a_second_laptop_asks_to_be_let_in_and_then_begins_walks() {
    let (home, second) = (barn(), Home::new());
    copy(&home.demo(), &second.demo(), "keys/");
    let begin = format!("{BEGIN}{END}");
    let before = second.hames("--plain").typed(&begin).run();
    assert!(
        before
            .out
            .contains("This laptop has no key in this logbook"),
        "{}",
        before.out
    );
    let told = done(&second, "request --to laptop.pub", &[], "");
    let line = fs::read_to_string(second.path("laptop.pub")).unwrap();
    assert!(
        line.starts_with("ssh-ed25519 ") && told.contains("LAPTOP Laptop"),
        "{told}"
    );
    let waits = second.hames("--plain").typed(&begin).run();
    let waits = waits.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        waits.contains("This laptop waits for a manager to let it into the crew as LAPTOP"),
        "{waits}"
    );
    assert!(
        waits.contains("lies in HOME/share/hames/demo/keys/LAPTOP."),
        "{waits}"
    );
    // Asked again it is the same key: what was carried to the manager stays good.
    let again = done(&second, "request", &[], "");
    assert!(again.contains(steady(line.trim_end()).as_str()), "{again}");
    let words = ["--public", second.path("laptop.pub").to_str().unwrap()].map(str::to_owned);
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    done(&home, "add --device", &words, "demo\n");
    copy(&home.demo().join("mgr"), &second.demo().join("mgr"), "");
    copy(&home.demo().join("crew"), &second.demo().join("crew"), "");
    let after = second.hames("--plain").typed(&begin).run();
    assert!(after.out.contains("Trip "), "{}", after.out);
    let (_, why) = {
        let ended = crew(&second, "request", &[]).run();
        (ended.status, ended.err)
    };
    assert!(
        why.starts_with("This laptop is in the crew already"),
        "{why}"
    );
}

#[test]
fn who_is_not_signed_off_is_told_as_a_walk_begins_and_nothing_is_barred() {
    let home = barn();
    let begin = |home: &Home| {
        let typed = format!("{BEGIN}{END}");
        home.hames("--plain").typed(&typed).run().out
    };
    assert!(!begin(&home).contains("signed off"));
    let sign_off = "sign-off wren.ashdown --rig juniper --checklist departure";
    done(&home, sign_off, &[], "demo\n");
    let both = begin(&home);
    for name in ["Wren Ashdown", "Tobias Fenn"] {
        let notice = format!(
            "{name} is not signed off for Juniper, two-horse bumper pull with “Hitch up a bumper pull”. "
        );
        assert!(both.contains(&notice), "{both}");
    }
    done(&home, "sign-off wren.ashdown --rig juniper", &[], "demo\n");
    let one = begin(&home);
    assert!(!one.contains("Wren Ashdown is not"), "{one}");
    assert!(one.contains("Tobias Fenn is not signed off"), "{one}");
    let list = list(&home);
    assert!(
        list.contains("  signed off for: juniper; every checklist\n"),
        "{list}"
    );
    done(&home, "sign-off wren.ashdown --withdraw", &[], "demo\n");
    assert!(!begin(&home).contains("signed off"));
}
