//! Which trip is meant: by its folder, its receipt, or its device and number.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::{Books, PrunedTrips, Trouble};
use crate::record::{Crew, Id, NotAReceipt, Receipt, Role, Seal, Stated};
use crate::store::{Disk, TripFolder};
use std::collections::BTreeSet;

/// What is said of a slip of the tongue or the hand: it is never taken for a receipt that leads
/// nowhere.
pub fn mistyped(typed: &str, slip: &NotAReceipt) -> String {
    format!(
        "“{}” was mistyped or misheard, so nothing was looked for: {slip}.",
        typed.escape_debug()
    )
}

/// Why what has the look of a receipt is none: two groups of characters, as it is read out. A folder
/// begins with six digits, and a laptop is parted from its number by a stroke.
fn slip(typed: &str) -> Option<NotAReceipt> {
    const GROUP: usize = 5;
    let slip = Receipt::read(typed).err()?;
    let mut groups = typed.split(['-', ' ']);
    let (first, second) = (groups.next()?, groups.next()?);
    let letters = |group: &str| group.chars().all(char::is_alphanumeric);
    let near = |group: &str| (GROUP - 1..=GROUP + 1).contains(&group.chars().count());
    let groups = groups.next().is_none() && [first, second].into_iter().all(letters);
    (groups && near(first) && near(second)).then_some(slip)
}

impl<D: Disk> Books<D> {
    /// The one trip that is meant by its folder's name, its receipt, or `device/number`.
    ///
    /// # Errors
    /// A sentence, where it is none or more than one.
    pub fn trip(&self, typed: &str) -> Result<(Id, TripFolder), Trouble> {
        if let Some(slip) = slip(typed) {
            return Err(Trouble::NotHere(mistyped(typed, &slip)));
        }
        let mut found = Vec::new();
        for (device, folder) in self.trips()? {
            if self.is_meant(typed, &device, &folder)? {
                found.push((device, folder));
            }
        }
        let shown = typed.escape_debug();
        if found.len() > 1 {
            let names: Vec<String> = found.iter().map(|(_, folder)| trip_name(folder)).collect();
            return Err(Trouble::NotHere(format!(
                "“{shown}” is more than one trip here: {}. Name one of them.",
                names.join(", ")
            )));
        }
        if let Some(found) = found.pop() {
            return Ok(found);
        }
        let statements = self.statements()?;
        if let Some(gone) = PrunedTrips::of(&statements).meant(typed) {
            return Err(Trouble::NotHere(format!(
                "Trip “{shown}” is here no more: {gone}. What is left of it is in that statement."
            )));
        }
        Err(Trouble::NotHere(format!(
            "There is no trip “{shown}” here. Name it by its folder, such as 000007-9f3c01ab, by \
             its receipt, or by its laptop and number, such as barn-laptop/7."
        )))
    }

    /// Refuses trips that a manager has pruned already, of which files lie here still.
    ///
    /// # Errors
    /// A sentence that says whose word it was, and how it is finished.
    pub fn are_not_pruned(&self, trips: &[(Id, TripFolder)]) -> Result<(), Trouble> {
        let statements = self.statements()?;
        let pruned = PrunedTrips::of(&statements);
        for (device, folder) in trips {
            if let Some(gone) = pruned.left_in(self.logbook.disk(), device, folder) {
                return Err(Trouble::Said(format!(
                    "{} is pruned: {gone}. Files of it lie here still; they are removed by hames \
                     logbook prune",
                    trip_name(folder)
                )));
            }
        }
        Ok(())
    }

    /// Refuses an id that is no laptop's of this barn: none that has trips here, that was ever in the
    /// crew, or whose trips a manager saw.
    pub(super) fn is_known(&self, device: &Id) -> Result<(), Trouble> {
        let statements = self.statements()?;
        let mut known = BTreeSet::from_iter(self.logbook.devices()?);
        let crews = self.roster.revisions().iter().map(|one| &one.crew);
        for signer in crews.chain([&self.crew]).flat_map(Crew::signers) {
            if signer.roles.contains(&Role::Device) {
                known.insert(signer.id.clone());
            }
        }
        let stated = statements.stated().iter().map(Stated::statement);
        let heads = stated.flat_map(|statement| &statement.heads);
        known.extend(heads.map(|head| head.device.clone()));
        if known.contains(device) {
            return Ok(());
        }
        let known: Vec<&str> = known.iter().map(Id::as_str).collect();
        Err(Trouble::NotHere(format!(
            "No laptop of this barn is called {device}. There are: {}.",
            known.join(", ")
        )))
    }

    fn is_meant(&self, typed: &str, device: &Id, folder: &TripFolder) -> Result<bool, Trouble> {
        if typed == trip_name(folder) {
            return Ok(true);
        }
        if let Some((of, number)) = typed.split_once('/') {
            return Ok(of == device.as_str() && number.parse() == Ok(folder.seq));
        }
        let Ok(receipt) = Receipt::read(typed) else {
            return Ok(false);
        };
        if !self.logbook.is_sealed(folder)? {
            return Ok(false);
        }
        let seal = self.logbook.read(&folder.seal())?;
        Ok(Receipt::of(&Seal::hash(&seal)) == receipt)
    }
}
