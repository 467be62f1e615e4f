//! What scenarios are held against: the lists, rigs and sights there are.

use crate::checklist::{SHIPPED, Together, shipped_by_default};
use crate::drill::shipped::own_lists;
use crate::drill::{SIGHT_FILES, Scenario, Sights, list, scenarios};
use crate::rig::{Rig, demo};

/// Lists, rigs and sights of a barn's own, before those that come with the program.
#[derive(Clone, Debug, Default)]
pub struct Known {
    lists: Vec<Together>,
    rigs: Vec<(String, String)>,
    sights: Sights,
    sight_files: Vec<String>,
    taken: Vec<String>,
}

impl Known {
    /// Takes in a list of the barn's own.
    pub fn add_list(&mut self, list: Together) {
        self.lists.push(list);
    }

    /// Takes in a rig of the barn's own, by its file. One that does not read is left away.
    pub fn add_rig(&mut self, text: &str) {
        if let Ok(rig) = Rig::read(text) {
            self.rigs.push((rig.id, text.to_owned()));
        }
    }

    /// Takes in sights of the barn's own, by their file. One that does not read is left away.
    pub fn add_sights(&mut self, text: &str) {
        if let Ok(sights) = Sights::read(text) {
            self.sights.extend(sights);
            self.sight_files.push(text.to_owned());
        }
    }

    /// Takes in the id of a scenario of another file, which none may have a second time.
    pub fn add_taken(&mut self, id: &str) {
        self.taken.push(id.to_owned());
    }

    /// The list with this id.
    pub fn list(&self, id: &str) -> Option<&Together> {
        let own = self.lists.iter().find(|list| list.checklist.id == id);
        own.or_else(|| list(id))
    }

    /// The file of the rig with this id.
    pub fn rig(&self, id: &str) -> Option<&str> {
        let own = self.rigs.iter().find(|(known, _)| known == id);
        own.map(|(_, text)| text.as_str())
            .or_else(|| demo::named(id))
    }

    /// What is seen at each step: as the barn's own files say it, else as the program does.
    pub fn sights(&self) -> Sights {
        let mut sights = self.sights.clone();
        sights.extend(Sights::shipped().as_ref().clone());
        sights
    }

    /// The files of all sights, in the order in which they are asked.
    pub(in crate::drill) fn sight_files(&self) -> impl Iterator<Item = &str> {
        let own = self.sight_files.iter().map(String::as_str);
        own.chain(SIGHT_FILES)
    }

    /// Whether another scenario has its id: one of another file, or one that comes with the program
    /// and is another.
    pub(super) fn is_taken(&self, scenario: &Scenario) -> bool {
        let id = &scenario.id;
        let shipped = || scenarios().iter().find(|one| one.id == *id);
        self.taken.contains(id) || shipped().is_some_and(|one| **one != *scenario)
    }

    pub(super) fn list_ids(&self) -> Vec<&str> {
        let own = self.lists.iter().map(|list| list.checklist.id.as_str());
        let shipped = SHIPPED.iter().map(|shipped| shipped.id);
        let for_drills = own_lists().map(|list| list.checklist.id.as_str());
        own.chain(shipped).chain(for_drills).collect()
    }

    pub(super) fn rig_ids(&self) -> Vec<&str> {
        let own = self.rigs.iter().map(|(id, _)| id.as_str());
        own.chain(DEMO_RIGS).collect()
    }

    /// Every list there is.
    pub(super) fn lists(&self) -> impl Iterator<Item = &Together> {
        let shipped: Vec<&Together> = shipped_by_default().chain(own_lists()).collect();
        self.lists.iter().chain(shipped)
    }
}

/// The ids of the invented rigs.
const DEMO_RIGS: [&str; 2] = ["juniper", "mesquite"];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_that_is_offered_is_known() {
        let known = Known::default();
        assert!(
            known
                .list_ids()
                .into_iter()
                .all(|id| known.list(id).is_some())
        );
        assert!(
            known
                .rig_ids()
                .into_iter()
                .all(|id| known.rig(id).is_some())
        );
    }
}
