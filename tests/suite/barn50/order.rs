//! Every trip removed in turn, and every file of every trip changed in turn, by the library.

use super::making::{Barn, Files, barn};
use hames::logbook::order::{Judged, Order};
use hames::record::{
    Crew, Examined, Finding, Mode, SealFiles, Statements, TripFiles, Verified, verify,
};
use std::sync::LazyLock;

/// A trip of the barn as verified.
pub(super) fn examined(barn: &Barn, files: &Files, folder: &str) -> Examined {
    let file = |name: &str| files.get(&format!("{folder}/{name}")).map(Vec::as_slice);
    let roster = barn.office.read();
    let roster = roster.roster().revisions().iter();
    let crews: Vec<Crew> = roster.map(|one| one.crew.clone()).collect();
    let trip = TripFiles {
        drill: hames::record::DrillFiles::default(),
        journal: file("trip.jsonl").unwrap_or_default(),
        checklist: file("checklist.yaml").unwrap_or_default(),
        rig: file("rig.yaml").unwrap_or_default(),
        seal: file("seal.json").map(|seal| SealFiles {
            seal,
            by_person: file("seal.person.sig"),
            by_device: file("seal.device.sig"),
        }),
    };
    verify(&trip, Mode::Real, &crews)
}

/// Every trip of the barn, verified once.
fn verified() -> &'static Vec<Verified> {
    static ALL: LazyLock<Vec<Verified>> = LazyLock::new(|| {
        let barn = barn();
        let trips = barn.trips.iter();
        trips
            .map(|trip| examined(&barn, &barn.files, &trip.folder).trip.unwrap())
            .collect()
    });
    &ALL
}

fn judge<'s>(statements: &'s Statements, trips: impl Iterator<Item = &'s Verified>) -> Judged<'s> {
    let mut order = Order::new(statements);
    trips.for_each(|trip| {
        order.take(trip);
    });
    order.judge()
}

fn told(judged: &Judged<'_>) -> Vec<(Finding, String)> {
    let faults = judged.faults.iter();
    faults
        .map(|fault| (fault.finding(), fault.to_string()))
        .collect()
}

/// One gap is told so. What was signed with a key that has left since may stand alone then.
#[track_caller]
fn only_gap(told: &[(Finding, String)], start: &str) {
    let (gaps, others): (Vec<_>, Vec<_>) = told
        .iter()
        .partition(|(finding, _)| *finding == Finding::Gap);
    assert_eq!(gaps.len(), 1, "{told:?}");
    assert!(gaps[0].1.starts_with(start), "{start}: {told:?}");
    let left = |(finding, _): &&(Finding, String)| *finding == Finding::OutsideBracket;
    assert!(others.iter().all(left), "{told:?}");
}

#[test]
fn nothing_is_wrong_with_the_order_of_the_barn() {
    let statements = barn().office.read();
    assert_eq!(statements.faults(), []);
    let judged = judge(&statements, verified().iter());
    assert_eq!(told(&judged), []);
    let notes: Vec<String> = judged.notes.iter().map(ToString::to_string).collect();
    assert_eq!(notes.len(), 1, "{notes:?}");
    assert!(
        notes[0].starts_with("abandoned: trip 5 of laptop-0b22 ("),
        "{notes:?}"
    );
    let newest: Vec<_> = judged
        .newest
        .iter()
        .map(|one| {
            let (seq, witness) = one.witnessed.as_ref().unwrap();
            (one.seq, *seq, witness.number)
        })
        .collect();
    assert_eq!(newest, [(20, 18, 6), (20, 18, 6), (10, 9, 6)]);
}

#[test]
fn in_whatever_order_trips_come_it_is_judged_the_same() {
    let statements = barn().office.read();
    let sorted = judge(&statements, verified().iter());
    let backwards = judge(&statements, verified().iter().rev());
    assert_eq!(told(&sorted), told(&backwards));
    let twice = judge(
        &statements,
        verified().iter().chain(verified().iter().rev()),
    );
    assert_eq!(told(&sorted), told(&twice));
}

#[test]
fn each_trip_that_is_missing_is_a_gap_unless_nothing_after_it_is_witnessed() {
    let barn = barn();
    let statements = barn.office.read();
    for (gone, trip) in barn.trips.iter().enumerate() {
        let left = verified().iter().enumerate().filter(|(at, _)| *at != gone);
        let judged = judge(&statements, left.map(|(_, trip)| trip));
        let told = told(&judged);
        let newest = barn.trips.iter().filter(|one| one.device == trip.device);
        if newest.map(|one| one.seq).max() == Some(trip.seq) {
            assert_eq!(told, [], "{trip:?}");
            continue;
        }
        let start = format!("trip {} of {} is not here", trip.seq, trip.device);
        only_gap(&told, &start);
    }
}

#[test]
fn the_newest_trips_are_missed_as_far_as_a_manager_has_witnessed_them() {
    let statements = barn().office.read();
    for newest in 1..20 {
        let left = verified().iter().filter(|trip| {
            trip.begun().device.as_str() != "laptop-0a11" || trip.begun().seq <= newest
        });
        let judged = judge(&statements, left);
        let told = told(&judged);
        if newest >= 18 {
            assert_eq!(told, [], "after {newest}");
            continue;
        }
        let trips = if newest == 17 {
            "trip 18 of laptop-0a11 is".to_owned()
        } else {
            format!("trips {} to 18 of laptop-0a11 are", newest + 1)
        };
        only_gap(
            &told,
            &format!("{trips} witnessed by statement 6 of Odile Marsh and not here"),
        );
    }
}

#[test]
fn each_file_of_each_trip_is_held_to_the_byte() {
    let barn = barn();
    for (number, trip) in barn.trips.iter().enumerate() {
        for name in [
            "trip.jsonl",
            "checklist.yaml",
            "rig.yaml",
            "seal.json",
            "seal.person.sig",
            "seal.device.sig",
        ] {
            let path = format!("{}/{name}", trip.folder);
            let mut files = barn.files.clone();
            let Some(bytes) = files.get_mut(&path) else {
                assert!(!trip.sealed);
                continue;
            };
            let at = number * 7919 % bytes.len();
            bytes[at] ^= 1;
            let finding = examined(&barn, &files, &trip.folder).finding();
            assert!(
                finding >= Finding::UnknownSigner,
                "{path}, byte {at}: {finding}"
            );
        }
    }
}

#[test]
fn each_trip_cut_short_is_truncated() {
    let barn = barn();
    let statements = barn.office.read();
    for (at, trip) in barn.trips.iter().enumerate() {
        let mut files = barn.files.clone();
        let journal = files
            .get_mut(&format!("{}/trip.jsonl", trip.folder))
            .unwrap();
        let last = journal[..journal.len() - 1]
            .iter()
            .rposition(|byte| *byte == b'\n');
        journal.truncate(last.unwrap() + 1);
        let cut = examined(&barn, &files, &trip.folder);
        if trip.sealed {
            assert_eq!(cut.finding(), Finding::Truncated, "{trip:?}");
            continue;
        }
        let mut all = verified().clone();
        all[at] = cut.trip.unwrap();
        let judged = judge(&statements, all.iter());
        let told = told(&judged);
        assert_eq!(told[0].0, Finding::Truncated, "{told:?}");
    }
}

#[test]
fn each_trip_stands_between_the_statement_it_quotes_and_the_first_that_reaches_it() {
    let barn = barn();
    let statements = barn.office.read();
    let judged = judge(&statements, verified().iter());
    for (at, (trip, verified)) in barn.trips.iter().zip(verified()).enumerate() {
        let bracket = judged.bracket(&hames::logbook::order::end(verified));
        let number =
            |witness: Option<hames::logbook::order::Witness>| witness.map(|one| one.number);
        let quoted = [10, 20, 25, 35, 45]
            .iter()
            .filter(|from| at >= **from)
            .count();
        let reached = [10, 20, 25, 35, 45].iter().position(|until| at < *until);
        let (later, earlier) = (number(bracket.later_than), number(bracket.earlier_than));
        assert_eq!(later, u64::try_from(quoted + 1).ok(), "{trip:?}");
        // Of what was sealed after it was passed by, no statement names the seal.
        let reached = reached.filter(|_| at != 13);
        assert_eq!(
            earlier,
            reached.map(|at| u64::try_from(at + 2).unwrap()),
            "{trip:?}"
        );
    }
}
