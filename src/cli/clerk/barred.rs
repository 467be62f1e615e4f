//! What stands open of a rig when a walk is to begin, and whether that keeps it from beginning.

use crate::checklist::Plan;
use crate::cli::clerk::founding::is_founded;
use crate::cli::clerk::history::Looked;
use crate::cli::clerk::{Clerk, Trouble};
use crate::desk::earlier::told;
use crate::haul::{Defect, asks};
use crate::record::Wall;
use crate::store::Disk;

/// Most lists a refusal names as the way out.
const LISTS_NAMED: usize = 3;

impl<D: Disk> Clerk<D> {
    /// What the walks of a rig have left, or had left by the time on a paper.
    pub(super) fn look_back(&mut self, rig: &str, by: Option<Wall>) -> Result<Looked, Trouble> {
        if !is_founded(&self.disk, &self.place.root)? {
            return Ok(Looked::default());
        }
        let books = self.books()?;
        let by = by.map(|wall| wall.moment());
        Ok(self.history.of(&books, rig, by)?)
    }

    /// Refuses a list that the open defects of the rig keep from being begun.
    pub(super) fn is_not_barred(&self, plan: &Plan, looked: &Looked) -> Result<(), Trouble> {
        if let Some(unhitched) = looked.standing.wants_hitching(plan) {
            return Err(Trouble::Said(format!(
                "“{}” is not begun: the trailer was unhitched on {}, and no signed walk has \
                 hitched it up since. Walk the hitch-up first.",
                plan.checklist().title,
                unhitched.format("%Y-%m-%d %H:%M")
            )));
        }
        let bars = looked.standing.bars(plan);
        let Some(defect) = bars.first() else {
            return Ok(());
        };
        let more = match bars.len() {
            1 => String::new(),
            all => format!(" {} more keep the rig off the road.", all - 1),
        };
        Err(Trouble::Said(format!(
            "“{}” is not begun: the rig stays off the road. {}. {}{more}",
            plan.checklist().title,
            told(defect),
            self.way_out(defect, plan, looked)
        )))
    }

    /// The lists on offer that ask the very step.
    fn way_out(&self, defect: &Defect, plan: &Plan, looked: &Looked) -> String {
        let rig = plan.rig();
        let lay = |list| Plan::lay_for(list, rig.clone(), looked.standing.carried()).ok();
        let lists = self.stock.checklists.iter().map(|offer| &offer.read);
        let asking: Vec<&str> = lists
            .filter(|list| lay((*list).clone()).is_some_and(|plan| asks(&plan, defect)))
            .map(|list| list.title.as_str())
            .take(LISTS_NAMED)
            .collect();
        if !asking.is_empty() {
            return format!(
                "Put it right, then walk a list that asks this step: {}.",
                asking.join(", or ")
            );
        }
        let folder = looked.folders.get(&defect.trip);
        let folder = folder.map(|folder| folder.display().to_string());
        format!(
            "No list here asks this step any more. Put it right, then walk the list it was found \
             by: hames walk --checklist {0}/checklist.yaml --rig {0}/rig.yaml",
            folder.unwrap_or_default()
        )
    }
}
