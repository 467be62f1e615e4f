//! A sealed journal, cut and changed in every way: it never reads as whole and intact again.

use hames::record::{
    Body, Chain, Counts, Digest, Id, Mode, NotClosed, Parts, PrintedName, Role, Seal, Tail, Tip,
    Version, Wall, meaning, read_chain,
};
use hames::walk::{Ended, Words};
use proptest::prelude::*;

fn id(text: &str) -> Id {
    Id::read(text).unwrap()
}

fn wall() -> Wall {
    Wall::read("2026-11-25T07:14:03.250-05:00").unwrap()
}

/// A journal of five lines and the bytes of its seal.
fn sealed() -> (Vec<u8>, Vec<u8>) {
    let mut journal = Vec::new();
    let mut tip = Tip::START;
    for (mono, note) in (0..).zip(["open", "pin in", "65 psi", "Häcksel \u{7}", "done"]) {
        let body = Body::write(&std::collections::BTreeMap::from([("text", note)])).unwrap();
        let parts = Parts {
            version: Version::V1,
            wall: wall(),
            mono,
            boot: Words::read("5f0c").unwrap(),
            actor: Words::read("Wren Ashdown").unwrap(),
            kind: id("note"),
            body,
        };
        let (line, next) = tip.append(parts).unwrap();
        journal.extend(line);
        tip = next;
    }
    (journal, seal(tip).write().unwrap())
}

fn seal(tip: Tip) -> Seal {
    Seal {
        trip: id("9f0c11b2"),
        mode: Mode::Real,
        device: id("laptop-7f3a"),
        seq: 12,
        lines: tip.lines,
        last: tip.last,
        outcome: Ended::Complete,
        counts: Counts {
            ok: 4,
            note: 1,
            fix: 0,
            stop: 0,
        },
        meaning: meaning(Ended::Complete).to_owned(),
        name: PrintedName::read("Wren Ashdown").unwrap(),
        role: Role::Driver,
        person: id("wren.ashdown"),
        wall: wall(),
    }
}

fn lines_in(bytes: &[u8]) -> usize {
    bytes.split(|byte| *byte == b'\n').count() - 1
}

fn closed(journal: &[u8], seal: &[u8]) -> Result<(), NotClosed> {
    Seal::read(seal).unwrap().closes(&read_chain(journal))
}

#[test]
fn a_sealed_journal_is_whole_and_its_seal_closes_it() {
    let (journal, seal) = sealed();
    assert!(read_chain(&journal).is_intact());
    assert_eq!(closed(&journal, &seal), Ok(()));
}

#[test]
fn a_journal_cut_anywhere_is_never_called_complete_and_its_whole_lines_survive() {
    let (journal, seal) = sealed();
    let whole = read_chain(&journal).links;
    for cut in 0..journal.len() {
        let Chain {
            links,
            tail,
            faults,
        } = read_chain(&journal[..cut]);
        let before = lines_in(&journal[..cut]);
        assert_eq!(links, whole[..before], "cut at {cut}");
        assert_eq!(faults, [], "cut at {cut}");
        let rest = journal[..cut].rsplit(|byte| *byte == b'\n').next().unwrap();
        let expected = if rest.is_empty() {
            Tail::Whole
        } else {
            Tail::Torn(rest.to_vec())
        };
        assert_eq!(tail, expected, "cut at {cut}");
        assert!(closed(&journal[..cut], &seal).is_err(), "cut at {cut}");
    }
}

#[test]
fn a_journal_changed_in_any_one_bit_is_never_called_intact() {
    let (journal, seal) = sealed();
    for at in 0..journal.len() {
        for bit in 0..8 {
            let mut changed = journal.clone();
            changed[at] ^= 1 << bit;
            assert!(closed(&changed, &seal).is_err(), "byte {at}, bit {bit}");
            let line = lines_in(&journal[..at]) + 1;
            let chain = read_chain(&changed);
            // Only the last line can change without the chain itself telling; the seal tells.
            if let Some(first) = chain.faults.first() {
                assert!((line..=line + 1).contains(&first.line()), "{first}");
            } else {
                assert!(line == 5, "byte {at}, bit {bit}");
            }
        }
    }
}

#[test]
fn a_seal_changed_in_any_one_bit_closes_nothing_or_has_another_hash() {
    let (journal, seal) = sealed();
    for at in 0..seal.len() {
        for bit in 0..8 {
            let mut changed = seal.clone();
            changed[at] ^= 1 << bit;
            assert_ne!(Seal::hash(&changed), Seal::hash(&seal));
            if let Ok(read) = Seal::read(&changed) {
                assert_eq!(read.write().unwrap(), changed, "one seal, one spelling");
                let _ = read.closes(&read_chain(&journal));
            }
        }
    }
}

#[test]
fn a_seal_of_another_journal_closes_nothing() {
    let (journal, _) = sealed();
    let tip = read_chain(&journal).tip();
    let shorter = Tip { lines: 4, ..tip };
    let other = Tip {
        last: Digest::of(b""),
        ..tip
    };
    let judge = |tip| seal(tip).closes(&read_chain(&journal));
    assert_eq!(judge(tip), Ok(()));
    assert_eq!(
        judge(shorter),
        Err(NotClosed::Lines {
            sealed: 4,
            found: 5
        })
    );
    assert_eq!(judge(other), Err(NotClosed::Last));
}

#[test]
fn a_seal_is_one_line_with_these_fields_in_this_order() {
    let (_, seal) = sealed();
    let text = String::from_utf8(seal).unwrap();
    assert_eq!(
        text,
        "{\"v\":1,\"trip\":\"9f0c11b2\",\"mode\":\"real\",\"device\":\"laptop-7f3a\",\"seq\":12,\
         \"lines\":5,\"last\":\"LAST\",\"outcome\":\"complete\",\
         \"counts\":{\"ok\":4,\"note\":1,\"fix\":0,\"stop\":0},\
         \"meaning\":\"Every step was done by the people named here, and what is written here is what we saw and read.\",\
         \"name\":\"Wren Ashdown\",\"role\":\"driver\",\"person\":\"wren.ashdown\",\
         \"wall\":\"2026-11-25T07:14:03.250-05:00\"}\n"
            .replace("LAST", &read_chain(&sealed().0).tip().last.to_string())
    );
    for (part, other) in [
        ("\"real\"", "\"practice\""),
        ("\"complete\"", "\"done\""),
        ("\"driver\"", "\"pilot\""),
        ("\"stop\":0", "\"stop\":0,\"fix\":0"),
        (",\"stop\":0", ""),
        ("\"Wren Ashdown\"", "\"Wren \\u001b[2J\""),
        ("\"Every step", "\"\\nEvery step"),
        ("}\n", "}"),
        ("}\n", "}\r\n"),
        ("}\n", "}\n\n"),
    ] {
        let changed = text.replacen(part, other, 1);
        assert_ne!(changed, text);
        assert!(Seal::read(changed.as_bytes()).is_err(), "{changed}");
    }
}

proptest! {
    #[test]
    fn whatever_the_bytes_reading_them_does_not_panic(bytes: Vec<u8>, text in "[{}\\[\\]\":,0-9a-z\\n\\\\]{0,200}") {
        let _ = (read_chain(&bytes), read_chain(text.as_bytes()));
        let _ = (Seal::read(&bytes), Seal::read(text.as_bytes()));
    }

    #[test]
    fn bytes_put_in_or_taken_out_anywhere_are_noticed(
        at: prop::sample::Index, gone in 0usize..400, put in prop::collection::vec(any::<u8>(), 0..40),
    ) {
        let (journal, seal) = sealed();
        let from = at.index(journal.len());
        let to = (from + gone).min(journal.len());
        let mut changed = journal.clone();
        changed.splice(from..to, put);
        if changed != journal {
            prop_assert!(closed(&changed, &seal).is_err());
        }
    }
}
