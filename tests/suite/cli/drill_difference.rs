//! A checklist that changed after somebody's check ride of it: what changed is told, drilled, and
//! told no more.

use crate::cli::drill_ride::{clerk, done, ride, signs};
use crate::harness::home::{Home, files_below};
use hames::cli::clerk::Clerk;
use hames::desk::{AskedDrill, Consent, Difference, Errand, Reply, WhichDrill};
use hames::drill::{Run, Stage, list};
use hames::record::{CrewAct, Id, Passphrase, RideSignedOff};
use hames::store::Local;
use std::fs;

/// More acts than any drill has.
const MOST: usize = 300;

/// The checklist that is ridden.
const LIST: &str = "hitch-bumper";

fn revision() -> u32 {
    list(LIST).unwrap().checklist.revision
}

/// Wren's check ride of the revision before, in the roster; a critical step of it asked less.
fn ridden_before(home: &Home) {
    let mut clerk = clerk(home);
    let trip = ride(&mut clerk, false);
    for who in ["wren.ashdown", "odile.marsh"] {
        assert!(matches!(signs(&mut clerk, who), Reply::Sealed(_)), "{who}");
    }
    let wren = Id::read("wren.ashdown").unwrap();
    let ride = RideSignedOff {
        revision: revision() - 1,
        ..clerk.passed_ride(&trip, &wren).unwrap()
    };
    let manager = clerk.managers().unwrap().remove(0);
    let passphrase = Passphrase::new("demo".to_owned().into()).unwrap();
    let act = CrewAct::SignOffRide(wren, ride);
    let consent = Consent::Passphrase(passphrase);
    clerk.change_crew(&manager, &consent, &act).unwrap();
    let drills = home.demo().join("drill");
    let mut files = files_below(&drills).into_iter();
    let pinned = files.find(|file| file.ends_with("checklist.yaml")).unwrap();
    let pinned = drills.join(pinned);
    let mut text = fs::read_to_string(&pinned).unwrap();
    let (now, before) = (revision(), revision() - 1);
    for (now, before) in [
        (format!("revision: {now}"), format!("revision: {before}")),
        (
            "Look at both ends of the receiver pin.".into(),
            "Look at it.".into(),
        ),
    ] {
        assert_eq!(text.matches(&now).count(), 1, "{now}");
        text = text.replace(&now, &before);
    }
    fs::write(&pinned, text).unwrap();
}

/// What changed since their check rides, of each who learns.
fn told(clerk: &mut Clerk<Local>) -> Vec<Vec<Difference>> {
    let Reply::DrillRoom(room) = clerk.perform(Errand::LookAtDrills) else {
        panic!("no room");
    };
    let learners = room.learners.into_iter();
    learners.map(|one| one.differences).collect()
}

/// Wren's drill of this step, played rightly and signed.
fn drilled(clerk: &mut Clerk<Local>, step: &str, stage: Stage) {
    let reply = clerk.perform(Errand::BeginDrill(AskedDrill {
        which: WhichDrill::OfStep {
            list: LIST.to_owned(),
            step: step.to_owned(),
        },
        learner: "Wren Ashdown".to_owned(),
        stage: Some(stage),
        seed: Some(6),
    }));
    let Reply::Drilling { run, .. } = reply else {
        panic!("{reply:?}");
    };
    let mut run: Run = *run;
    for _ in 0..MOST {
        let Some(worked) = run.worked() else {
            assert!(matches!(signs(clerk, "wren.ashdown"), Reply::Sealed(_)));
            return;
        };
        run.apply(&done(clerk, worked.doing));
    }
    panic!("no end");
}

#[test]
fn a_critical_step_that_changed_since_a_check_ride_is_told_until_its_section_was_drilled_alone() {
    let home = Home::new();
    ridden_before(&home);
    let changed = Difference {
        list: LIST.to_owned(),
        revision: revision(),
        step: "receiver-pin".to_owned(),
    };
    let asked = [vec![changed], vec![], vec![]];
    let mut clerk = clerk(&home);
    assert_eq!(told(&mut clerk), asked);
    drilled(&mut clerk, "receiver-pin", Stage::Guided);
    assert_eq!(told(&mut clerk), asked);
    drilled(&mut clerk, "receiver-pin", Stage::Solo);
    assert_eq!(told(&mut clerk), [vec![], vec![], vec![]]);
    let ended = home.hames("drill --plain").typed("1\n").run();
    assert!(!ended.out.contains("changed since"), "{}", ended.out);
}
