//! What a manager chooses a history of a fork by: the trips that go on from it, and who knows them.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::{Books, Plans, Trouble};
use crate::desk::earlier;
use crate::record::{Digest, Id, Opinion, Previous, Receipt, Says, Stated, Statements, Verified};
use crate::store::{Disk, TripFolder};
use crate::walk::Moment;

/// So many letters of a hash are shown.
const HASH_LETTERS: usize = 8;

/// A history of a fork.
pub(super) struct BranchOf<'a> {
    pub(super) device: &'a Id,
    pub(super) folder: &'a TripFolder,
    pub(super) trip: &'a Verified,
    pub(super) ends: Previous,
}

impl<D: Disk> Books<D> {
    /// The trips of a history and who else knows of them, in lines. `here` is the present start of
    /// the laptop that is looked from, where it is the one of the fork.
    pub(super) fn tell_branch(
        &self,
        branch: &BranchOf<'_>,
        statements: &Statements,
        here: Option<&Moment>,
    ) -> Result<Vec<String>, Trouble> {
        let mut row = vec![(branch.folder.clone(), branch.ends)];
        row.extend(self.behind(branch)?);
        let mut told = vec![match row.len() {
            1 => "it has 1 trip, this one:".to_owned(),
            many => format!("it has {many} trips, this one and those that go on from it:"),
        }];
        let (mut ids, mut ends) = (Vec::new(), Vec::new());
        let mut plans = Plans::default();
        for (folder, ending) in &row {
            ends.push(*ending);
            let read = self.read(branch.device, folder, &mut plans)?;
            let Some(trip) = read.trip() else {
                told.push(format!(
                    "  {} cannot be relied on: {}",
                    trip_name(folder),
                    read.finding()
                ));
                continue;
            };
            ids.push(trip.begun().trip.clone());
            let names = read.walk().ok().map(|walk| {
                let plan = walk.plan();
                (plan.rig().name.clone(), plan.checklist().title.clone())
            });
            told.push(format!("  {}", line(trip, names)));
        }
        if here.is_some_and(|now| now.counts_sleep() && now.boot == branch.trip.at().boot) {
            told.push(
                "begun since this laptop was last started, so it was walked on it".to_owned(),
            );
        }
        let known = self.known_by(branch.device, (&ids, &ends), statements)?;
        told.push(if known.is_empty() {
            "nobody else has named a trip of it: no statement, and no trip of another laptop"
                .to_owned()
        } else {
            format!("named by {}", known.join("; by "))
        });
        Ok(told)
    }

    /// The trips that go on from a history, one after the other, and how each ends.
    fn behind(&self, branch: &BranchOf<'_>) -> Result<Vec<(TripFolder, Previous)>, Trouble> {
        let (mut row, mut last) = (Vec::new(), vec![branch.ends]);
        for folder in self.logbook.trips(branch.device)?.trips {
            if folder.seq <= branch.folder.seq {
                continue;
            }
            let before = self.previous(&folder);
            if before.is_some_and(|before| last.contains(&before))
                && let Some(ends) = self.ends(&folder)?
            {
                last.push(ends);
                row.push((folder, ends));
            }
        }
        Ok(row)
    }

    /// Managers' statements and other laptops' trips that name one of these trips.
    fn known_by(
        &self,
        device: &Id,
        (ids, ends): (&[Id], &[Previous]),
        statements: &Statements,
    ) -> Result<Vec<String>, Trouble> {
        let mut known = Vec::new();
        for stated in statements.stated().iter().map(Stated::statement) {
            let (number, name) = (stated.number, &stated.name);
            match &stated.says {
                Says::Countersigned(trip) if ends.contains(&Previous::Sealed(trip.seal)) => {
                    let opinion = match trip.opinion {
                        Opinion::Agreed => "agreed to",
                        Opinion::Asked => "asked about",
                    };
                    known.push(format!(
                        "statement {number} of {name}, who {opinion} trip {}",
                        trip.seq
                    ));
                }
                Says::DefectOwned(owned) if ends.contains(&Previous::Sealed(owned.seal)) => {
                    known.push(format!(
                        "statement {number} of {name}, who gave a defect of trip {} an owner",
                        owned.seq
                    ));
                }
                Says::ForkClosed(fork) if ends.contains(&fork.goes_on.ends) => {
                    known.push(format!("statement {number} of {name}, who said it goes on"));
                }
                Says::ForkClosed(fork) if fork.ended.iter().any(|one| ends.contains(&one.ends)) => {
                    known.push(format!("statement {number} of {name}, who said it ends"));
                }
                _ => {
                    let mut heads = stated.heads.iter();
                    let head =
                        heads.find(|head| head.device == *device && ends.contains(&head.ends));
                    known.extend(head.map(|head| {
                        format!("statement {number} of {name}, who saw trip {}", head.seq)
                    }));
                }
            }
        }
        for (other, folder) in self.trips()? {
            if other == *device {
                continue;
            }
            let Some(begun) = self.first_line(&folder) else {
                continue;
            };
            let since = begun.carried.iter().map(|left| &left.since);
            if begun.haul.iter().chain(since).any(|id| ids.contains(id)) {
                known.push(format!(
                    "{} of {other}, which goes on from it",
                    trip_name(&folder)
                ));
            }
        }
        Ok(known)
    }
}

/// Number, day, rig, list, who signed it, how it ended, and by what it is known.
fn line(trip: &Verified, names: Option<(String, String)>) -> String {
    let begun = trip.begun();
    let (rig, list) = names.unwrap_or_else(|| (begun.rig.id.clone(), begun.checklist.id.clone()));
    let signed = trip.sealed().map_or_else(
        || "not signed".to_owned(),
        |sealed| {
            format!(
                "{}, signed by {}, receipt {}, seal {}",
                sealed.seal.outcome.word().replace('-', " "),
                sealed.seal.name,
                Receipt::of(&sealed.hash),
                short(&sealed.hash)
            )
        },
    );
    format!(
        "trip {}, {}, {rig}, “{list}”: {signed}",
        begun.seq,
        earlier::date(&trip.at().wall)
    )
}

fn short(hash: &Digest) -> String {
    hash.to_string().chars().take(HASH_LETTERS).collect()
}
