//! Check rides of the barn: a whole list, ridden by who looks and measures, signed by the examiner as
//! well, and stated in the roster.

use crate::barn50::drills::{Played, SEED};
use crate::barn50::making::{Barn, Walked, key};
use crate::drill::bench::{moment, rig, scenarios, sights};
use crate::record_trip::{id, words};
use hames::drill::{Line, Run, SCENARIO_FILES, Stage, ride};
use hames::record::{
    CrewAct, CrewChange, CrewNow, Deed, Mode, Namespace, Previous, RideSignedOff, Says,
};
use std::sync::Arc;

/// More acts than the list has.
const MOST: u64 = 2000;
const LIST: &str = "hitch-bumper";
const RIG: &str = "juniper";

/// Rides the list with what this seed hides, to its end.
pub(crate) fn ridden() -> Played {
    let known = (&SCENARIO_FILES[..], scenarios());
    let made = ride(LIST, (RIG, rig(RIG)), known, (sights(), SEED)).unwrap();
    let (who, at) = (words("Wren Ashdown"), moment(0));
    let mut run = Run::begin(Arc::new(made.drill), Stage::CheckRide, &who, at.clone());
    let mut lines = Vec::new();
    for act in 1..MOST {
        let Some(worked) = run.worked() else { break };
        let at = moment(act * 20_000);
        let did = run.decide(&worked.doing, &at).unwrap();
        let line = Line { at, did };
        run.apply(&line);
        lines.push(line);
    }
    assert_eq!(run.is_passed(), Some(true));
    Played {
        drill: run.drill().clone(),
        began: at,
        lines,
        scenario: made.scenario,
        examiner: Some(("odile.marsh", "Odile Marsh")),
    }
}

/// A signature over a seal, as who examined it gives it.
pub(crate) fn examined_by(who: &str, seal: &[u8]) -> Vec<u8> {
    let namespace = Namespace::new(Deed::Performed, Mode::Drill);
    key(who).sign(namespace, seal).unwrap().into_bytes()
}

impl Played {
    pub(super) fn examined(&self, seal: &[u8]) -> Option<(&'static str, Vec<u8>)> {
        let (who, _) = self.examiner?;
        Some(("seal.examiner.sig", examined_by(who, seal)))
    }
}

impl Barn {
    /// A check ride on this laptop, ridden by Wren and examined by Odile.
    pub(crate) fn ride(&mut self, laptop: usize) -> Walked {
        let (drill, files) = self.next_of(laptop, &ridden());
        self.keep_drill(drill, files)
    }

    /// Puts a check ride of Wren's into the roster, as the program does.
    pub(crate) fn sign_off(&mut self, ride: &Walked) {
        let Previous::Sealed(seal) = ride.ends else {
            panic!("not sealed: {ride:?}")
        };
        let ride = RideSignedOff {
            checklist: id(LIST),
            revision: crate::drill::bench::drill_list(LIST).checklist.revision,
            rigs: id("bumper-pull"),
            drill: id(&ride.id),
            seal,
        };
        let known = self.office.read();
        let crew = self.office.crew.clone();
        let now = CrewNow {
            crew: &crew,
            roster: known.roster(),
            mode: self.mode,
        };
        let act = CrewAct::SignOffRide(id("wren.ashdown"), ride);
        let next = now.next(&act, &id("odile.marsh")).unwrap();
        let force = known.roster().in_force().unwrap();
        let change = CrewChange {
            number: force.change.number + 1,
            before: Some(force.statement),
            file: next.crew.revision(),
            changes: next.changes,
            signed_off: next.signed_off,
        };
        self.office.heads = self.heads();
        let statement = self.office.next("odile.marsh", Says::Crew(change));
        self.office.sign(&statement, Some(&crew));
        self.keep_statement();
    }
}
