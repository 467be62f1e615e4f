//! A crew file that is not the one managers put in force: nobody walks or signs by it, and the
//! command that is told puts the right one in its place.

use super::{barn, done};
use crate::cli::logbook::countersign::{AGREED, SHORT, countersign, laptop, short_trip};
use crate::harness::home::{Home, trip};
use std::fs;
use std::path::Path;
use std::process::Command;

const UNSIGNED: &str = "was changed, and no manager has signed that";
const NO_FILE: &str = "is a folder or a link that leads nowhere, and no file";
const EARLIER: &str = "is crew file 1, an earlier one";

/// What was said, whatever the lines were broken at.
fn on_one_line(told: &str) -> String {
    told.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A walk is refused for this reason before anything is asked; what is told is typed, and one can
/// be walked.
#[track_caller]
fn is_refused_then_put_right(home: &Home, why: &str) {
    let before = trip_count(home);
    let refused = home.hames("walk --demo --plain").start();
    let refused = refused.wait_with_output().unwrap();
    let told = on_one_line(&String::from_utf8(refused.stdout).unwrap());
    assert_eq!(refused.status.code(), Some(1), "{told}");
    assert!(told.contains(why) && !told.contains("> "), "{told}");
    if why == UNSIGNED {
        let looked = countersign(home, 1, AGREED);
        assert_eq!(looked.status, 1, "{}{}", looked.out, looked.err);
        assert_eq!(looked.out, "");
        assert!(on_one_line(&looked.err).contains(why), "{}", looked.err);
    }
    let sitting = home.hames("--plain").typed(SHORT).run();
    assert!(on_one_line(&sitting.out).contains(why), "{}", sitting.out);
    assert_eq!(trip_count(home), before);
    let (_, command) = told.split_once("Put it in its place: ").unwrap();
    let (command, _) = command.split_once(". The crew is changed").unwrap();
    let typed = Command::new("sh").args(["-c", command]).status().unwrap();
    assert!(typed.success(), "{command}");
    short_trip(home);
    assert_eq!(trip_count(home), before + 1);
}

fn trip_count(home: &Home) -> usize {
    let first = trip(&home.demo(), 1);
    fs::read_dir(first.parent().unwrap()).unwrap().count()
}

#[test]
fn nobody_walks_by_a_crew_file_that_was_changed_by_hand() {
    for (from, to) in [("Tobias Fenn", "Tobias Fenm"), ("", "# ours\n")] {
        let home = barn();
        let crew = home.demo().join("crew/allowed_signers");
        let text = fs::read_to_string(&crew).unwrap();
        fs::write(&crew, text.replacen(from, to, 1)).unwrap();
        is_refused_then_put_right(&home, UNSIGNED);
    }
}

#[test]
fn nobody_walks_by_an_earlier_crew_file_that_was_put_back() {
    let home = barn();
    let crew = home.demo().join("crew/allowed_signers");
    let before = fs::read(&crew).unwrap();
    done(&home, "retire tobias.fenn --why gone", &[], "demo\n");
    fs::write(&crew, before).unwrap();
    is_refused_then_put_right(&home, EARLIER);
}

/// What happens to a crew file, and the word for it.
type Spoilt = (&'static str, fn(&Path));

const SPOILT: &[Spoilt] = &[
    ("is not there", |crew| fs::remove_file(crew).unwrap()),
    (NO_FILE, |crew| {
        fs::remove_file(crew).unwrap();
        fs::create_dir(crew).unwrap();
    }),
    (", and 1 more fault. In force", |crew| {
        fs::write(crew, "nobody\nnobody\n").unwrap();
    }),
    ("had its line ends changed on the way", |crew| {
        let text = fs::read_to_string(crew).unwrap();
        fs::write(crew, text.replace('\n', "\r\n")).unwrap();
    }),
    ("was saved with a byte order mark", |crew| {
        let text = fs::read(crew).unwrap();
        fs::write(crew, [b"\xef\xbb\xbf".as_slice(), &text].concat()).unwrap();
    }),
    ("is damaged, line 1: this is not UTF-8", |crew| {
        let mut bytes = fs::read(crew).unwrap();
        bytes[2] ^= 0x80;
        fs::write(crew, bytes).unwrap();
    }),
    (UNSIGNED, |crew| {
        let text = fs::read_to_string(crew).unwrap();
        fs::write(crew, text.replacen("Tobias Fenn", "Tobias Fenm", 1)).unwrap();
    }),
];

#[test]
fn whoever_looks_at_a_spoilt_crew_file_tells_it_once_with_one_word_and_one_command() {
    for (word, spoil) in SPOILT {
        let home = barn();
        let crew = home.demo().join("crew/allowed_signers");
        let before = fs::read(&crew).unwrap();
        spoil(&crew);
        let mut commands = Vec::new();
        for looks in [
            "walk --demo --plain",
            "doctor --demo",
            "verify share/hames/demo",
            "crew list --demo",
            "logbook countersign --logbook share/hames/demo LAPTOP/1",
        ] {
            let looks = &looks.replace("LAPTOP", &laptop(&home));
            let ended = home.hames(looks).start().wait_with_output().unwrap();
            let told = String::from_utf8([ended.stdout, ended.stderr].concat()).unwrap();
            let told = on_one_line(&told);
            assert_ne!(ended.status.code(), Some(0), "{looks}: {told}");
            assert_eq!(told.matches(word).count(), 1, "{looks}: {told}");
            let (_, command) = told.split_once("Put it in its place: ").unwrap();
            let command = match command.split_once(" && ") {
                Some((away, command)) if *word == NO_FILE => {
                    assert!(away.starts_with("mv "), "{looks}: {told}");
                    command
                }
                _ => command,
            };
            let command = command.strip_prefix("cp ").unwrap();
            assert!(!command.contains(".."), "{looks}: {told}");
            let words = command.split(' ').map(|word| word.trim_end_matches('.'));
            commands.push(
                words
                    .take(2)
                    .map(|word| home.path(word))
                    .collect::<Vec<_>>(),
            );
        }
        commands.dedup();
        assert_eq!(commands.len(), 1, "{commands:?}");
        let [from, to] = commands[0].as_slice() else {
            panic!("{commands:?}");
        };
        if crew.is_dir() {
            fs::rename(&crew, crew.with_extension("moved")).unwrap();
        }
        fs::copy(from, to).unwrap();
        assert_eq!(fs::read(&crew).unwrap(), before, "{word}");
    }
}
