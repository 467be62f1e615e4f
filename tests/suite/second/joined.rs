//! What one manager signed on two laptops apart, until a manager joins it; judged by the program and by the
//! second verifier.

use super::barns::{both, change, merged};
use super::statements::{Batch, write};
use crate::barn50::making::{Barn, people};
use crate::barn50::words::{close, forked};
use crate::record_statements::{Office, Said, countersigned, key, manager, people as first, read};
use crate::record_trip::{WREN, id, phrase, words};
use hames::logbook::unanswered;
use hames::record::{
    Changed, Countersigned, Digest, Joined, Mode, Opinion, PrintedName, Says, Stated, Statement,
};

const ODILE: &str = "odile.marsh";
const TOBIAS: &str = "tobias.fenn";

/// A join of everything that ends a row of Odile's statements.
pub(super) fn join(office: &Office) -> Says {
    let statements = office.read();
    let ends = statements.ends_of(&id(ODILE)).into_iter();
    joining(ODILE, ends.map(Stated::hash).collect())
}

fn joining(who: &str, mut ends: Vec<Digest>) -> Says {
    ends.sort_unstable();
    Says::Joined(Joined {
        manager: id(who),
        ends,
        words: words("I signed at home as well."),
    })
}

/// Odile, and Tobias as a second manager.
fn office() -> Office {
    let mut office = Office::founded();
    let tobias = manager(TOBIAS, "Tobias Fenn");
    let both = first().add(&tobias).unwrap();
    office.change_crew(ODILE, both, &[(TOBIAS, Changed::Added)]);
    office.state(TOBIAS, countersigned(2));
    office
}

/// Everything that either has.
fn with(one: &Office, other: &Office) -> Office {
    let mut all = one.clone();
    let known = |said: &&Said| !one.said.iter().any(|own| own.statement == said.statement);
    all.said.extend(other.said.iter().filter(known).cloned());
    all
}

/// Odile has signed one statement on one laptop, and two on another.
fn apart() -> Office {
    let (mut one, mut other) = (office(), office());
    one.state(ODILE, countersigned(3));
    other.state(ODILE, countersigned(4));
    other.state(ODILE, countersigned(5));
    with(&one, &other)
}

fn told(office: &Office) -> Vec<String> {
    let statements = office.read();
    let faults = statements.faults().iter();
    faults.map(ToString::to_string).collect()
}

#[test]
fn both_tell_what_a_manager_signed_apart_until_any_manager_joins_it() {
    let mut batch = Batch::default();
    let open = apart();
    batch.put("open", open.said.clone());
    assert_eq!(
        told(&open),
        [
            "odile.marsh signed different statements 3: on two laptops that did not know of each \
          other, or somebody has a copy of the key. All are kept, and a manager looks into them: \
          hames logbook close-fork odile.marsh 3"
        ]
    );
    // Whoever goes on without a word on it leaves it open.
    let mut goes_on = open.clone();
    goes_on.state(ODILE, countersigned(6));
    goes_on.state(TOBIAS, countersigned(6));
    batch.put("gone on", goes_on.said.clone());
    for by in [ODILE, TOBIAS] {
        for before in [&open, &goes_on] {
            let mut office = before.clone();
            office.state(by, join(&office));
            let own = office.read();
            let own = own.newest_of(&id(by)).unwrap().statement().clone();
            assert_eq!(Statement::read(&own.write().unwrap()), Ok(own));
            batch.put(&format!("joined by {by}"), office.said.clone());
            office.state(ODILE, countersigned(7));
            batch.put("and on", office.said.clone());
            assert_eq!(told(&office), [""; 0]);
            // A third laptop comes, which knew of neither.
            let mut third = self::office();
            third.state(ODILE, countersigned(8));
            let mut office = with(&office, &third);
            batch.put("a third", office.said.clone());
            office.state(by, join(&office));
            batch.put("joined too", office.said);
        }
    }
    let joined = ["intact", "intact", "fork", "intact"];
    let joined = [joined, joined, joined, joined].concat();
    assert_eq!(batch.both(), [["fork"; 2].as_slice(), &joined].concat());
}

#[test]
fn both_take_no_join_that_names_too_little_or_is_nobodys_who_may() {
    let open = apart();
    let statements = open.read();
    let end = |at: usize| statements.ends_of(&id(ODILE))[at].hash();
    let mut batch = Batch::default();
    let mut put = |name: &str, says: Says| {
        let mut office = open.clone();
        office.state(TOBIAS, says);
        batch.put(name, office.said);
    };
    // One row, and what it stands on; nobody's; another's name on it.
    let newest = statements.newest_of(&id(ODILE)).unwrap();
    let before = newest.statement().previous.unwrap();
    put("one row", joining(ODILE, vec![newest.hash(), before]));
    put("another's", joining(TOBIAS, vec![end(0), end(1)]));
    let unknown = Digest::of(b"none");
    put("a strange one", joining(ODILE, vec![end(0), unknown]));
    // Everything is named by statements of another kind.
    let mut known = open.clone();
    known.state(TOBIAS, countersigned(9));
    batch.put("known", known.said);
    // By a groom, under her own name and under a manager's.
    for (who, name) in [("wren.ashdown", "Wren Ashdown"), (ODILE, "Odile Marsh")] {
        let mut office = open.clone();
        let mut says = office.next(TOBIAS, join(&office));
        says.manager = id(who);
        says.name = PrintedName::read(name).unwrap();
        says.known.retain(|known| known.manager != id(who));
        let bytes = says.write().unwrap();
        let signed = WREN.sign(&phrase(), Statement::namespace(Mode::Real), &bytes);
        office.said.push(Said {
            statement: bytes,
            signature: signed.unwrap().into_bytes(),
            crew: None,
        });
        batch.put(&format!("by a groom as {who}"), office.said);
    }
    // With a key that had been taken out.
    for how in [Changed::Retired, Changed::Revoked] {
        let mut office = open.clone();
        let thief = office.next(TOBIAS, join(&office));
        office.change_crew(ODILE, first(), &[(TOBIAS, how)]);
        office.sign(&thief, None);
        batch.put(&format!("{how:?}"), office.said);
    }
    let told = batch.both();
    let strange = told.iter().position(|word| word == "gap");
    assert_eq!(strange, Some(2), "what it names is not here");
    assert!(
        told.iter()
            .all(|word| ["fork", "gap"].contains(&word.as_str()))
    );
}

#[test]
fn what_somebody_signs_with_a_key_that_was_taken_out_makes_no_fork() {
    let mut batch = Batch::default();
    for (how, word) in [
        (Changed::Retired, "outside-bracket"),
        (Changed::Revoked, "revoked-signer"),
    ] {
        let mut office = office();
        let thief = office.next(TOBIAS, countersigned(8));
        office.state(TOBIAS, countersigned(7));
        office.change_crew(ODILE, first(), &[(TOBIAS, how)]);
        office.sign(&thief, None);
        assert_eq!(told(&office).len(), 1, "{word} alone");
        batch.put(word, office.said);
    }
    assert_eq!(batch.both(), ["outside-bracket", "revoked-signer"]);
}

#[test]
fn a_join_has_one_spelling_and_a_version_of_its_own() {
    let mut office = apart();
    office.state(TOBIAS, join(&office));
    let text = String::from_utf8(office.last().statement.clone()).unwrap();
    let ends = office.read();
    let ends = ends.ends_of(&id(ODILE));
    let (low, high) = (ends[0].hash().to_string(), ends[1].hash().to_string());
    let mut batch = Batch::default();
    let tobias = key(TOBIAS);
    for (part, other) in [
        ("{\"v\":2", "{\"v\":1"),
        ("\"kind\":\"joined\"", "\"kind\":\"apart\""),
        (low.as_str(), high.as_str()),
        ("It was this manager", "It may be this manager"),
    ] {
        let changed = text.replace(part, other);
        assert_ne!(changed, text, "{part}");
        let signed = tobias.sign(Statement::namespace(Mode::Real), changed.as_bytes());
        let mut office = office.clone();
        let said = office.said.last_mut().unwrap();
        said.statement = changed.into_bytes();
        said.signature = signed.unwrap().into_bytes();
        assert!(Statement::read(&said.statement).is_err(), "{part}");
        batch.put(part, office.said);
    }
    let mut newer = office.clone();
    newer.state(ODILE, countersigned(9));
    let last = newer.said.last_mut().unwrap();
    let text = String::from_utf8(last.statement.clone()).unwrap();
    let text = text.replace("{\"v\":1", "{\"v\":2");
    assert!(Statement::read(text.as_bytes()).is_err());
    assert_eq!(batch.both(), ["unreadable"; 4]);
}

#[test]
fn where_one_side_asks_and_the_other_agrees_the_question_stands_until_it_is_said_once_more() {
    let said = |opinion, remarks: Option<&str>| {
        let Says::Countersigned(says) = countersigned(3) else {
            panic!("another kind");
        };
        Says::Countersigned(Countersigned {
            opinion,
            remarks: remarks.map(words),
            ..says
        })
    };
    let (mut asks, mut agrees) = (office(), office());
    asks.state(ODILE, said(Opinion::Asked, Some("Why so late?")));
    agrees.state(ODILE, said(Opinion::Agreed, None));
    // Further on, so that its number is the higher.
    agrees.state(ODILE, countersigned(4));
    agrees.state(ODILE, said(Opinion::Agreed, Some("Seen twice.")));
    let stands = |office: &Office| unanswered(&read(&office.said)).len() == 1;
    for mut office in [with(&asks, &agrees), with(&agrees, &asks)] {
        assert!(stands(&office));
        office.state(TOBIAS, join(&office));
        assert!(stands(&office), "a join answers nothing");
        office.state(ODILE, said(Opinion::Agreed, Some("He was held up.")));
        assert!(!stands(&office));
    }
}

#[test]
fn both_keep_a_fork_open_that_one_manager_closed_in_opposite_ways_until_it_is_closed_again() {
    let (mut barn, [shorter, longer], last) = forked();
    change(&mut barn, ODILE, people(true), &[]);
    let (mut one, mut other): (Barn, Barn) = (barn.clone(), barn);
    close(&mut one, &shorter, &longer);
    close(&mut other, &longer, &shorter);
    let mut barn = merged(&one, &other);
    assert_eq!(both(&barn), "fork");
    barn.state(join(&barn.office));
    let statements = barn.office.read();
    assert_eq!(statements.faults(), []);
    assert_eq!(both(&barn), "fork", "a join chooses nothing");
    close(&mut barn, &shorter, &longer);
    barn.walk_on(0, "wren.ashdown", last);
    assert_eq!(both(&barn), "intact");
}

#[test]
fn both_let_the_roster_be_settled_that_one_manager_changed_apart_once_it_is_joined() {
    let home = tempfile::tempdir().unwrap();
    let (mut one, mut other) = (office(), office());
    let more = one.crew.clone();
    one.change_crew(ODILE, first(), &[(TOBIAS, Changed::Retired)]);
    other.change_crew(ODILE, more.clone(), &[]);
    let mut office = with(&one, &other);
    office.crew = more.clone();
    let branch = |office: &Office, crew: &hames::record::Crew| {
        let statements = office.read();
        let all = statements.roster().branches();
        let found = all.iter().find(|one| one.crew == *crew);
        found.map(|one| (one.statement, one.change.number))
    };
    assert_eq!(office.read().roster().branches().len(), 2);
    office.state(ODILE, join(&office));
    let (before, number) = branch(&office, &more).unwrap();
    let says = Says::Crew(hames::record::CrewChange {
        number: number + 1,
        before: Some(before),
        file: more.revision(),
        changes: Vec::new(),
        signed_off: Vec::new(),
    });
    let next = office.next(ODILE, says);
    office.sign(&next, Some(&more));
    assert_eq!(told(&office), [""; 0]);
    write(&office.said, home.path());
    let mut batch = Batch::default();
    batch.put("settled", office.said);
    assert_eq!(batch.both(), ["intact"]);
}
