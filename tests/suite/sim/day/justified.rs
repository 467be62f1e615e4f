//! What may be found of a logbook after all that came to pass, and what has to be.

use super::Day;
use crate::sim::law::{Finding, Found, WELL, broken, judged};

impl Day {
    /// Nobody tampered: verification finds nothing but what the day itself has brought about.
    pub(super) fn is_well(&self, at: usize, in_the_end: bool) {
        let found = judged(&self.laptops[at].disk);
        for one in &found {
            if !self.is_justified(at, one, in_the_end) {
                let device = self.laptops[at].device;
                broken(&format!("{} on {device}: {}", one.finding, one.told));
            }
        }
        if in_the_end {
            self.counts_no_key_that_was_out(at, &found);
        }
    }

    fn is_justified(&self, at: usize, found: &Found, in_the_end: bool) -> bool {
        let is_of = |device: &str| {
            found
                .device
                .as_ref()
                .is_some_and(|one| one.as_str() == device)
        };
        let mut laptops = self.laptops.iter();
        let restored = laptops.any(|laptop| laptop.restored && is_of(laptop.device));
        let partial = self.laptops[at].partial && !in_the_end;
        let well = if in_the_end && !restored {
            WELL
        } else {
            Finding::Unsealed
        };
        match found.finding {
            finding if finding <= well => true,
            // A stick brought the journal and not what it was walked by, which a later one brings.
            Finding::Gap if found.lacks_text && partial => true,
            Finding::Gap | Finding::Truncated => {
                let own = is_of(self.laptops[at].device);
                restored || (partial && !own)
            }
            Finding::UnknownSigner => partial,
            Finding::OutsideBracket | Finding::RevokedSigner => {
                partial || restored || self.may_be_out(found)
            }
            // In the end a manager has closed it.
            Finding::Fork => restored && !in_the_end,
            // A stick brought the journal and not what it was walked by, which a later one brings.
            Finding::Altered => partial && found.lacks_text,
            _ => false,
        }
    }

    /// Whether whose key a trip is signed with was taken out, and nothing shows that the trip was
    /// there before.
    fn may_be_out(&self, found: &Found) -> bool {
        let mut out = self.office.taken_out.iter();
        out.any(|out| {
            let known = |(device, seq): &(&str, u64)| {
                let of = found
                    .device
                    .as_ref()
                    .is_some_and(|one| one.as_str() == *device);
                of && found.trip == Some(*seq)
            };
            let who = found.taken_out.as_ref() == Some(&out.who);
            who && !out.known.iter().any(known)
        })
    }

    /// What a key signed after it had been taken out never counts.
    fn counts_no_key_that_was_out(&self, at: usize, found: &[Found]) {
        let all = self.office.passed.iter().enumerate();
        for (when, one) in all.filter(|(_, one)| one.signed.is_some()) {
            let restored = |laptop: &&super::Laptop| laptop.restored && laptop.device == one.device;
            if self.laptops.iter().any(|laptop| restored(&laptop)) {
                continue;
            }
            let mut out = self.office.taken_out.iter();
            let late = out.any(|out| {
                out.certain && when >= out.when && one.signed.as_deref() == Some(out.who.as_str())
            });
            let told = found.iter().any(|found| {
                let of = found
                    .device
                    .as_ref()
                    .is_some_and(|of| of.as_str() == one.device);
                of && found.trip == Some(one.seq) && found.taken_out.is_some()
            });
            if late && !told {
                let device = self.laptops[at].device;
                broken(&format!(
                    "trip {} of {} was signed with a key that was out, and counts on {device}",
                    one.seq, one.device
                ));
            }
        }
    }
}
