//! Journals written by hand and signed with keys of the crew: every byte is right, and no walk
//! comes to that.

use super::demo::{BEGIN, sealed};
use crate::harness::home::{Home, trip};
use hames::record::{
    Counts, Deed, DeviceKey, Id, LockedKey, Mode, Namespace, Passphrase, PrintedName, Role, Said,
    Seal, Tip, append, read_chain,
};
use hames::rules::Verdict;
use hames::walk::{After, Ended, Entry, Event, Given, Moment, Words};
use std::fs;
use std::path::Path;
use zeroize::Zeroizing;

/// What a forger does to the entries of a walk.
type Forgery = fn(&mut Vec<Entry>);

fn is_about(event: &Event, wanted: &str) -> bool {
    let (Event::Opened { step } | Event::Answered { step, .. }) = event else {
        return false;
    };
    step.as_str() == wanted
}

/// The journal written anew, every hash in place.
fn rewrite(folder: &Path, forge: impl Fn(&mut Vec<Entry>)) -> Vec<Entry> {
    let path = folder.join("trip.jsonl");
    let chain = read_chain(&fs::read(&path).unwrap());
    let begun = chain.links[0].said.clone().unwrap();
    let mut entries: Vec<Entry> = chain.links[1..]
        .iter()
        .map(|link| match link.said.clone().unwrap() {
            Said::Begun(_) => panic!("begun twice"),
            Said::Drilled(_) => panic!("no drill"),
            Said::Happened(event) => Entry {
                at: link.heading.at(),
                actor: link.heading.actor.clone(),
                event: *event,
            },
        })
        .collect();
    forge(&mut entries);
    let first = &chain.links[0].heading;
    let (mut journal, mut tip) = append(Tip::START, &first.at(), &first.actor, &begun).unwrap();
    for Entry { at, actor, event } in &entries {
        let happened = Said::Happened(Box::new(event.clone()));
        let (line, next) = append(tip, at, actor, &happened).unwrap();
        journal.extend(line);
        tip = next;
    }
    fs::write(path, journal).unwrap();
    entries
}

/// Seal and signatures made anew, by this person of the demo crew.
fn reseal(home: &Home, folder: &Path, entries: &[Entry], (id, name): (&str, &str)) {
    let tip = read_chain(&fs::read(folder.join("trip.jsonl")).unwrap()).tip();
    let old = Seal::read(&fs::read(folder.join("seal.json")).unwrap()).unwrap();
    let seal = Seal {
        lines: tip.lines,
        last: tip.last,
        counts: Counts::of(entries),
        person: Id::read(id).unwrap(),
        name: PrintedName::read(name).unwrap(),
        role: match id {
            "odile.marsh" => Role::Manager,
            _ => Role::Driver,
        },
        ..old
    };
    let bytes = seal.write().unwrap();
    let key = |id: &str| fs::read_to_string(home.demo().join("keys").join(id)).unwrap();
    let phrase = Passphrase::new(Zeroizing::new("demo".to_owned())).unwrap();
    let person = LockedKey::read(&key(id)).unwrap();
    let device = DeviceKey::read(&key(seal.device.as_str())).unwrap();
    let by = |deed| Namespace::new(deed, Mode::Demo);
    let by_person = person.sign(&phrase, by(Deed::Performed), &bytes).unwrap();
    let by_device = device.sign(by(Deed::Witnessed), &bytes).unwrap();
    fs::write(folder.join("seal.json"), &bytes).unwrap();
    fs::write(folder.join("seal.person.sig"), by_person).unwrap();
    fs::write(folder.join("seal.device.sig"), by_device).unwrap();
}

fn later(at: &Moment, seconds: i64) -> Moment {
    Moment {
        wall: at.wall + chrono::TimeDelta::seconds(seconds),
        mono_ms: at.mono_ms + u64::try_from(seconds).unwrap() * 1000,
        ..at.clone()
    }
}

/// A step is taken out of the walk.
fn skip(entries: &mut Vec<Entry>) {
    entries.retain(|entry| !is_about(&entry.event, "second-look"));
}

/// The doer is the second pair of eyes.
fn alone(entries: &mut Vec<Entry>) {
    for entry in entries {
        if let Event::Answered {
            doer,
            given: Given::Seen { by: Some(by), .. },
            ..
        } = &mut entry.event
        {
            *by = doer.clone();
        }
    }
}

/// A bad state is called ok.
fn gloss_over(entries: &mut Vec<Entry>) {
    for entry in entries {
        if let Event::Answered {
            step,
            given: Given::Seen { state, verdict, .. },
            ..
        } = &mut entry.event
            && step.as_str() == "lift-gap"
        {
            "opens".clone_into(state);
            *verdict = Verdict::Ok;
        }
    }
}

/// The limits of a reading, and with them its verdict, are left away.
fn unlimit(entries: &mut Vec<Entry>) {
    for entry in entries {
        if let Event::Answered {
            given: Given::Read { judgement, .. },
            ..
        } = &mut entry.event
        {
            judgement.held.clear();
            judgement.decided_by = None;
        }
    }
}

/// Half an hour away, and nothing is looked at again.
fn stroll(entries: &mut Vec<Entry>) {
    let before = entries[9].clone();
    let away = |seconds, event| Entry {
        at: later(&before.at, seconds),
        actor: before.actor.clone(),
        event,
    };
    let why = Some(Words::read("coffee").unwrap());
    let held = away(0, Event::Held { why, next: None });
    let resumed = away(
        1800,
        Event::Resumed {
            after: After::Hold,
            stood_ms: 1_800_000,
            look_again: Vec::new(),
        },
    );
    entries.splice(10..10, [held, resumed]);
}

#[test]
fn a_journal_made_by_hand_and_signed_by_the_crew_is_told_from_a_walk() {
    let home = sealed();
    let folder = trip(&home.demo(), 1);
    let journal = fs::read(folder.join("trip.jsonl")).unwrap();
    let wren = ("wren.ashdown", "Wren Ashdown");
    let forgeries: [(Forgery, (&str, &str), &str); 6] = [
        (skip, wren, "the same act comes to something else"),
        (alone, wren, "Tobias Fenn did the work and cannot be"),
        (gloss_over, wren, "the same act comes to something else"),
        (unlimit, wren, "the same act comes to something else"),
        (stroll, wren, "the same act comes to something else"),
        (
            |_| {},
            ("odile.marsh", "Odile Marsh"),
            "it was signed by someone who neither read nor did it",
        ),
    ];
    for (forge, signer, why) in forgeries {
        fs::write(folder.join("trip.jsonl"), &journal).unwrap();
        let entries = rewrite(&folder, forge);
        reseal(&home, &folder, &entries, signer);
        let ended = home.hames("verify share/hames/demo").run();
        assert_eq!(ended.status, 18, "{why}: {}{}", ended.out, ended.err);
        assert!(ended.out.contains(why), "{why}: {}", ended.out);
        let words = "  walked again by the rules of this program, line ";
        assert!(ended.out.contains(words), "{}", ended.out);
    }
    // The honest walk, written and signed anew the same way, is a walk.
    fs::write(folder.join("trip.jsonl"), &journal).unwrap();
    let entries = rewrite(&folder, |_| {});
    reseal(&home, &folder, &entries, wren);
    assert_eq!(home.hames("verify share/hames/demo").run().status, 9);
}

#[test]
fn a_walk_ended_by_hand_in_its_journal_cannot_be_taken_up_and_signed() {
    let home = Home::new();
    assert_eq!(home.hames("--plain").typed(BEGIN).run().status, 0);
    let folder = trip(&home.demo(), 1);
    rewrite(&folder, |entries| {
        let last = entries.last().unwrap().clone();
        let event = Event::Ended {
            outcome: Ended::Complete,
            words: None,
        };
        entries.push(Entry { event, ..last });
    });
    let ended = home.hames("--plain").typed("1\n1\ndemo\nquit\n").run();
    assert!(!ended.out.contains("Sealed."), "{}", ended.out);
    let verified = home.hames("verify share/hames/demo").run();
    assert_eq!(verified.status, 18, "{}", verified.out);
    assert!(
        verified.out.contains("the act is refused. Not complete: "),
        "{}",
        verified.out
    );
}
