//! A manager's acts through the clerk: whose work it was, and a disk that loses power at any call.

use crate::clerk::copy;
use crate::store::pretend::{Fate, Pretend};
use hames::cli::clerk::{Books, Clerk, LaidOut, Place, Plans, Said, Stock, Which};
use hames::desk::{Consent, Errand, Reply, exceptions};
use hames::logbook::order::Order;
use hames::logbook::{Answers, opinions};
use hames::record::{Finding, Id, Mode, Opinion, Passphrase, Signer};
use hames::store::{Disk, Logbook, TripFolder};
use hames::walk::{Act, Ended, Words};
use hames::world::Machine;
use std::path::Path;

pub(crate) fn clerk(disk: &Pretend) -> Clerk<Pretend> {
    let place = Place {
        root: "/demo".into(),
        mode: Mode::Demo,
    };
    Clerk::new(disk.clone(), Machine::this(), place, Stock::demo())
}

pub(crate) fn consent() -> Consent {
    Consent::Passphrase(Passphrase::new("demo".to_owned().into()).unwrap())
}

pub(crate) fn books(disk: &Pretend) -> Books<Pretend> {
    Books::open(disk, Path::new("/demo")).unwrap()
}

pub(crate) fn odile(disk: &Pretend) -> Signer {
    clerk(disk).managers().unwrap().remove(0)
}

/// The newest trip.
pub(crate) fn newest(disk: &Pretend) -> (Id, TripFolder) {
    books(disk).trips().unwrap().pop().unwrap()
}

pub(crate) fn done(reply: &Reply) {
    assert!(
        !matches!(
            reply,
            Reply::Cannot(_) | Reply::Refused(_) | Reply::ReadOnly(_)
        ),
        "{reply:?}"
    );
}

/// A sealed walk of these two people, handed over to others on the way, signed by one of them.
pub(crate) fn walked(
    (reader, doer): (&str, &str),
    handed_over: Option<(&str, &str)>,
    signer: &str,
) -> Pretend {
    let disk = copy();
    let mut clerk = clerk(&disk);
    done(&clerk.perform(Errand::Begin {
        rig: "juniper".into(),
        checklist: "rig-match".into(),
        reader: reader.into(),
        doer: doer.into(),
        odometer: String::new(),
        walked: String::new(),
        answers: Vec::new(),
    }));
    if let Some((reader, doer)) = handed_over {
        done(&clerk.perform(Errand::Record(Act::HandOver {
            reader: reader.into(),
            doer: doer.into(),
        })));
    }
    done(&clerk.perform(Errand::Record(Act::End {
        outcome: Ended::Incomplete,
        words: "rain".into(),
    })));
    done(&clerk.perform(Errand::Seal {
        signer: signer.into(),
        consent: consent(),
    }));
    disk
}

fn lay_out(disk: &Pretend) -> Result<LaidOut, String> {
    let trip = newest(disk);
    let read = books(disk).read(&trip.0, &trip.1, &mut Plans::default());
    let read = read.unwrap();
    let walk = read.walk().unwrap();
    let beside = (exceptions(read.trip().unwrap(), walk.plan()), &[][..]);
    let laid = clerk(disk).lay_out(&trip, &odile(disk), beside, &Answers::default());
    laid.map_err(|trouble| trouble.to_string())
}

#[test]
fn whoever_had_a_hand_in_a_walk_by_any_spelling_of_their_name_does_not_countersign_it() {
    let (wren, tobias) = ("Wren Ashdown", "Tobias Fenn");
    let both = (wren, tobias);
    for (people, handed_over, signer, hand) in [
        (("Odile Marsh", tobias), None, "odile.marsh", "signed it"),
        (
            ("odile marsh", tobias),
            None,
            "tobias.fenn",
            "read and typed in it",
        ),
        (
            (wren, "Marsh, Odile"),
            None,
            "wren.ashdown",
            "did or checked some of it",
        ),
        (
            (wren, "odile.marsh"),
            None,
            "wren.ashdown",
            "did or checked some of it",
        ),
        (
            both,
            Some(("Odile Marsh", tobias)),
            "tobias.fenn",
            "read and typed in it",
        ),
        (
            both,
            Some((wren, "ODILE  MARSH")),
            "wren.ashdown",
            "read and typed in it",
        ),
    ] {
        let disk = walked(people, handed_over, signer);
        let why = lay_out(&disk).unwrap_err();
        assert!(
            why.contains("nobody countersigns their own work"),
            "{people:?} {handed_over:?}: {why}"
        );
        assert!(why.contains(hand) || handed_over.is_some(), "{hand}: {why}");
    }
    let disk = walked(both, Some((tobias, wren)), "tobias.fenn");
    let laid = lay_out(&disk).unwrap();
    let named: Vec<&str> = laid
        .exceptions
        .iter()
        .map(|one| one.named.as_str())
        .collect();
    // How it ended matters more than that it was handed over.
    assert_eq!(named, ["line 3", "line 2"]);
}

fn agree(disk: &Pretend, trip: &(Id, TripFolder), manager: &Signer) -> Result<(), String> {
    let said = Said {
        took_ms: 61_000,
        opinion: Opinion::Agreed,
        opened: vec![Words::read("line 2").unwrap()],
        remarks: None,
    };
    let signed = clerk(disk).countersign(trip, (manager, &consent()), said);
    signed.map(drop).map_err(|trouble| trouble.to_string())
}

/// How many statements agree to the trip.
fn agreed(disk: &Pretend, trip: &(Id, TripFolder)) -> usize {
    let books = books(disk);
    let read = books.read(&trip.0, &trip.1, &mut Plans::default()).unwrap();
    let seal = read.trip().unwrap().sealed().unwrap().hash;
    let statements = books.statements().unwrap();
    assert_eq!(statements.faults(), []);
    opinions(&statements, &seal).count()
}

const FATES: [Fate; 5] = [
    Fate::Lost,
    Fate::Kept,
    Fate::Half,
    Fate::OtherHalf,
    Fate::Lots(7),
];

#[test]
fn a_countersign_cut_off_at_any_call_counts_whole_or_not_at_all_and_can_be_given_again() {
    let sealed = walked(("Wren Ashdown", "Tobias Fenn"), None, "wren.ashdown");
    let (trip, manager) = (newest(&sealed), odile(&sealed));
    let whole = sealed.after_death();
    whole.film();
    agree(&whole, &trip, &manager).unwrap();
    let film = whole.filmed();
    let calls = film.len();
    assert!(calls > 8, "only {calls} calls write");
    for (call, (left, fate)) in film.iter().zip(FATES.into_iter().cycle()).enumerate() {
        let left = Pretend::with(left.after_power_loss(fate));
        let counts = agreed(&left, &trip);
        let signed = call + 1 == calls;
        assert!(!signed || counts == 1, "{call} {fate:?}");
        if counts == 0 {
            agree(&left, &trip, &manager).unwrap();
            assert_eq!(agreed(&left, &trip), 1, "{call} {fate:?}");
        }
        // Nothing that looks like a loss is left of what was cut off.
        let logbook = Logbook::open(left.clone(), Path::new("/demo")).unwrap();
        for folder in logbook.statements().unwrap() {
            let whole = logbook.read_statement(&folder).unwrap().is_some();
            let signed = left.exists(&folder.signature()).unwrap();
            assert!(whole || !signed, "{call} {fate:?}: {folder:?}");
        }
    }
}

fn prune(disk: &Pretend, trip: &(Id, TripFolder), manager: &Signer) -> Result<usize, String> {
    let mut clerk = clerk(disk);
    let told = |trouble: hames::cli::clerk::Trouble| trouble.to_string();
    let which = Which::Named(vec![trip.clone()]);
    let pruning = clerk.to_prune(&which, true).map_err(told)?;
    if !pruning.goes.is_empty() {
        let why = Words::read("Older than we keep.").unwrap();
        let who = (manager, &consent());
        clerk.state_pruned(&pruning.goes, &why, who).map_err(told)?;
    }
    clerk.remove_pruned().map_err(told)
}

#[test]
fn a_prune_cut_off_at_any_call_leaves_the_whole_trip_or_is_finished_by_the_next_run() {
    let sealed = walked(("Wren Ashdown", "Tobias Fenn"), None, "wren.ashdown");
    let (trip, manager) = (newest(&sealed), odile(&sealed));
    let whole = sealed.after_death();
    whole.film();
    assert_eq!(prune(&whole, &trip, &manager), Ok(1));
    let film = whole.filmed();
    assert!(film.len() > 15, "only {} calls write", film.len());
    let gone = |disk: &Pretend| {
        let below = disk.files().into_iter();
        below.filter(|file| file.starts_with(&trip.1.path)).count() == 0
    };
    assert!(gone(&whole));
    assert_eq!(order(&whole), [""; 0], "the chain holds without it");
    for (call, (left, fate)) in film.iter().zip(FATES.into_iter().cycle()).enumerate() {
        let left = Pretend::with(left.after_power_loss(fate));
        let stated = !left.files().iter().all(|file| !is_pruned(&left, file));
        let finding = books(&left).read(&trip.0, &trip.1, &mut Plans::default());
        let intact = finding.unwrap().finding() == Finding::Intact;
        assert!(stated || intact, "{call} {fate:?}");
        prune(&left, &trip, &manager).unwrap();
        assert!(gone(&left), "{call} {fate:?}: {:?}", left.files());
    }
}

/// What is wrong with the order of the trips that are left.
fn order(disk: &Pretend) -> Vec<String> {
    let books = books(disk);
    let statements = books.statements().unwrap();
    let mut order = Order::new(&statements);
    for (device, folder) in books.trips().unwrap() {
        let read = books.read(&device, &folder, &mut Plans::default());
        order.take(read.unwrap().trip().unwrap());
    }
    let faults = order.judge().faults.into_iter();
    faults.map(|fault| fault.to_string()).collect()
}

/// Whether the file is a statement that prunes.
fn is_pruned(disk: &Pretend, file: &Path) -> bool {
    let text = disk.seen(file).unwrap_or_default();
    String::from_utf8_lossy(&text).contains(r#""kind":"pruned""#)
}

#[test]
fn a_manager_who_could_be_named_in_a_walk_by_an_everyday_name_does_not_countersign_it() {
    for named in ["Odile", "O. Marsh", "Odíle Marsh", "Odile J. Marsh"] {
        let disk = walked(("Wren Ashdown", named), None, "wren.ashdown");
        let why = lay_out(&disk).unwrap_err();
        let told = format!("“{named}”, who is named in it, could be Odile Marsh");
        assert!(why.contains(&told), "{named}: {why}");
    }
    for other in ["June Marsh", "Tobias Fenn", "Bo"] {
        let disk = walked(("Wren Ashdown", other), None, "wren.ashdown");
        lay_out(&disk).unwrap();
    }
}

#[test]
fn a_walk_is_sealed_once_the_crew_file_in_force_is_back_in_its_place() {
    let disk = copy();
    let mut clerk = clerk(&disk);
    done(&clerk.perform(Errand::Begin {
        rig: "juniper".into(),
        checklist: "rig-match".into(),
        reader: "Wren Ashdown".into(),
        doer: "Tobias Fenn".into(),
        odometer: String::new(),
        walked: String::new(),
        answers: Vec::new(),
    }));
    done(&clerk.perform(Errand::Record(Act::End {
        outcome: Ended::Incomplete,
        words: "rain".into(),
    })));
    let crew = Path::new("/demo/crew/allowed_signers");
    let in_force = disk.seen(crew).unwrap();
    disk.place(crew, &[b"# ours\n".as_slice(), &in_force].concat());
    let signer = || "wren.ashdown".to_owned();
    let seal = || Errand::Seal {
        signer: signer(),
        consent: consent(),
    };
    for errand in [Errand::FindKey { signer: signer() }, seal()] {
        let reply = clerk.perform(errand);
        let Reply::Cannot(why) = &reply else {
            panic!("{reply:?}");
        };
        assert!(why.contains("no manager has signed that"), "{why}");
    }
    disk.place(crew, &in_force);
    done(&clerk.perform(seal()));
}
