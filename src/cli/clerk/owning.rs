//! Defects: every one of the barn, and the manager's word on who sees to one, and by when.

use crate::checklist::Plan;
use crate::cli::clerk::history::Walked;
use crate::cli::clerk::{Books, Clerk, TripRead, Trouble};
use crate::cli::command::quoted;
use crate::desk::earlier::date;
use crate::desk::{BarnDefects, ClosedDefect, Consent, RigDefects, StandingDefect};
use crate::haul::{Defect, Standing, Today, fold};
use crate::record::{DefectOwned, Finding, Id, Odometer, Owner, PrintedName, Role, Says, Signer};
use crate::store::{Disk, StatementFolder, TripFolder};
use crate::units::Typed;
use crate::walk::Words;
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashSet};
use std::path::Path;

/// Who is to see to which defect, and by when, as a manager typed it.
#[derive(Clone, Debug)]
pub struct Given {
    /// The step, with its part.
    pub step: Words,
    /// Who.
    pub owner: Owner,
    /// The last day it is in time.
    pub by_day: Option<NaiveDate>,
    /// The odometer up to which it is in time.
    pub by_odometer: Option<Typed>,
    /// What else is said.
    pub words: Option<Words>,
}

/// The defect that is meant, and what a statement names of its trip.
#[derive(Clone, Debug)]
pub struct Meant {
    /// The rig, by its name.
    pub rig: String,
    /// The defect as it stands.
    pub standing: StandingDefect,
    /// The owner's name.
    pub owner: String,
    says: DefectOwned,
}

impl<D: Disk> Clerk<D> {
    /// Every defect of every rig that was walked here, as far back as there are trips.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn defects(&mut self) -> Result<BarnDefects, Trouble> {
        let books = self.books()?;
        let (walked, notices) = self.history.all(&books)?;
        let said = books.owned()?;
        let words: Vec<_> = said.iter().map(|one| one.said.clone()).collect();
        let today = self.by(None);
        let mut names: BTreeMap<&str, String> = BTreeMap::new();
        for one in &walked {
            names.insert(&one.past.rig, one.rig_name.clone());
        }
        let mut rigs = Vec::new();
        let mut told = HashSet::new();
        for (rig, name) in names {
            let standing = fold(rig, walked.iter().map(|one| &one.past)).with_words(&words);
            let closed = standing.closed.iter().map(|closed| &closed.defect);
            let all = standing.defects.iter().chain(closed);
            told.extend(all.flat_map(|defect| defect.owned.iter().map(|one| one.place)));
            rigs.push(self.of_rig((rig, name), &standing, &walked, today));
        }
        let rest = said.iter().filter(|one| !told.contains(&one.said.place));
        let of_none = rest.map(|one| {
            let mut here = walked.iter();
            let is_here = here.any(|trip| trip.past.trip == one.said.trip);
            let of = format!("{} of trip {} of {}", one.said.step, one.seq, one.device);
            let why = if is_here {
                format!("{of}, of which nothing bad stood")
            } else {
                format!("{of}; its trip is not here, or cannot be relied on")
            };
            (one.said.clone(), why)
        });
        Ok(BarnDefects {
            day: today.day,
            of_none: of_none.collect(),
            rigs,
            notices,
        })
    }

    fn of_rig(
        &self,
        (rig, name): (&str, String),
        standing: &Standing,
        walked: &[Walked],
        today: Today<'_>,
    ) -> RigDefects {
        let trip = |trip: &str| {
            let one = walked.iter().find(|one| one.past.trip == trip);
            one.map_or_else(String::new, |one| {
                format!("{}/{}", one.device, one.folder.seq)
            })
        };
        let open = standing.defects.iter().map(|defect| {
            let lists = self.lists_about(rig, standing, defect, walked);
            let is_signed = |of: &&String| {
                let mut walked = walked.iter();
                walked.any(|one| one.past.trip == **of && one.past.signed)
            };
            let signed = defect.trips.iter().rev().find(is_signed);
            StandingDefect {
                signed_trip: signed.map(|of| trip(of)),
                ..StandingDefect::of(defect.clone(), today, trip(&defect.trip), lists)
            }
        });
        let mut open: Vec<StandingDefect> = open.collect();
        open.sort_by_key(|one| one.rank(today));
        let closed = standing.closed.iter().rev().map(|closed| ClosedDefect {
            trip: trip(&closed.defect.trip),
            by_trip: trip(&closed.trip),
            closed: closed.clone(),
        });
        RigDefects {
            rig: rig.to_owned(),
            name,
            standing: open,
            closed: closed.collect(),
            odometer: standing.odometer.as_ref().map(|read| read.shown.clone()),
        }
    }

    /// The lists it keeps back, and those that ask it.
    fn lists_about(
        &self,
        rig: &str,
        standing: &Standing,
        defect: &Defect,
        walked: &[Walked],
    ) -> (Vec<String>, Result<Vec<String>, String>) {
        let carried = standing.carried();
        let today = self.by(None);
        let offer = self.stock.rig(rig);
        let alone = Standing {
            defects: vec![defect.clone()],
            ..Standing::default()
        };
        let listed = self.stock.checklists.iter();
        let lists = listed.filter_map(|listed| self.stock.whole(listed));
        let laid = lists.filter_map(|list| {
            let rig = offer?.read.clone();
            Plan::lay_for(list.read, rig, carried.clone()).ok()
        });
        let barred = laid.filter(|plan| !alone.bars(plan, today).is_empty());
        let keeps_back = barred.map(|plan| plan.checklist().title.clone()).collect();
        let asking = offer.map(|offer| self.asking(defect, &offer.read, &carried));
        let asking = asking.filter(|lists| !lists.is_empty());
        let asked_by = asking.ok_or_else(|| {
            let trip = walked.iter().find(|one| one.past.trip == defect.trip);
            trip.map_or_else(String::new, |one| the_list_of(&one.folder.path))
        });
        (keeps_back, asked_by)
    }

    /// The defect that is meant, as it stands, where a manager may say who sees to it.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn to_assign(
        &mut self,
        (device, folder): &(Id, TripFolder),
        given: &Given,
    ) -> Result<Meant, Trouble> {
        let books = self.books()?;
        let owner = owner_name(&books, &given.owner)?;
        if given.by_day.is_some_and(|day| day < self.today()) {
            return Err(Trouble::NotHere(
                "That day is past. A defect is due today at the earliest: --due DATE".to_owned(),
            ));
        }
        let read = books.read(device, folder, &mut self.history.plans)?;
        let seal = seal_of(&read)?;
        let trip = read.trip().map(|trip| trip.begun().trip.clone());
        let trip = trip.ok_or_else(|| bad(&read))?;
        let (walked, _) = self.history.all(&books)?;
        let all = self.defects()?;
        let is_meant = |one: &Defect| {
            one.found.step.as_str() == given.step.as_str()
                && one.trips.iter().any(|of| of == trip.as_str())
        };
        for rig in all.rigs {
            let mut standing = rig.standing.iter();
            if let Some(found) = standing.find(|one| is_meant(&one.defect)) {
                let own = walked.iter().filter(|one| one.past.rig == rig.rig);
                lies_ahead(given.by_odometer.as_ref(), &found.defect, own)?;
                let meant = Meant {
                    rig: rig.name,
                    standing: found.clone(),
                    owner,
                    says: DefectOwned {
                        trip,
                        device: device.clone(),
                        seq: folder.seq,
                        seal,
                        step: given.step.clone(),
                        owner: given.owner.clone(),
                        by_day: given.by_day,
                        by_odometer: given.by_odometer.clone().map(Odometer),
                        words: given.words.clone(),
                    },
                };
                return is_news(&meant).map(|()| meant);
            }
            let mut closed = rig.closed.iter().map(|one| &one.closed);
            if let Some(closed) = closed.find(|one| is_meant(&one.defect)) {
                return Err(Trouble::Said(format!(
                    "{} is closed: {} found it {} on {}. There is nothing to see to any more.",
                    given.step,
                    closed.by.who,
                    closed.by.found,
                    date(&closed.by.at)
                )));
            }
        }
        Err(Trouble::NotHere(format!(
            "Nothing that still stands was found by {} on that trip. What stands, with trip and step: \
             hames logbook defects",
            given.step
        )))
    }

    /// Signs and keeps who sees to a defect.
    ///
    /// # Errors
    /// A sentence with its next step. Nothing was stated then.
    pub fn assign(
        &self,
        meant: &Meant,
        who: (&Signer, &Consent),
    ) -> Result<StatementFolder, Trouble> {
        let books = self.books()?;
        books.may_state(&books.statements()?)?;
        self.state(who, Says::DefectOwned(meant.says.clone()))
    }
}

/// Refuses an odometer that is behind already, by what was read on a walk of the rig since the
/// defect was found.
fn lies_ahead<'w>(
    by_odometer: Option<&Typed>,
    defect: &Defect,
    walked: impl DoubleEndedIterator<Item = &'w Walked>,
) -> Result<(), Trouble> {
    let Some((at, read)) = by_odometer.zip(defect.furthest.as_ref()) else {
        return Ok(());
    };
    let left = at.quantity().minus(read);
    if !left.is_some_and(|left| left.value.is_negative()) {
        return Ok(());
    }
    let when = walked.rev().find_map(|walk| {
        let known = walk.past.odometer.as_ref();
        let known = known.filter(|known| known.shown == *read)?;
        let (device, number) = (&walk.device, walk.folder.seq);
        Some(format!(
            " on {}, read by {} on trip {device}/{number}",
            known.on, known.by
        ))
    });
    let when = when.unwrap_or_default();
    Err(Trouble::NotHere(format!(
        "At {at} it would be past already: the odometer showed {read}{when}. Say --due-at with more than \
         that, or a day with --due."
    )))
}

/// The command that walks the very list a defect was found by.
pub(super) fn the_list_of(folder: &Path) -> String {
    format!(
        "hames walk --checklist {} --rig {}",
        quoted(&folder.join("checklist.yaml")),
        quoted(&folder.join("rig.yaml"))
    )
}

/// Refuses what was said already, word for word.
fn is_news(meant: &Meant) -> Result<(), Trouble> {
    let says = &meant.says;
    let at = says.by_odometer.as_ref().map(|at| &at.0);
    let mut owners = meant.standing.defect.owners();
    let same = owners.find(|one| {
        let due = (one.by_day, one.by_odometer.as_ref()) == (says.by_day, at);
        one.owner == meant.owner && due && one.words == says.words
    });
    match same {
        Some(same) => Err(Trouble::Said(format!(
            "That is said already, in {}. Nothing was signed.",
            same.basis().source
        ))),
        None => Ok(()),
    }
}

/// The seal of a trip that can be relied on.
fn seal_of(read: &TripRead) -> Result<crate::record::Digest, Trouble> {
    match (read.finding(), read.trip().and_then(|trip| trip.sealed())) {
        (Finding::Intact, Some(sealed)) => Ok(sealed.hash),
        (Finding::Unsealed, _) => Err(Trouble::Said(format!(
            "Nobody has signed for trip {} yet, so its end is not known. Take it up, end it and have it \
             signed; then say who sees to it.",
            super::around::trip_name(&read.folder)
        ))),
        _ => Err(bad(read)),
    }
}

fn bad(read: &TripRead) -> Trouble {
    let finding = read.finding();
    let sentence = format!(
        "Trip {} cannot be relied on ({finding}), so nothing is said of what was found on it. See it \
         with: hames verify {}",
        super::around::trip_name(&read.folder),
        quoted(&read.folder.path)
    );
    Trouble::Found(finding, sentence)
}

/// The name of who is to see to it.
fn owner_name<D: Disk>(books: &Books<D>, owner: &Owner) -> Result<String, Trouble> {
    let is_person = |signer: &&Signer| !signer.roles.contains(&Role::Device);
    let people = || books.crew.signers().iter().filter(is_person);
    let id = match owner {
        Owner::Outside(words) => {
            let is_one = |signer: &&Signer| {
                words.as_str() == signer.id.as_str() || words.as_str() == signer.name.as_str()
            };
            return match people().find(is_one) {
                Some(one) => Err(Trouble::NotHere(format!(
                    "{} is in the crew, so not outside of it. Say --owner {} instead.",
                    one.name, one.id
                ))),
                None => Ok(words.to_string()),
            };
        }
        Owner::Crew(id) => id,
    };
    let name = |signer: &Signer| -> PrintedName { signer.name.clone() };
    if let Some(found) = people().find(|signer| signer.id == *id) {
        return Ok(name(found).to_string());
    }
    let known: Vec<&str> = people().map(|signer| signer.id.as_str()).collect();
    Err(Trouble::NotHere(format!(
        "Nobody in the crew is called {id}. There are: {}. For somebody else say --outside WORDS.",
        known.join(", ")
    )))
}
