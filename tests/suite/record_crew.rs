//! The crew file: every fault with its line, and never more lenient than the stock tool.

use crate::stock::Bench;
use hames::record::{Crew, Deed, DeviceKey, Dice, Id, LineReason, Mode, Namespace};

const DONE: Namespace = Namespace::new(Deed::Performed, Mode::Real);
const SEAL: &[u8] = b"{\"v\":1}\n";

fn key(which: u8) -> DeviceKey {
    DeviceKey::make(&Dice::new([which; 52]), &Id::read("wren.ashdown").unwrap()).unwrap()
}

/// A crew file in which K1, K2 … stand for keys, NS for the namespace of a real walk.
fn file(text: &str) -> String {
    (1..=3).fold(
        text.replace("NS", "namespaces=\"hames.performed.v1\""),
        |text, which| text.replace(&format!("K{which}"), &key(which).public().to_string()),
    )
}

fn faults(text: &str) -> String {
    match Crew::read(file(text).as_bytes()) {
        Ok(crew) => format!("{} signers", crew.signers().len()),
        Err(faults) => faults.to_string(),
    }
}

#[test]
fn a_crew_file_tells_who_may_sign_as_what() {
    let crew = Crew::read(
        file("# Quillwater Stables\n\nwren.ashdown,role:driver,role:groom NS K1 Wren Ashdown\ntobias.fenn,role:groom NS K2 Tobias Fenn\n")
            .as_bytes(),
    )
    .unwrap();
    let wren = crew.signer(&Id::read("wren.ashdown").unwrap()).unwrap();
    assert_eq!(wren.name.as_str(), "Wren Ashdown");
    assert_eq!(wren.key, *key(1).public());
    assert_eq!(wren.namespaces, [DONE]);
    assert_eq!(
        wren.roles
            .iter()
            .map(|role| role.word())
            .collect::<Vec<_>>(),
        ["driver", "groom"]
    );
    assert_eq!(crew.signers().len(), 2);
    assert_eq!(crew.signer(&Id::read("odile.marsh").unwrap()), None);
}

#[test]
fn a_signer_added_is_the_signer_read_and_the_lines_before_stay() {
    let before =
        Crew::read(file("# note\nwren.ashdown,role:driver NS K1 Wren Ashdown\n").as_bytes())
            .unwrap();
    let other = Crew::read(file("tobias.fenn,role:groom NS K2 Tobias Fenn\n").as_bytes()).unwrap();
    let after = before.add(&other.signers()[0]).unwrap();
    assert_eq!(after.text(), format!("{}{}", before.text(), other.text()));
    assert_eq!(after.signers()[1], other.signers()[0]);
    assert_ne!(after.revision(), before.revision());
    let twice = after.add(&other.signers()[0]).unwrap_err();
    assert!(matches!(
        twice
            .0
            .iter()
            .map(|fault| &fault.reason)
            .collect::<Vec<_>>()[..],
        [LineReason::IdTwice(_, 3), LineReason::KeyTwice(_, 3)]
    ));
}

#[test]
fn every_fault_is_told_at_once_with_its_line() {
    let told = faults(
        "Wren,role:pilot NS K1 Wren Ashdown\n\
         # fine\n\
         tobias.fenn,role:groom cert-authority K2 Tobias Fenn\n\
         odile.marsh,role:manager namespaces=\"hames.witnessed.v1,email\" ssh-rsa AAAA  \n\
         odile.marsh,role:manager,role:device NS K3 Odile Marsh",
    );
    assert_eq!(
        told,
        "line 1: “Wren” is not an id; write small letters and digits, with single points or hyphens between, such as wren.ashdown\n\
         line 1: “role:pilot” is no role; write role:groom, role:driver, role:manager, role:examiner or role:device\n\
         line 1: there is no role; write one behind the id, such as ,role:driver\n\
         line 3: cert-authority would let in keys that are not named; give each person a line with their own key\n\
         line 4: the parts of a line stand one blank apart, with none at its ends and no tabs\n\
         line 5: the last line has no line end, so the file may be cut short; end it with one\n\
         line 5: nobody is a device and a person; give each a line and a key of their own"
    );
}

#[test]
fn a_date_is_refused_because_a_claimed_time_proves_nothing() {
    let told = faults("wren.ashdown,role:driver valid-before=\"20270101\",NS K1 Wren Ashdown\n");
    assert!(told.contains("place in the logbook"), "{told}");
}

#[test]
fn a_changed_line_end_is_named_as_such() {
    let good = file("wren.ashdown,role:driver NS K1 Wren Ashdown\n# one\n# more\n");
    for (changed, reason) in [
        (good.replace('\n', "\r\n"), LineReason::Transit),
        (format!("\u{feff}{good}"), LineReason::Mark),
    ] {
        let faults = Crew::read(changed.as_bytes()).unwrap_err().0;
        let reasons: Vec<_> = faults.iter().map(|fault| &fault.reason).collect();
        assert_eq!(reasons, [&reason], "it is told once");
    }
}

/// Crew files, whether we take Wren's signature by them, and whether the stock tool does.
const CREWS: [(&str, bool, bool); 25] = [
    ("wren.ashdown,role:driver NS K1 Wren Ashdown\n", true, true),
    (
        "# a comment\n\nwren.ashdown,role:driver NS K1 Wren Ashdown\n",
        true,
        true,
    ),
    (
        "tobias.fenn,role:groom NS K2 Tobias Fenn\nwren.ashdown,role:driver NS K1 Wren Ashdown\n",
        true,
        true,
    ),
    (
        "wren.ashdown,role:driver namespaces=\"hames.performed.v1.drill,hames.performed.v1\" K1 Wren Ashdown\n",
        true,
        true,
    ),
    (
        "wren.ashdown,role:driver namespaces=\"hames.performed.v1.drill\" K1 Wren Ashdown\n",
        false,
        false,
    ),
    (
        "wren.ashdown,role:driver NS K2 Wren Ashdown\n",
        false,
        false,
    ),
    ("tobias.fenn,role:driver NS K1 Tobias Fenn\n", false, false),
    ("", false, false),
    (
        "wren.ashdown,role:driver colour=\"bay\" K1 Wren Ashdown\n",
        false,
        false,
    ),
    (
        "wren.ashdown,role:driver NS ssh-ed25519 AAAA Wren Ashdown\n",
        false,
        false,
    ),
    (
        "wren.ashdown,role:driver namespaces=\"hames.performed.v1 K1 Wren Ashdown\n",
        false,
        false,
    ),
    (
        "wren.ashdown,role:driver valid-before=\"20010101\",NS K1 Wren Ashdown\n",
        false,
        false,
    ),
    // From here on we are the stricter one.
    ("wren.ashdown,role:driver K1 Wren Ashdown\n", false, true),
    ("wren.*,role:driver NS K1 Wren Ashdown\n", false, true),
    ("*,!tobias.fenn NS K1 Wren Ashdown\n", false, true),
    ("wren.ashdown NS K1 Wren Ashdown\n", false, true),
    ("wren.ashdown,role:driver NS K1\n", false, true),
    ("wren.ashdown,role:driver NS K1 Wren Ashdown", false, true),
    (
        " wren.ashdown,role:driver\tNS K1 Wren Ashdown\n",
        false,
        true,
    ),
    (
        "wren.ashdown,role:driver NAMESPACES=\"hames.performed.v1\" K1 Wren Ashdown\n",
        false,
        true,
    ),
    (
        "wren.ashdown,role:driver valid-after=\"20010101\",NS K1 Wren Ashdown\n",
        false,
        true,
    ),
    (
        "not a line\nwren.ashdown,role:driver NS K1 Wren Ashdown\n",
        false,
        true,
    ),
    (
        "wren.ashdown,role:driver NS K1 Wren Ashdown\nwren.ashdown,role:groom NS K2 Wren Ashdown\n",
        false,
        true,
    ),
    (
        "wren.ashdown,role:driver NS K1 Wren Ashdown\ntobias.fenn,role:groom NS K1 Tobias Fenn\n",
        false,
        true,
    ),
    (
        "wren.ashdown,role:driver NS K1 Wren \u{202e}nwodhsA\n",
        false,
        true,
    ),
];

/// In each case we take no more than the stock tool takes.
#[test]
fn a_crew_file_we_take_is_one_the_stock_tool_takes() {
    let bench = Bench::new();
    let armor = key(1).sign(DONE, SEAL).unwrap();
    for (text, ours, stock) in CREWS {
        let crew = file(text);
        let answer = bench.verify(&crew, "wren.ashdown", DONE.name(), SEAL, &armor);
        assert_eq!(answer.good, stock, "{crew}{}", answer.said);
        let id = Id::read("wren.ashdown").unwrap();
        let judged = Crew::read(crew.as_bytes()).is_ok_and(|crew| {
            let role = crew.signer(&id).map(|signer| signer.roles[0]);
            role.is_some_and(|role| crew.verify((&id, role), DONE, SEAL, &armor).is_ok())
        });
        assert_eq!(judged, ours, "{crew}");
    }
}

/// Every one-byte change of a crew file that we still take means the same to the stock tool.
#[test]
fn no_one_byte_change_makes_us_take_what_the_stock_tool_refuses() {
    let bench = Bench::new();
    let armor = key(1).sign(DONE, SEAL).unwrap();
    let good = file("wren.ashdown,role:driver NS K1 Wren Ashdown\n").into_bytes();
    let mut still_good = 0;
    for at in 0..good.len() {
        for bit in 0..8 {
            let mut changed = good.clone();
            changed[at] ^= 1 << bit;
            let Ok(crew) = Crew::read(&changed) else {
                continue;
            };
            for signer in crew.signers() {
                let role = signer.roles[0];
                let judged = crew.verify((&signer.id, role), DONE, SEAL, &armor);
                if judged.is_ok() {
                    let who = signer.id.as_str();
                    let answer = bench.verify(&changed, who, DONE.name(), SEAL, &armor);
                    assert!(answer.good, "{}: {}", crew.text(), answer.said);
                    still_good += 1;
                }
            }
        }
    }
    assert!(still_good > 0);
}
