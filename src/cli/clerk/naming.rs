//! Which trip is meant: by its folder, its receipt, or its device and number.

use crate::cli::clerk::around::trip_name;
use crate::cli::clerk::{Books, Trouble};
use crate::record::{Id, Receipt, Seal};
use crate::store::{Disk, TripFolder};

impl<D: Disk> Books<D> {
    /// The one trip that is meant by its folder's name, its receipt, or `device/number`.
    ///
    /// # Errors
    /// A sentence, where it is none or more than one.
    pub fn trip(&self, typed: &str) -> Result<(Id, TripFolder), Trouble> {
        let mut found = Vec::new();
        for (device, folder) in self.trips()? {
            if self.is_meant(typed, &device, &folder)? {
                found.push((device, folder));
            }
        }
        let shown = typed.escape_debug();
        if found.len() > 1 {
            let names: Vec<String> = found.iter().map(|(_, folder)| trip_name(folder)).collect();
            return Err(Trouble::Said(format!(
                "“{shown}” is more than one trip here: {}. Name one of them.",
                names.join(", ")
            )));
        }
        found.pop().ok_or_else(|| {
            Trouble::Said(format!(
                "There is no trip “{shown}” here. Name it by its folder, such as 000007-9f3c01ab, \
                 by its receipt, or by its laptop and number, such as barn-laptop/7."
            ))
        })
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
