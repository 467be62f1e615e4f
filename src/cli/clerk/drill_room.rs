//! What there is to drill with, and how far everyone is who learns here.

use crate::checklist::Checklist;
use crate::cli::clerk::choosing::RIGS;
use crate::cli::clerk::drilled::{drill_name, may_drill};
use crate::cli::clerk::founding::{demo_people, is_founded};
use crate::cli::clerk::{Books, Clerk, Trouble, around};
use crate::desk::{CrewCard, Difference, DrillRoom, Learner, Reply, ScenarioCard};
use crate::drill::{Progress, Scenario, different, is_ridden, scenarios};
use crate::record::{Finding, Id, Mode, RideSignedOff, Role, Signer, Verified};
use crate::store::Disk;
use chrono::NaiveDate;
use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

const NO_LOGBOOK: &str = "There is no logbook, so no drill is recorded. Make one with: hames walk";

const MAY_NOT: &str = "Nobody in the crew file of this logbook may sign drills, so none is \
    recorded: it was made before there were drills. Whoever gets a new key may from then on: \
    hames crew revoke ID --why WORDS --new-key";

impl<D: Disk> Clerk<D> {
    /// What there is to drill with. Nothing is written.
    pub(super) fn look_at_drills(&mut self) -> Result<Reply, Trouble> {
        let today = self.world.now().wall.date_naive();
        let mut room = DrillRoom {
            learners: Vec::new(),
            unrecorded: None,
            scenarios: self.offered.scenarios().iter().map(card).collect(),
            rides: Vec::new(),
            today,
            is_demo: self.place.mode == Mode::Demo,
        };
        if is_founded(&self.disk, &self.place.root)? {
            let books = self.books()?;
            room.is_demo = books.mode() == Mode::Demo;
            match books.drilling_device() {
                Ok(device) => {
                    room.learners = self.learners(&books)?;
                    self.put_unfinished(&books.drills(), &device, &mut room.learners)?;
                }
                Err(why) => room.unrecorded = Some(why.to_string()),
            }
        } else if self.place.mode == Mode::Demo {
            let people = demo_people()?.into_iter().map(|person| CrewCard {
                id: person.id.to_string(),
                name: person.name.to_string(),
                roles: person.roles,
            });
            let people: Vec<CrewCard> = people.collect();
            let learners = people.iter().map(|card| Learner {
                who: card.clone(),
                progress: Progress::default(),
                walked: None,
                differences: Vec::new(),
                unfinished: Vec::new(),
                examiners: examiners(&people, card),
            });
            room.learners = learners.collect();
        } else {
            room.unrecorded = Some(NO_LOGBOOK.to_owned());
        }
        if !room.learners.is_empty() {
            room.rides.clone_from(&RIDDEN);
        }
        Ok(Reply::DrillRoom(Box::new(room)))
    }

    /// Everyone who may sign drills, with how far they are.
    pub(super) fn learners(&mut self, books: &Books<D>) -> Result<Vec<Learner>, Trouble> {
        let played = self.drilled.of(&books.drills())?;
        let walked = self.last_walks(books)?;
        let ridden = books.ridden()?;
        let signers = books.crew.signers().iter().filter(|one| may_drill(one));
        let people: Vec<CrewCard> = signers.clone().map(around::crew_card).collect();
        let learner = |signer: &Signer| {
            let own = played.iter().filter(|(who, _)| *who == signer.id);
            let progress = Progress::of(own.map(|(_, played)| played));
            let own = ridden.iter().filter(|(who, ..)| *who == signer.id);
            let differences = own.flat_map(|(_, ride, before)| since(&progress, ride, before));
            let who = around::crew_card(signer);
            Learner {
                examiners: examiners(&people, &who),
                who,
                walked: walked.get(signer.name.as_str()).copied(),
                unfinished: Vec::new(),
                differences: differences.collect(),
                progress,
            }
        };
        Ok(signers.map(learner).collect())
    }

    /// When each person last walked any rig.
    fn last_walks(&mut self, books: &Books<D>) -> Result<BTreeMap<String, NaiveDate>, Trouble> {
        let mut last = BTreeMap::new();
        for rig in &self.stock.rigs {
            let looked = self.history.of(books, &rig.read.id, None, &[])?;
            for (name, day) in looked.standing.walked {
                let newest = last.entry(name).or_insert(day);
                *newest = day.max(*newest);
            }
        }
        Ok(last)
    }

    /// Puts each drill that was begun here and is not ended or not signed to whose it is. Nobody goes
    /// on with somebody else's, which is recorded under that name.
    fn put_unfinished(
        &mut self,
        drills: &Books<D>,
        device: &Id,
        learners: &mut [Learner],
    ) -> Result<(), Trouble> {
        for folder in drills.logbook.trips(device)?.trips.into_iter().rev() {
            if !drills.logbook.has_begun(&folder)? || self.drilled.is_known(&folder) {
                continue;
            }
            let read = drills.read(device, &folder, &mut self.history.plans)?;
            if read.finding() != Finding::Unsealed {
                continue;
            }
            let Some(begun) = read.trip().map(Verified::begun) else {
                continue;
            };
            let who = begun.reader.as_str();
            let Some(learner) = learners.iter_mut().find(|one| one.who.name == who) else {
                continue;
            };
            let mut card = around::card(&read, device);
            if begun
                .drill
                .as_ref()
                .is_some_and(|one| one.examiner.is_some())
            {
                card.checklist = format!("check ride of {}", card.checklist);
            }
            card.trip = drill_name(&folder);
            card.goes_on = read.walk().is_ok_and(|walk| walk.ended().is_none());
            learner.unfinished.push(card);
        }
        Ok(())
    }
}

impl<D: Disk> Books<D> {
    /// The check rides of the roster that were of an earlier revision than there is now, each with
    /// who rode it and the checklist as it was.
    fn ridden(&self) -> Result<Vec<(Id, RideSignedOff, Checklist)>, Trouble> {
        let Some(force) = self.roster.in_force() else {
            return Ok(Vec::new());
        };
        let drills = self.drills();
        let mut found = Vec::new();
        for line in &force.change.signed_off {
            let is_old = |ride: &&RideSignedOff| {
                let now = crate::drill::list(ride.checklist.as_str());
                now.is_some_and(|list| list.checklist.revision > ride.revision)
            };
            for ride in line.rides.iter().filter(is_old) {
                let mut folders = drills.folders()?.into_iter();
                let folder = folders.find(|(_, one)| one.begins_with_name_of(&ride.drill));
                let Some((_, folder)) = folder else { continue };
                let text = drills.logbook.read(&folder.checklist())?;
                let text = String::from_utf8_lossy(&text).into_owned();
                if let Ok(before) = Checklist::read(&text) {
                    found.push((line.person.clone(), ride.clone(), before));
                }
            }
        }
        Ok(found)
    }

    /// This laptop, where it and somebody of the crew may sign drills.
    pub(super) fn drilling_device(&self) -> Result<Id, Trouble> {
        let device = self.device()?;
        let signs = |signer: &Signer| signer.namespaces.iter().any(|one| one.mode == Mode::Drill);
        let can = self.crew.signer(&device).is_some_and(signs);
        if can && self.crew.signers().iter().any(may_drill) {
            return Ok(device);
        }
        Err(Trouble::Said(MAY_NOT.to_owned()))
    }
}

/// What changed since a check ride, and was not met since.
fn since(progress: &Progress, ride: &RideSignedOff, before: &Checklist) -> Vec<Difference> {
    let list = ride.checklist.as_str();
    let Some(now) = crate::drill::list(list).map(|list| &list.checklist) else {
        return Vec::new();
    };
    let changed = different(before, now).into_iter();
    let left = changed.filter(|one| !progress.is_met(list, &one.section, now.revision));
    left.map(|one| Difference {
        list: list.to_owned(),
        revision: now.revision,
        step: one.step,
    })
    .collect()
}

/// The checklists of which a check ride can be put together, in the order of the scenarios. Put
/// together once: nothing of it changes while the program runs.
static RIDDEN: LazyLock<Vec<String>> = LazyLock::new(|| {
    let mut lists: Vec<String> = Vec::new();
    for scenario in scenarios() {
        if !lists.contains(&scenario.list) {
            lists.push(scenario.list.clone());
        }
    }
    let is_ridden = |list: &String| RIGS.iter().any(|rig| is_ridden(list, *rig, scenarios()));
    lists.retain(is_ridden);
    lists
});

/// Who of these may examine one of them.
fn examiners(people: &[CrewCard], rider: &CrewCard) -> Result<Vec<String>, String> {
    let others = people.iter().filter(|one| one.id != rider.id);
    let may = others.filter(|one| Role::examining(&one.roles).is_some());
    let names: Vec<String> = may.map(|one| one.name.clone()).collect();
    if names.is_empty() {
        return Err(format!(
            "Nobody of the crew may examine {}: an examiner or a manager does, and nobody examines \
             themselves. A manager says who may: hames crew roles ID --role driver --role examiner",
            rider.name
        ));
    }
    Ok(names)
}

fn card(scenario: &Arc<Scenario>) -> ScenarioCard {
    ScenarioCard {
        id: scenario.id.clone(),
        title: scenario.title.clone(),
        family: scenario.family,
        list: scenario.list.clone(),
        sections: scenario.sections.clone(),
        rig: scenario.rig.clone(),
    }
}
