//! An export is checked by a machine that has nothing of ours, and holds nothing that is secret.

use super::countersign::{short_trip, short_trips};
use crate::cli::demo::{SIGN, sealed};
use crate::harness::home::{Home, files_below, trip};
use crate::harness::tools::{named, python};
use std::fs;
use std::path::Path;
use std::process::Command;

/// Runs a line of a shell in a folder; what it prints.
pub(super) fn shell(folder: &Path, line: &str) -> String {
    let mut shell = Command::new("sh");
    let ended = shell
        .arg("-c")
        .arg(line)
        .current_dir(folder)
        .output()
        .unwrap();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    assert!(
        ended.status.success(),
        "{line}\n{}{}",
        text(&ended.stdout),
        text(&ended.stderr)
    );
    text(&ended.stdout)
}

/// A line of a shell on a computer that has the three tools the page asks for and nothing else.
pub(super) fn bare(folder: &Path, line: &str) -> String {
    let tools = tempfile::tempdir().unwrap();
    for (tool, found) in [
        ("python3", python().to_owned()),
        ("ssh-keygen", named("ssh-keygen")),
        ("sha256sum", named("sha256sum")),
    ] {
        std::os::unix::fs::symlink(found, tools.path().join(tool)).unwrap();
    }
    let mut shell = Command::new("/bin/sh");
    shell
        .env_clear()
        .env("PATH", tools.path())
        .env("PYTHONDONTWRITEBYTECODE", "1");
    let ended = shell
        .args(["-c", line])
        .current_dir(folder)
        .output()
        .unwrap();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let (out, err) = (text(&ended.stdout), text(&ended.stderr));
    // That nobody has countersigned yet is no fault.
    let ended = ended.status.code();
    assert!(matches!(ended, Some(0 | 9)), "{line}\n{out}{err}");
    out
}

/// The commands of READ-THIS.txt.
pub(super) fn commands(export: &Path) -> Vec<String> {
    let text = fs::read_to_string(export.join("READ-THIS.txt")).unwrap();
    let tools = ["sha256sum", "ssh-keygen", "python3"];
    text.lines()
        .filter_map(|line| line.strip_prefix("    "))
        .filter(|line| {
            tools
                .iter()
                .any(|tool| line.starts_with(&format!("{tool} ")))
        })
        .map(str::to_owned)
        .collect()
}

#[test]
fn an_export_verifies_alone_with_the_stock_tools_and_has_no_secret_in_it() {
    let home = sealed();
    let before = files_below(&home.demo());
    fs::create_dir(home.demo().join("quarantine")).unwrap();
    fs::write(home.demo().join("quarantine/old"), "x").unwrap();
    let ended = home
        .hames("logbook export --logbook share/hames/demo out")
        .run();
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    for told in [
        "left behind: quarantine\n",
        "000001-TRIP  not-countersigned  DEMO",
        "Exported to out: ",
        "begins with READ-THIS.txt.\n",
    ] {
        assert!(ended.out.contains(told), "{told}: {}", ended.out);
    }
    let out = home.path("out");
    let files = files_below(&out);
    assert!(
        !files
            .iter()
            .any(|file| file.contains("keys") || file.contains("quarantine")),
        "{files:?}"
    );
    for file in &files {
        let bytes = fs::read(out.join(file)).unwrap();
        let text = String::from_utf8_lossy(&bytes).into_owned();
        assert!(!text.contains("PRIVATE KEY-----"), "{file}");
        if before.contains(file) {
            assert_eq!(bytes, fs::read(home.demo().join(file)).unwrap(), "{file}");
        }
    }
    for kept in before.iter().filter(|file| file.contains("/t/")) {
        assert!(files.contains(kept), "{kept}");
    }
    // The logbook is gone, and the export stands alone.
    fs::rename(home.demo(), home.path("gone")).unwrap();
    assert_eq!(home.hames("verify out").run().status, 9);
    let page = fs::read_to_string(out.join("READ-THIS.txt")).unwrap();
    assert!(page.starts_with("DEMO: AN INVENTED BARN."), "{page}");
    let commands = commands(&out);
    assert_eq!(commands.len(), 12, "{commands:?}");
    let told: Vec<String> = commands.iter().map(|line| bare(&out, line)).collect();
    let good = told.iter().filter(|told| told.starts_with("Good \""));
    assert_eq!(
        good.count(),
        3,
        "two of a trip and one of a statement: {told:?}"
    );
    assert!(
        !page.contains("    head ") && !page.contains("    cat "),
        "{page}"
    );
    let listed = commands
        .iter()
        .zip(&told)
        .find(|(line, _)| line.contains("s['kind']"));
    let (_, listed) = listed.unwrap();
    assert!(
        listed.starts_with("crew by Odile Marsh in mgr/odile.marsh/000001-"),
        "{listed}"
    );
    for of_many in [
        "second/logbook.py .",
        "second/logbook.py --crew=crew/allowed_signers .",
    ] {
        let by_script = commands
            .iter()
            .zip(&told)
            .find(|(line, _)| line.ends_with(of_many));
        let (_, by_script) = by_script.unwrap();
        assert!(
            by_script.ends_with("whole not-countersigned\n"),
            "{by_script}"
        );
    }
    // Another crew file is another answer.
    fs::write(out.join("other"), "").unwrap();
    let other = Command::new(python())
        .args(["second/logbook.py", "--crew=other", "."])
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .current_dir(&out)
        .output();
    assert_eq!(other.unwrap().status.code(), Some(13));
    fs::remove_file(out.join("other")).unwrap();
    // The hash reckoned by hand is the one that was signed.
    let mut hashes = commands.iter().zip(&told);
    let by_hand = hashes.find(|(line, _)| line.contains("b'hames-line/1'"));
    let (_, hash) = by_hand.unwrap();
    let seal = fs::read_to_string(trip(&out, 1).join("seal.json")).unwrap();
    let hash = hash.split_whitespace().next().unwrap();
    assert!(
        seal.contains(&format!("\"last\":\"{hash}\"")),
        "{hash} {seal}"
    );
}

#[test]
fn an_archive_is_the_same_to_the_byte_each_time_and_verifies_when_unpacked() {
    let home = sealed();
    for name in ["one.tar", "two.tar"] {
        let ended = home
            .hames(&format!(
                "logbook export --logbook share/hames/demo --tar {name}"
            ))
            .run();
        assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    }
    let read = |name: &str| fs::read(home.path(name)).unwrap();
    assert_eq!(read("one.tar"), read("two.tar"));
    fs::create_dir(home.path("box")).unwrap();
    shell(&home.path("box"), "tar -xf ../one.tar");
    let ended = home.hames("verify box/hames-export").run();
    assert_eq!(ended.status, 9, "{}", ended.out);
    shell(&home.path("box/hames-export"), "sha256sum -c SHA256SUMS");
    let again = home
        .hames("logbook export --logbook share/hames/demo --tar one.tar")
        .run();
    assert_eq!(again.status, 3);
    assert!(
        again.err.contains("one.tar is there already"),
        "{}",
        again.err
    );
}

#[test]
fn a_damaged_logbook_is_exported_as_it_is_and_said_to_be_damaged() {
    let home = sealed();
    let path = trip(&home.demo(), 1).join("trip.jsonl");
    let journal = fs::read_to_string(&path).unwrap();
    let changed = journal.replacen("Tobias", "Tobios", 1);
    fs::write(&path, &changed).unwrap();
    let ended = home
        .hames("logbook export --logbook share/hames/demo out")
        .run();
    assert_eq!(ended.status, 16, "{}", ended.out);
    assert!(
        ended
            .out
            .contains("it was exported as it is, byte for byte"),
        "{}",
        ended.out
    );
    let copied = trip(&home.path("out"), 1).join("trip.jsonl");
    assert_eq!(fs::read_to_string(copied).unwrap(), changed);
    assert_eq!(home.hames("verify out").run().status, 16);
}

#[test]
fn nothing_is_put_among_what_lies_there_and_a_logbook_has_to_be_one() {
    let home: Home = sealed();
    fs::create_dir(home.path("full")).unwrap();
    home.put("full/mine", "x");
    let full = home
        .hames("logbook export --logbook share/hames/demo full")
        .run();
    full.is(
        3,
        "",
        "full is not empty, and nothing is put among what lies there. Name a folder that is not \
         there yet.\n",
    );
    let none = home.hames("logbook export --logbook nowhere out").run();
    assert_eq!(none.status, 3);
    assert!(!home.path("out").exists());
    // A walk nobody has signed is exported too, and said to be so.
    let short = "1\n1\n1\n1\n2\n\nend\nabandoned\nrain\n";
    let unsigned = SIGN.replacen("1\ndemo\n", "", 1);
    drop(
        home.hames("--plain")
            .typed(&format!("{short}{unsigned}"))
            .run(),
    );
    let ended = home
        .hames("logbook export --logbook share/hames/demo out")
        .run();
    assert_eq!(ended.status, 10, "{}", ended.out);
}

#[test]
fn what_a_manager_took_out_or_chose_is_told_in_the_page_as_the_managers_word() {
    let home = short_trips(2);
    let both = super::prune::named(&home, &[1, 2]);
    let prune = home.hames(&format!(
        "logbook prune --logbook share/hames/demo {both} --even-so --why old"
    ));
    let pruned = prune.typed("prune 2\ndemo\n").run();
    assert_eq!(pruned.status, 0, "{}{}", pruned.out, pruned.err);
    short_trip(&home);
    let ended = home
        .hames("logbook export --logbook share/hames/demo out")
        .run();
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    let out = home.path("out");
    let told: Vec<String> = commands(&out).iter().map(|line| bare(&out, line)).collect();
    let listed = told.iter().find(|told| told.starts_with("crew by "));
    let listed = listed.unwrap();
    assert!(
        listed.contains("\npruned by Odile Marsh in mgr/odile.marsh/"),
        "{listed}"
    );
    let page = fs::read_to_string(out.join("READ-THIS.txt")).unwrap();
    for (kind, word) in [
        (
            "pruned",
            "that it was whole when it was taken out is the manager's word",
        ),
        (
            "loss-accepted",
            "a manager states that these trips are lost",
        ),
        ("fork-closed", "Which of them goes on is the manager's word"),
        ("joined", "is the word of who joined"),
    ] {
        assert!(
            page.contains(&format!("“{kind}”: ")) && page.contains(word),
            "{kind}"
        );
    }
    assert!(
        page.contains("but itself, which cannot hold its own"),
        "{page}"
    );
}
