//! Drills as their records tell them: the run again, and what it comes to for whoever played it.

use crate::cli::clerk::{Books, Clerk, Plans, TripRead, Trouble};
use crate::desk::DRILL;
use crate::drill::{Drill, DrillTexts, Played, Run, Unplayable};
use crate::record::{Finding, Id, RideSignedOff, Role, Signer};
use crate::store::{Disk, StoreFault, TripFolder};
use crate::walk::Ended;
use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::Arc;

/// What was read of drills so far: one that is signed does not change.
#[derive(Debug, Default)]
pub(in crate::cli) struct Drilled {
    known: HashMap<PathBuf, Option<(Id, Played)>>,
    plans: Plans,
}

impl Drilled {
    /// Whether a drill was read before, and is signed.
    pub(super) fn is_known(&self, folder: &TripFolder) -> bool {
        self.known.contains_key(&folder.path)
    }

    /// The drills that this logbook's people signed, in the order they were played, each with who.
    ///
    /// # Errors
    /// What the disk refused.
    pub(in crate::cli) fn of<D: Disk>(
        &mut self,
        drills: &Books<D>,
    ) -> Result<Vec<(Id, Played)>, StoreFault> {
        let mut found = Vec::new();
        for (device, folder) in drills.folders()? {
            if !drills.logbook.is_signed(&folder)? {
                continue;
            }
            if let Some(known) = self.known.get(&folder.path) {
                found.extend(known.clone());
                continue;
            }
            let read = drills.read(&device, &folder, &mut self.plans)?;
            if read.finding() == Finding::Unsealed {
                // A check ride that waits for its examiner.
                continue;
            }
            let played = played(&read);
            self.known.insert(folder.path.clone(), played.clone());
            found.extend(played);
        }
        found.sort_by_key(|(_, played)| played.at);
        Ok(found)
    }
}

/// The run of a drill as its journal tells it.
pub(super) fn run_of(read: &TripRead) -> Result<Run, Trouble> {
    let not = || Trouble::Said("This is no drill that can be relied on.".to_owned());
    let (trip, walk) = (read.trip().ok_or_else(not)?, read.walk()?);
    let begun = trip.begun().drill.as_ref().ok_or_else(not)?;
    let text = |bytes| str::from_utf8(bytes).unwrap_or_default();
    let texts = DrillTexts {
        checklist: text(&read.checklist),
        rig: text(&read.rig),
        scenario: text(&read.drill.0),
        sights: text(&read.drill.1),
    };
    let drill = Drill::again(texts, (begun.seed, begun.stage)).map_err(unplayable)?;
    let at = trip.at().clone();
    let run = Run::begin(Arc::new(drill), begun.stage, walk.reader(), at);
    let run = run.examined_by(begun.examiner.clone());
    Ok(run.told_by(trip.drilled()))
}

/// What a drill comes to that was signed and gone through: to its end, or as not fit to go.
fn played(read: &TripRead) -> Option<(Id, Played)> {
    let trip = read.trip().filter(|_| read.finding() == Finding::Intact)?;
    let who = trip.sealed()?.person.id.clone();
    let run = run_of(read).ok()?;
    let ended = matches!(
        run.walk().ended(),
        Some(Ended::Complete | Ended::NotFitToGo)
    );
    let played = run.played(trip.at().wall);
    ended.then_some((who, played))
}

impl<D: Disk> Clerk<D> {
    /// What a check ride is good for that this person passed.
    ///
    /// # Errors
    /// A sentence, where it is none, or was not passed, or not by them.
    pub fn passed_ride(&self, named: &str, who: &Id) -> Result<RideSignedOff, Trouble> {
        let drills = self.books()?.drills();
        let folders = drills.folders()?.into_iter();
        let mut folders = folders.filter(|(_, folder)| {
            let name = super::around::trip_name(folder);
            name == named || Some(name.as_str()) == named.strip_prefix(DRILL)
        });
        let (device, folder) = folders.next().ok_or_else(|| {
            Trouble::NotHere(format!(
                "There is no drill “{}” in this logbook. Merge the logbook it was ridden in: \
                 hames logbook merge FOLDER",
                named.escape_debug()
            ))
        })?;
        let read = drills.read(&device, &folder, &mut Plans::default())?;
        let finding = read.finding();
        if finding != Finding::Intact {
            let why = read.faults().join("; ");
            let sentence = format!("This drill signs nobody off: {finding}. {why}.");
            return Err(Trouble::Found(finding, sentence));
        }
        let run = run_of(&read)?;
        let sealed = read.trip().and_then(|trip| trip.sealed());
        let (Some(true), Some(sealed)) = (run.is_passed(), sealed) else {
            return Err(Trouble::Said(
                "This is no check ride that was passed, and signs nobody off.".to_owned(),
            ));
        };
        if sealed.person.id != *who {
            return Err(Trouble::Said(format!(
                "{} rode this check ride. It signs off nobody else.",
                sealed.person.name
            )));
        }
        let plan = run.walk().plan();
        let id = |text: &str| Id::read(text).map_err(|fault| Trouble::Said(format!("{fault}.")));
        Ok(RideSignedOff {
            checklist: id(&plan.checklist().id)?,
            revision: plan.checklist().revision,
            rigs: id(plan.rig().hitch.kind().word())?,
            drill: sealed.seal.trip.clone(),
            seal: sealed.hash,
        })
    }
}

/// Why a scenario cannot be played here.
pub(super) fn unplayable(why: Unplayable) -> Trouble {
    let faults = match why {
        Unplayable::NoSuchValue(at) => vec![format!("the rig file has no {at}")],
        Unplayable::Passage(faults) | Unplayable::Rig(faults) | Unplayable::Scenario(faults) => {
            faults.iter().map(ToString::to_string).collect()
        }
        Unplayable::Plan(gaps) => gaps.iter().map(ToString::to_string).collect(),
    };
    Trouble::Said(format!(
        "This scenario cannot be played by this program: {}. Choose another.",
        faults.join("; ")
    ))
}

/// Whether one of the crew may sign drills.
pub(super) fn may_drill(signer: &Signer) -> bool {
    let drills = crate::record::Mode::Drill;
    let signs = |one: &crate::record::Namespace| one.mode == drills;
    !signer.roles.contains(&Role::Device) && signer.namespaces.iter().any(signs)
}

/// What a drill of this laptop is called where it is taken up.
pub(super) fn drill_name(folder: &TripFolder) -> String {
    format!("{DRILL}{}", super::around::trip_name(folder))
}
