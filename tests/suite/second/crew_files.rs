//! Crew files, one as each rule of the format has it and one against it: whether they are taken, by
//! the program's library and by the second verifier.

use crate::architecture::root;
use crate::harness::hardware::{Hardware, TOUCHED, UNTOUCHED};
use crate::harness::tools;
use crate::record_trip::{LAPTOP, TOBIAS, WREN};
use hames::record::{Crew, Deed, Mode, Namespace, Role};
use ssh_key::public::KeyData;
use std::fs;
use std::process::Command;

/// Runs a few lines of Python beside the second verifier, in a folder.
fn python(folder: &std::path::Path, lines: &str) -> String {
    let ended = Command::new(tools::python())
        .args(["-c", lines])
        .env("PYTHONPATH", root().join("tests/second"))
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .current_dir(folder)
        .output()
        .unwrap();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    assert!(ended.status.success(), "{}", text(&ended.stderr));
    text(&ended.stdout)
}

/// Whether each of these files is taken.
const TAKEN: &str = "
import pathlib, signed
for path in sorted(pathlib.Path('.').glob('0*')):
    try:
        print('taken', *signed.Crew(path))
    except ValueError:
        print('refused')
";

fn line(principals: &str, spaces: &str, key: &str, name: &str) -> String {
    format!("{principals} namespaces=\"{spaces}\" {key} {name}\n")
}

/// Lines of one person: what it is, principals, namespaces, key and name.
const TAKEN_SO: &str = "
one person | wren.ashdown,role:driver | performed | wren | Wren Ashdown
a manager | a,role:manager | performed,approved,stated | wren | A
a device | a,role:device | witnessed | laptop | A
two roles | a,role:driver,role:manager | performed,approved,stated | wren | A
a hardware key | a,role:groom | performed | touch | A
";

const REFUSED_SO: &str = "
a role twice | a,role:groom,role:groom | performed | wren | A
a device that is a person | a,role:device,role:groom | performed | wren | A
a person who witnesses | a,role:groom | witnessed | wren | A
a device that performs | a,role:device | performed | laptop | A
a groom who approves | a,role:groom | approved | wren | A
a groom who states | a,role:groom | stated | wren | A
a namespace twice | a,role:groom | performed,performed | wren | A
a namespace of others | a,role:groom | others | wren | A
a device with a hardware key | a,role:device | witnessed | touch | A
a hardware key made for a web page | a,role:groom | performed | web | A
a key of small order | a,role:groom | performed | weak | A
a pattern | *,role:groom | performed | wren | A
no role | a | performed | wren | A
a name with a blank of another kind | a,role:groom | performed | wren | A\u{a0}B
a name that turns the writing | a,role:groom | performed | wren | A\u{202e}B
two blanks | a,role:groom | performed | wren |  A
";

/// A key by its word.
fn key(word: &str) -> String {
    let touch = Hardware::new(7).line();
    match word {
        "wren" => WREN.public().to_string(),
        "tobias" => TOBIAS.public().to_string(),
        "laptop" => LAPTOP.public().to_string(),
        "web" => Hardware::made_for(7, "webauthn").line(),
        // The point of order 1, under which a signature of zeros passes.
        "weak" => {
            let mut weak = b"\0\0\0\x0bssh-ed25519\0\0\0\x20\x01".to_vec();
            weak.resize(51, 0);
            format!("ssh-ed25519 {}", base64(&weak))
        }
        // The same point as the hardware key's, as a key file has it.
        "untouched" => match ssh_key::PublicKey::from_openssh(&touch).unwrap().key_data() {
            KeyData::SkEd25519(key) => ssh_key::PublicKey::from(*key.public_key())
                .to_openssh()
                .unwrap(),
            other => panic!("{other:?}"),
        },
        _ => touch,
    }
}

/// A line of a crew file, of a row.
fn row(row: &str) -> (String, String) {
    let cells: Vec<&str> = row.splitn(5, " | ").collect();
    let [what, principals, spaces, word, name] = cells[..] else {
        panic!("{row}")
    };
    let spaces = spaces.split(',').map(|deed| format!("hames.{deed}.v1"));
    let spaces: Vec<String> = spaces.collect();
    let line = line(principals, &spaces.join(","), &key(word), name);
    (what.to_owned(), line)
}

fn rows(rows: &str) -> Vec<(String, String)> {
    rows.trim().lines().map(row).collect()
}

/// What is wrong with a file as a whole, or how it is written.
fn spoilt() -> Vec<(String, String)> {
    let one = |person: &str| row(person).1;
    let good = one("x | wren.ashdown,role:driver | performed | wren | Wren Ashdown");
    let again = one("x | wren.ashdown,role:groom | performed | tobias | B");
    let lent = one("x | b,role:groom | performed | wren | B");
    let touched = one("x | a,role:groom | performed | touch | A");
    let in_file = one("x | b,role:groom | performed | untouched | B");
    let long = "x".repeat(101);
    [
        ("an id twice", good.clone() + &again),
        ("a key twice", good.clone() + &lent),
        ("one key in hardware and in a file", touched + &in_file),
        ("no name", good.replace(" Wren Ashdown", "")),
        ("a name too long", good.replace("Wren Ashdown", &long)),
        ("a control in a comment", format!("# \u{1b}[2J\n{good}")),
        (
            "an authority",
            good.replace(" namespaces", " cert-authority,namespaces"),
        ),
        (
            "a day",
            good.replace(" namespaces", " valid-before=\"20300101\",namespaces"),
        ),
        ("no line end", good.trim_end().to_owned()),
        ("another line end", good.replace('\n', "\r\n")),
    ]
    .map(|(what, text)| (what.to_owned(), text))
    .to_vec()
}

#[test]
fn both_take_the_same_crew_files_and_refuse_the_same() {
    let mut taken = rows(TAKEN_SO);
    let good = taken[0].1.clone();
    taken.push(("nobody".to_owned(), String::new()));
    taken.push(("a comment".to_owned(), format!("# a\ttab\n{good}")));
    let refused = [rows(REFUSED_SO), spoilt()].concat();
    let taken = taken.into_iter().map(|case| (case, true));
    let all: Vec<_> = taken
        .chain(refused.into_iter().map(|case| (case, false)))
        .collect();
    let home = tempfile::tempdir().unwrap();
    for (at, ((_, text), _)) in all.iter().enumerate() {
        fs::write(home.path().join(format!("0{at:03}")), text).unwrap();
    }
    let told = python(home.path(), TAKEN);
    assert_eq!(told.lines().count(), all.len());
    for (((what, text), taken), theirs) in all.iter().zip(told.lines()) {
        let ours = Crew::read(text.as_bytes());
        assert_eq!(ours.is_ok(), *taken, "{what}: {text}");
        assert_eq!(theirs.starts_with("taken"), *taken, "{what}: {theirs}");
    }
}

#[test]
fn both_hold_a_hardware_key_to_the_touch_and_to_what_it_was_made_for() {
    let hardware = Hardware::new(7);
    let space = Namespace::new(Deed::Performed, Mode::Real);
    let crew = line(
        "odile.marsh,role:manager",
        space.name(),
        &hardware.line(),
        "Odile Marsh",
    );
    let home = tempfile::tempdir().unwrap();
    fs::write(home.path().join("crew"), &crew).unwrap();
    let read = Crew::read(crew.as_bytes()).unwrap();
    let seal = b"{\"v\":1}\n";
    for (flags, good) in [(TOUCHED, true), (UNTOUCHED, false)] {
        let armor = hardware.armor(space.name(), seal, flags);
        let who = hames::record::Id::read("odile.marsh").unwrap();
        let ours = read.verify((&who, Role::Manager), space, seal, &armor);
        fs::write(home.path().join("seal.person.sig"), &armor).unwrap();
        let judge = "
import pathlib, signed
faults, at = signed.Faults(), pathlib.Path('seal.person.sig')
crew = signed.Crew(pathlib.Path('crew'))
crew.judge(faults.need, 'odile.marsh', 'manager', 'performed', 'real', b'{\"v\":1}\\n', at)
print(faults.worst())
";
        let theirs = python(home.path(), judge);
        assert_eq!(ours.is_ok(), good);
        assert_eq!(theirs, if good { "intact\n" } else { "altered\n" });
    }
}

fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let number = three
            .iter()
            .fold(0_usize, |all, byte| all * 256 + usize::from(*byte));
        for place in [18, 12, 6, 0] {
            text.push(char::from(LETTERS[number >> place & 63]));
        }
    }
    text
}
