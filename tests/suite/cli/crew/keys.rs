//! Private keys and names: what comes into the crew, what is refused, and what is left behind by it.

use super::{END, NEW_KEY, barn, copy, crew, done, refused};
use crate::cli::demo::BEGIN;
use crate::harness::home::{Home, files_below};
use crate::stock::Bench;
use std::fs;

/// Everything among the keys.
fn keys(home: &Home) -> Vec<String> {
    files_below(&home.demo().join("keys"))
}

#[test]
fn a_refused_change_leaves_no_private_key_behind_and_says_nothing_is_done() {
    let home = barn();
    let bench = Bench::new();
    let brought = bench.keygen("brought", "hay and oats");
    let brought = brought.to_str().unwrap();
    let before = keys(&home);
    for (command, words, typed) in [
        // The manager's passphrase is wrong, or never comes.
        (
            "add --role groom",
            &["Linnet Ashdown"][..],
            "hay and oats\nhay and oats\ndemi\n",
        ),
        (
            "add --role groom",
            &["Linnet Ashdown"],
            "hay and oats\nhay and oats\n",
        ),
        (
            "add --role groom",
            &["Linnet Ashdown", "--import", brought],
            "demi\n",
        ),
        (
            "revoke wren.ashdown --why lost --new-key",
            &[],
            "hay and oats\nhay and oats\ndemi\n",
        ),
        // A rule refuses it.
        (
            "add --role groom",
            &["Wren Ashdown", "--import", brought],
            "demo\n",
        ),
        ("revoke nobody --why lost --new-key", &[], NEW_KEY),
    ] {
        let ended = crew(&home, command, words).typed(typed).run();
        assert_ne!(ended.status, 0, "{command}");
        assert_eq!(keys(&home), before, "{command}");
        for done in ["is in the crew now", "is revoked.", "In force"] {
            assert!(!ended.out.contains(done), "{command}: {}", ended.out);
        }
    }
    let told = done(&home, "add --role groom", &["Linnet Ashdown"], NEW_KEY);
    let asked = told.find("Passphrase of Odile Marsh").unwrap();
    let (before, after) = told.split_at(asked);
    assert!(before.contains("To be signed:\n  Linnet Ashdown (linnet.ashdown) comes into"));
    assert!(after.contains("Linnet Ashdown (linnet.ashdown) is in the crew now, as groom."));
    assert!(keys(&home).contains(&"linnet.ashdown".to_owned()));
}

#[test]
fn a_name_or_id_that_reads_like_another_is_refused_before_a_key_is_made() {
    let home = barn();
    let before = keys(&home);
    for name in [
        "Odile Marsh",
        "odile marsh",
        "OdileMarsh",
        "Odi1e Marsh",
        "\u{41e}dile Marsh",
        "Odile Rnarsh",
        "Marsh Odile",
        "Marsh, Odile",
        "Odíle Marsh",
        "Odile·Marsh",
    ] {
        let (status, why) = refused(&home, "add --role groom --id new.groom", &[name], NEW_KEY);
        assert_eq!(status, 1, "{name}: {why}");
        assert!(
            why.contains("reads like Odile Marsh (odile.marsh)"),
            "{name}: {why}"
        );
        assert!(why.contains("--id"), "{why}");
    }
    let command = "add --role groom --id odile-marsh";
    let (_, why) = refused(&home, command, &["Linnet Ashdown"], NEW_KEY);
    assert!(
        why.contains("reads like Odile Marsh (odile.marsh)"),
        "{why}"
    );
    assert_eq!(keys(&home), before);
    // Who has left is named by old records.
    done(&home, "retire tobias.fenn --why moved", &[], "demo\n");
    let (_, why) = refused(
        &home,
        "add --role groom --id tobias",
        &["TOBIAS FENN"],
        NEW_KEY,
    );
    assert!(
        why.contains("reads like Tobias Fenn (tobias.fenn)"),
        "{why}"
    );
}

#[test]
fn a_groom_works_on_a_second_laptop_with_the_key_of_the_first() {
    let (home, second) = (barn(), Home::new());
    copy(&home.demo(), &second.demo(), "keys/");
    let start = second.hames("--plain").typed("quit\n").run();
    let nobody = "Nobody in the crew could sign a walk on this laptop: no key of theirs lies here";
    assert!(start.out.contains(nobody), "{}", start.out);

    let (status, why) = refused(&second, "request", &["Wren Ashdown"], "");
    assert_eq!(status, 1);
    for told in [
        "Wren Ashdown is in the crew already as wren.ashdown, and one person has one key.",
        "hames doctor --demo names its file; copy that onto a stick",
        "hames crew request --demo wren.ashdown --import FILE",
        "ssh-add FILE",
        "hames crew revoke --demo wren.ashdown --why … --new-key",
    ] {
        assert!(why.contains(told), "{told}\n{why}");
    }
    // Another's key is not taken for theirs.
    let others = home.demo().join("keys/tobias.fenn");
    let (status, why) = {
        let import = ["wren.ashdown", "--import", others.to_str().unwrap()];
        refused(&second, "request", &import, "")
    };
    assert_eq!(status, 2);
    assert!(
        why.contains("this is not the key that Wren Ashdown has"),
        "{why}"
    );
    assert!(!second.demo().join("keys/wren.ashdown").exists());

    let own = home.demo().join("keys/wren.ashdown");
    let import = ["wren.ashdown", "--import", own.to_str().unwrap()];
    let told = done(&second, "request", &import, "");
    assert!(
        told.contains("Wren Ashdown can sign on this laptop now"),
        "{told}"
    );
    let kept = second.demo().join("keys/wren.ashdown");
    assert_eq!(fs::read(kept).unwrap(), fs::read(own).unwrap());
    let start = second.hames("--plain").typed("quit\n").run();
    assert!(
        !start.out.contains("Nobody in the crew could sign"),
        "{}",
        start.out
    );
    let (status, why) = refused(&second, "request", &["Wren Ashdown"], "");
    assert_eq!(status, 1);
    assert!(why.contains("There is nothing to ask for."), "{why}");
}

#[test]
fn that_neither_of_two_could_sign_is_told_before_their_walk_begins() {
    const NEITHER: &str =
        "Neither Wren Ashdown nor Tobias Fenn could sign this walk on this laptop";
    let home = barn();
    let walk = |home: &Home| {
        let typed = format!("{BEGIN}{END}");
        home.hames("--plain").typed(&typed).run().out
    };
    assert!(!walk(&home).contains(NEITHER));
    for gone in ["wren.ashdown", "tobias.fenn"] {
        fs::remove_file(home.demo().join("keys").join(gone)).unwrap();
    }
    let told = walk(&home);
    let (warned, begun) = (told.find(NEITHER), told.find("Trip 0000"));
    assert!(warned.is_some(), "{told}");
    assert!(begun.is_none() || warned < begun, "{told}");
    assert!(
        told.contains("hames crew request --demo ID --import FILE"),
        "{told}"
    );
}

#[test]
fn who_is_not_in_the_crew_yet_can_ask_with_a_key_they_have() {
    let home = barn();
    let bench = Bench::new();
    let brought = bench.keygen("brought", "hay and oats");
    let words = ["Linnet Ashdown", "--import", brought.to_str().unwrap()];
    let told = done(&home, "request", &words, "");
    let public = fs::read_to_string(bench.path("brought.pub")).unwrap();
    let key = public.split(' ').nth(1).unwrap();
    assert!(told.contains(key), "{told}");
    assert!(
        told.contains("hames crew add --demo --role ROLE --public FILE"),
        "{told}"
    );
}
