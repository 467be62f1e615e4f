//! Trips beside what managers state of them, judged by the program's library and by the second
//! verifier.

use super::bench::{Folder, run};
use super::statements::write;
use crate::record_statements::{Office, countersigned, manager, people};
use crate::record_trip::{self, Trip, crew, id, words};
use crate::walk::bench::Bench;
use hames::logbook::order::{Order, OrderFault, stub};
use hames::record::{
    Branch, Changed, Countersigned, Crew, Digest, Finding, ForkClosed, Head, LossAccepted, Mode,
    Opinion, Previous, Pruned, Says, Seal, StatementFiles, Statements,
};
use hames::walk::Ended;
use std::fs;

const SHORT: &str = "open\n see down\n end incomplete: the vet called";
const LAPTOP: &str = "laptop-7f3a";

/// A sealed trip that quotes these.
fn made(seq: u64, name: &str, previous: Option<Previous>, manager: Option<Digest>) -> Trip {
    let mut bench = Bench::new();
    bench.play(SHORT);
    let mut begun = record_trip::begun(seq, previous);
    begun.trip = id(name);
    begun.manager = manager;
    let mut trip = Trip::recorded(&begun, &bench.walk.began().clone(), &bench.journal);
    let mut seal = record_trip::seal(seq, &trip, Ended::Incomplete, &bench.journal);
    seal.trip = id(name);
    trip.seal(&seal);
    trip
}

fn ends(trip: &Trip) -> Previous {
    Previous::Sealed(Seal::hash(trip.seal.as_ref().unwrap()))
}

/// Trips 1 to 5 of one laptop, each quoting the one before.
fn five() -> Vec<Trip> {
    let mut trips: Vec<Trip> = Vec::new();
    for seq in 1..=5 {
        let name = format!("{seq}f0c11b2");
        trips.push(made(seq, &name, trips.last().map(ends), None));
    }
    trips
}

fn head(seq: u64, ends: Previous) -> Vec<Head> {
    let device = id(LAPTOP);
    vec![Head { device, seq, ends }]
}

/// The crew without Wren Ashdown.
fn without_wren() -> Crew {
    let text = people().text().to_owned();
    let others = text
        .split_inclusive('\n')
        .filter(|line| !line.starts_with("wren"));
    Crew::read(others.collect::<String>().as_bytes()).unwrap()
}

/// The gravest fault in the order of trips, by both.
#[track_caller]
fn both(trips: &[&Trip], office: &Office) -> &'static str {
    let files: Vec<_> = office
        .said
        .iter()
        .map(|one| StatementFiles {
            statement: &one.statement,
            signature: Some(&one.signature),
            crew: one.crew.as_deref(),
        })
        .collect();
    let statements = Statements::read(&files, Mode::Real, &[]);
    let mut order = Order::new(&statements);
    for trip in trips {
        order.take(&trip.verified());
    }
    let faults = order.judge().faults;
    // It does not ask who took part in a walk.
    let own = |fault: &&OrderFault| !matches!(fault, OrderFault::Own { .. });
    let ours = faults.iter().filter(own).map(OrderFault::finding).max();
    let ours = ours.unwrap_or(Finding::Intact).word();

    let home = tempfile::tempdir().unwrap();
    write(&office.said, home.path());
    fs::create_dir(home.path().join("crew")).unwrap();
    fs::write(home.path().join("crew/allowed_signers"), crew().text()).unwrap();
    for trip in trips {
        let begun = trip.verified();
        let begun = begun.begun();
        let name = format!("dev/{LAPTOP}/t/{:06}-{}", begun.seq, begun.trip);
        Folder::of(trip).write(&home.path().join(name));
    }
    let told = run("tests/second/logbook.py", &[home.path().into()]);
    let theirs = told.lines.iter().find(|(name, _)| name == "order").unwrap();
    assert_eq!(ours, theirs.1, "{faults:?}\n{}", told.all);
    ours
}

#[test]
fn both_miss_what_a_manager_has_witnessed() {
    let trips = five();
    let all: Vec<&Trip> = trips.iter().collect();
    let mut office = Office::founded();
    assert_eq!(both(&all, &office), "intact");
    office.heads = head(4, ends(&trips[3]));
    office.state("odile.marsh", countersigned(9));
    assert_eq!(both(&all[..3], &office), "gap");
    let mut office = Office::founded();
    office.heads = head(4, ends(&trips[3]));
    office.change_crew("odile.marsh", people(), &[]);
    assert_eq!(both(&all, &office), "intact");
    assert_eq!(both(&all[..4], &office), "intact", "nothing came after it");
    assert_eq!(both(&all[..3], &office), "gap");
    assert_eq!(both(&[&all[..3], &all[4..]].concat(), &office), "gap");
    office.heads = head(4, Previous::Sealed(Digest::of(b"another")));
    office.change_crew("odile.marsh", people(), &[]);
    assert_eq!(both(&all, &office), "fork");
    office.heads = head(4, Previous::Unsealed(Digest::of(b"another")));
    office.change_crew("odile.marsh", people(), &[]);
    assert_eq!(both(&all, &office), "truncated");
}

#[test]
fn both_take_a_managers_word_on_what_is_lost_and_hold_it_to_what_was_seen_since() {
    let trips = five();
    let all: Vec<&Trip> = trips.iter().collect();
    let lost = |from, to| {
        Says::LossAccepted(LossAccepted {
            device: id(LAPTOP),
            from,
            to,
            words: words("the laptop went into the pond"),
        })
    };
    let mut office = Office::founded();
    office.heads = head(5, ends(&trips[4]));
    office.change_crew("odile.marsh", people(), &[]);
    assert_eq!(both(&all[..3], &office), "gap");
    office.heads = head(3, ends(&trips[2]));
    office.state("odile.marsh", lost(4, 5));
    assert_eq!(both(&all[..3], &office), "intact");
    assert_eq!(both(&all[..2], &office), "gap");
    office.heads = head(5, ends(&trips[4]));
    office.change_crew("odile.marsh", people(), &[]);
    assert_eq!(both(&all[..3], &office), "gap", "named again since");
    let mut office = Office::founded();
    office.state("odile.marsh", lost(2, 2));
    let without = [&all[..1], &all[2..]].concat();
    assert_eq!(both(&without, &office), "intact");
    assert_eq!(both(&all[3..], &office), "gap");
}

#[test]
fn both_hold_a_closed_fork_to_its_histories() {
    let trips = five();
    let other = made(3, "30ther00", Some(ends(&trips[1])), None);
    let all: Vec<&Trip> = trips.iter().chain([&other]).collect();
    let branch = |trip: &Trip| Branch {
        trip: trip.verified().begun().trip.clone(),
        ends: ends(trip),
    };
    let closed = |goes_on: &Trip, ended: &Trip| {
        let mut office = Office::founded();
        let word = ForkClosed {
            device: id(LAPTOP),
            seq: 3,
            goes_on: branch(goes_on),
            ended: vec![branch(ended)],
            words: words("a backup was put back"),
        };
        office.state("odile.marsh", Says::ForkClosed(word));
        office
    };
    assert_eq!(both(&all, &Office::founded()), "fork");
    assert_eq!(both(&all, &closed(&trips[2], &other)), "intact");
    assert_eq!(both(&all[..5], &closed(&trips[2], &other)), "gap");
    assert_eq!(both(&all, &closed(&other, &trips[2])), "intact");
    let next = made(4, "4ther000", Some(ends(&other)), None);
    let longer = [&all[..], &[&next]].concat();
    assert_eq!(both(&longer, &closed(&trips[2], &other)), "intact");
    assert_eq!(both(&longer, &Office::founded()), "fork");
}

#[test]
fn both_leave_a_fork_open_that_two_managers_close_otherwise() {
    let trips = five();
    let other = made(3, "30ther00", Some(ends(&trips[1])), None);
    let all: Vec<&Trip> = trips[..3].iter().chain([&other]).collect();
    let branch = |trip: &Trip| Branch {
        trip: trip.verified().begun().trip.clone(),
        ends: ends(trip),
    };
    let closed = |goes_on: &Trip, ended: &Trip| {
        Says::ForkClosed(ForkClosed {
            device: id(LAPTOP),
            seq: 3,
            goes_on: branch(goes_on),
            ended: vec![branch(ended)],
            words: words("a backup was put back"),
        })
    };
    let mut office = Office::founded();
    let more = people()
        .add(&manager("tobias.fenn", "Tobias Fenn"))
        .unwrap();
    office.change_crew("odile.marsh", more, &[("tobias.fenn", Changed::Added)]);
    let mut apart = office.clone();
    office.state("odile.marsh", closed(&trips[2], &other));
    assert_eq!(both(&all, &office), "intact");
    apart.state("tobias.fenn", closed(&other, &trips[2]));
    office.said.extend(apart.said.last().cloned());
    assert_eq!(both(&all, &office), "fork");
    let next = made(4, "4ther000", Some(ends(&other)), None);
    let longer = [&all[..], &[&trips[3], &next]].concat();
    assert_eq!(both(&longer, &office), "fork");
    // The word of who knows both counts, whichever history it goes on with.
    for (goes_on, ended) in [(&trips[2], &other), (&other, &trips[2])] {
        let mut settled = office.clone();
        settled.state("tobias.fenn", closed(goes_on, ended));
        assert_eq!(both(&longer, &settled), "intact");
        assert_eq!(both(&longer[1..], &settled), "gap");
    }
}

#[test]
fn both_take_trips_found_again_that_were_given_up_for_lost() {
    let trips = five();
    let lost = |from, to| {
        Says::LossAccepted(LossAccepted {
            device: id(LAPTOP),
            from,
            to,
            words: words("the laptop went into the pond"),
        })
    };
    let mut office = Office::founded();
    office.state("odile.marsh", lost(3, 5));
    let went_on = made(6, "6f0c11b2", Some(ends(&trips[1])), None);
    let next = made(7, "7f0c11b2", Some(ends(&went_on)), None);
    let short = [&trips[0], &trips[1], &went_on, &next];
    assert_eq!(both(&short, &office), "intact");
    let all: Vec<&Trip> = trips.iter().chain([&went_on, &next]).collect();
    assert_eq!(both(&all, &office), "intact");
    let fifth = [&all[..2], &all[4..]].concat();
    assert_eq!(
        both(&fifth, &office),
        "intact",
        "only trip 5 is found again"
    );
    assert_eq!(both(&all, &Office::founded()), "fork");
    let elsewhere = made(6, "6f0c11b2", Some(ends(&trips[0])), None);
    let all: Vec<&Trip> = trips.iter().chain([&elsewhere]).collect();
    assert_eq!(both(&all, &office), "fork", "trip 2 was not lost");
    // From the first number on there is none before.
    let mut office = Office::founded();
    office.state("odile.marsh", lost(1, 2));
    let went_on = made(3, "30ther00", None, None);
    let all = [&trips[0], &trips[1], &went_on];
    assert_eq!(both(&all, &office), "intact");
}

#[test]
fn both_take_a_tombstone_for_the_trip_it_stands_for() {
    let trips = five();
    let all: Vec<&Trip> = trips.iter().collect();
    let mut office = Office::founded();
    let gone = trips[..2].iter().map(|trip| stub(&trip.verified()));
    let pruned = Pruned {
        trips: gone.collect(),
        words: words("seven years old"),
    };
    office.state("odile.marsh", Says::Pruned(pruned));
    assert_eq!(both(&all, &office), "intact");
    assert_eq!(both(&all[2..], &office), "intact");
    assert_eq!(both(&all[3..], &office), "gap");
    let other = made(2, "20ther00", Some(ends(&trips[0])), None);
    assert_eq!(both(&[&all[2..], &[&other]].concat(), &office), "fork");
}

#[test]
fn both_count_a_trip_under_a_key_that_was_taken_out_only_where_it_was_reached_then() {
    let trips = five();
    let all: Vec<&Trip> = trips.iter().collect();
    for (how, word) in [
        (Changed::Retired, "outside-bracket"),
        (Changed::Revoked, "revoked-signer"),
        (Changed::Roles, "revoked-signer"),
    ] {
        let mut office = Office::founded();
        office.heads = head(4, ends(&trips[3]));
        office.change_crew("odile.marsh", without_wren(), &[("wren.ashdown", how)]);
        assert_eq!(both(&all[..4], &office), "intact");
        assert_eq!(both(&all, &office), word);
    }
}

#[test]
fn both_count_what_a_closed_fork_or_a_countersign_names_as_known_when_a_key_is_taken_out() {
    let trips = five();
    let before = made(3, "30ther00", Some(ends(&trips[1])), None);
    let other = made(4, "40ther00", Some(ends(&before)), None);
    let after = made(5, "50ther00", Some(ends(&other)), None);
    let all: Vec<&Trip> = trips[..4].iter().chain([&before, &other]).collect();
    let branch = |trip: &Trip| Branch {
        trip: trip.verified().begun().trip.clone(),
        ends: ends(trip),
    };
    let closed = |seq, goes_on: &Trip, ended: &Trip| {
        Says::ForkClosed(ForkClosed {
            device: id(LAPTOP),
            seq,
            goes_on: branch(goes_on),
            ended: vec![branch(ended)],
            words: words("a backup was put back"),
        })
    };
    let seen = |trip: &Trip| {
        Says::Countersigned(Countersigned {
            trip: trip.verified().begun().trip.clone(),
            device: id(LAPTOP),
            seq: 4,
            seal: Seal::hash(trip.seal.as_ref().unwrap()),
            opinion: Opinion::Asked,
            opened: Vec::new(),
            remarks: Some(words("which laptop?")),
            took_ms: None,
        })
    };
    let revoked = |said: &[Says]| {
        let mut office = Office::founded();
        office.heads = head(4, ends(&trips[3]));
        for says in said {
            office.state("odile.marsh", says.clone());
        }
        office.change_crew(
            "odile.marsh",
            without_wren(),
            &[("wren.ashdown", Changed::Revoked)],
        );
        office
    };
    let third = closed(3, &trips[2], &before);
    // What the closing names is known, not what came after it in the history it ended.
    let short = [&all[..4], &[&before]].concat();
    assert_eq!(
        both(&short, &revoked(std::slice::from_ref(&third))),
        "intact"
    );
    assert_eq!(
        both(&all, &revoked(std::slice::from_ref(&third))),
        "revoked-signer"
    );
    // A countersign, or a closing further on, names that too; the trip after it stays unknown.
    let further = closed(4, &trips[3], &other);
    for further in [seen(&other), further] {
        let office = revoked(&[third.clone(), further]);
        assert_eq!(both(&all, &office), "intact");
        let longer = [&all[..], &[&after]].concat();
        assert_eq!(both(&longer, &office), "revoked-signer");
    }
    // Said after the key was taken out, it shows nothing.
    let mut office = revoked(&[]);
    office.state("odile.marsh", third);
    assert_eq!(both(&short, &office), "revoked-signer");
}

#[test]
fn both_miss_a_statement_that_a_trip_quotes() {
    let office = Office::founded();
    let known = hames::record::Statement::hash(&office.said[0].statement);
    let trip = made(1, "1f0c11b2", None, Some(known));
    assert_eq!(both(&[&trip], &office), "intact");
    let trip = made(1, "1f0c11b2", None, Some(Digest::of(b"gone")));
    assert_eq!(both(&[&trip], &office), "gap");
}
