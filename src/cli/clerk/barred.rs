//! What stands open and is due of a rig, and whether that keeps a walk from beginning.

use crate::checklist::Plan;
use crate::cli::clerk::founding::is_founded;
use crate::cli::clerk::history::Looked;
use crate::cli::clerk::owning::the_list_of;
use crate::cli::clerk::{Clerk, Trouble};
use crate::desk::DefectCard;
use crate::desk::earlier::{defects, opens, owned, owner};
use crate::desk::told_due;
use crate::due::{Day, Due, Odometer, Walked, due_by, odometer as known};
use crate::haul::{Defect, Owned, Today, asks, barring};
use crate::record::Wall;
use crate::rig::Rig;
use crate::rules::Carried;
use crate::store::Disk;
use crate::units::Quantity;

/// Most lists a refusal names as the way out.
const LISTS_NAMED: usize = 3;

/// What is due for a rig today.
#[derive(Clone, Debug)]
pub struct DueToday {
    /// By date and distance.
    pub due: Vec<Due>,
    /// From which odometer the distance that is left is reckoned.
    pub odometer: Option<Odometer>,
    /// What earlier walks left open, as sentences.
    pub open: Vec<String>,
    /// What earlier walks found bad.
    pub defects: Vec<DefectCard>,
    /// Trips that cannot be relied on.
    pub notices: Vec<String>,
}

impl<D: Disk> Clerk<D> {
    /// What the walks of a rig have left, or had left by the time on a paper.
    pub(super) fn look_back(&mut self, rig: &str, by: Option<Wall>) -> Result<Looked, Trouble> {
        if !is_founded(&self.disk, &self.place.root)? {
            return Ok(Looked::default());
        }
        let books = self.books()?;
        let by = by.map(|wall| wall.moment());
        let said = books.owned()?;
        Ok(self.history.of(&books, rig, by, &said)?)
    }

    /// What due days and odometers are held to.
    pub(in crate::cli) fn by<'q>(&self, odometer: Option<&'q Quantity>) -> Today<'q> {
        Today {
            day: self.today(),
            odometer,
        }
    }

    /// What is due for a rig today, by its file, the barn's settings and what its walks have done
    /// and left.
    ///
    /// # Errors
    /// What the disk refused.
    pub fn due(&mut self, rig: &Rig, odometer: Option<&Quantity>) -> Result<DueToday, Trouble> {
        let looked = self.look_back(&rig.id, None)?;
        Ok(DueToday {
            due: self.due_of(rig, &looked, odometer),
            odometer: known(rig, Day::Today(self.today()), odometer, walked(&looked)),
            open: opens(&looked.standing),
            defects: defects(&looked.standing, self.by(odometer)),
            notices: looked.notices,
        })
    }

    /// The same, by what was looked back at.
    pub(super) fn due_of(
        &self,
        rig: &Rig,
        looked: &Looked,
        odometer: Option<&Quantity>,
    ) -> Vec<Due> {
        due_by(
            self.stock.settings.tires,
            rig,
            Day::Today(self.today()),
            odometer,
            walked(looked),
        )
    }

    /// Refuses a list that the open defects of the rig keep from being begun, or what has run out.
    pub(super) fn is_not_barred(
        &self,
        plan: &Plan,
        looked: &Looked,
        odometer: Option<&Quantity>,
    ) -> Result<(), Trouble> {
        if let Some(unhitched) = looked.standing.wants_hitching(plan) {
            return Err(Trouble::Said(format!(
                "“{}” is not begun: the trailer was unhitched on {}, and no signed walk has \
                 hitched it up since. Walk the hitch-up first.",
                plan.checklist().title,
                unhitched.format("%Y-%m-%d %H:%M")
            )));
        }
        let today = self.by(odometer);
        let bars = looked.standing.bars(plan, today);
        let due = self.due_of(plan.rig(), looked, None);
        let due = barring(plan, &due);
        let first = match (bars.first(), due.first()) {
            (Some(defect), _) => {
                let told = owned(defect, today);
                format!("{told}. {}", self.way_out(defect, plan, looked))
            }
            (None, Some(due)) => told_due(due),
            (None, None) => return Ok(()),
        };
        let more = match bars.len() + due.len() {
            1 => String::new(),
            all => format!(" {} more keep the rig off the road.", all - 1),
        };
        Err(Trouble::Said(format!(
            "“{}” is not begun: the rig stays off the road. {first}{more}",
            plan.checklist().title,
        )))
    }

    /// What is to be known of defects that have an owner before this walk begins.
    pub(super) fn owned(
        &self,
        plan: &Plan,
        looked: &Looked,
        odometer: Option<&Quantity>,
    ) -> Vec<String> {
        let today = self.by(odometer);
        let with_owner = looked.standing.defects.iter().filter_map(|defect| {
            let owners = defect.owners().map(|one| owner(one, defect, today));
            let owners: Vec<String> = owners.collect();
            (!owners.is_empty()).then(|| (defect, owners.join(". ")))
        });
        let told = with_owner.map(|(defect, owners)| {
            let asked = if asks(plan, defect) {
                "It is asked on this walk."
            } else if defect.blocks(today) {
                "It is not asked on this walk, and keeps the rig off the road."
            } else if defect.owners().any(Owned::is_dated) {
                "It is not asked on this walk; once it is overdue it keeps the rig off the road \
                 until it is found well."
            } else {
                "It is not asked on this walk."
            };
            format!("{}: {owners}. {asked}", defect.found.name)
        });
        told.collect()
    }

    /// The titles of the lists on offer that ask the very step on this rig.
    pub(in crate::cli) fn asking(
        &self,
        defect: &Defect,
        rig: &Rig,
        carried: &[Carried],
    ) -> Vec<String> {
        let lay = |list| Plan::lay_for(list, rig.clone(), carried.to_vec()).ok();
        let listed = self.stock.checklists.iter();
        let lists = listed.filter_map(|listed| self.stock.whole(listed));
        lists
            .filter(|list| lay(list.read.clone()).is_some_and(|plan| asks(&plan, defect)))
            .map(|list| list.read.title)
            .take(LISTS_NAMED)
            .collect()
    }

    /// What to do about a defect.
    fn way_out(&self, defect: &Defect, plan: &Plan, looked: &Looked) -> String {
        let asking = self.asking(defect, plan.rig(), &looked.standing.carried());
        if !asking.is_empty() {
            return format!(
                "Put it right, then walk a list that asks this step: {}.",
                asking.join(", or ")
            );
        }
        let folder = looked.folders.get(&defect.trip);
        format!(
            "No list here asks this step any more. Put it right, then walk the list it was found \
             by: {}",
            folder.map_or_else(String::new, |folder| the_list_of(folder))
        )
    }
}

/// What the walks of a rig tell of it.
fn walked(looked: &Looked) -> Walked<'_> {
    Walked {
        done: &looked.standing.served,
        odometer: looked.standing.odometer.as_ref(),
    }
}
