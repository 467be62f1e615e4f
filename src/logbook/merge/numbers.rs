//! The numbers of a barn's trips after a merge: gaps, forks, and after which trip nothing is
//! witnessed. Told with the neighbours, so that somebody knows where to look.

use crate::logbook::merge::files::History;
use crate::record::{Id, LossAccepted, Says, Statements, Stub};
use std::collections::{BTreeMap, BTreeSet};

/// Numbers that are missing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    /// The device.
    pub device: Id,
    /// The first missing.
    pub from: u64,
    /// The last missing.
    pub to: u64,
    /// The trip before, where there is one.
    pub before: Option<u64>,
    /// The trip after; where there is none, a manager's statement knows of the missing ones.
    pub after: Option<u64>,
}

/// Two histories or more with the same number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fork {
    /// The device.
    pub device: Id,
    /// The number.
    pub seq: u64,
    /// Where the first two part.
    pub parts: Parting,
    /// How many there are.
    pub histories: usize,
}

/// Where two histories part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Parting {
    /// They are different trips.
    Trips,
    /// At this line, counted from 1.
    Line(usize),
    /// All lines are the same; the seals differ.
    Seals,
}

/// What managers stated about trips that need not be here.
#[derive(Clone, Debug, Default)]
pub struct Told {
    pruned: Vec<Stub>,
    lost: Vec<LossAccepted>,
    heads: BTreeMap<Id, u64>,
}

impl Told {
    /// Everything that counts of it.
    pub fn of(statements: &Statements) -> Self {
        let mut told = Self::default();
        for stated in statements.stated() {
            let statement = stated.statement();
            for head in &statement.heads {
                let newest = told.heads.entry(head.device.clone()).or_default();
                *newest = head.seq.max(*newest);
            }
            match &statement.says {
                Says::Pruned(pruned) => told.pruned.extend(pruned.trips.iter().cloned()),
                Says::LossAccepted(loss) => told.lost.push(loss.clone()),
                Says::Crew(_)
                | Says::Countersigned(_)
                | Says::ForkClosed(_)
                | Says::Joined(_)
                | Says::DefectOwned(_) => {}
            }
        }
        told
    }

    /// Whether this history, or what it is the beginning of, was taken out of the logbook by a
    /// manager, who had seen that it was whole.
    pub fn is_pruned(&self, history: &History) -> bool {
        self.pruned.iter().any(|stub| {
            let same = stub.device == history.key.device
                && stub.seq == history.key.seq
                && stub.trip == history.key.trip;
            let lines = u64::try_from(history.lines.len()).unwrap_or(u64::MAX);
            let ends = history.lines.last() == Some(&stub.last);
            let part = history.seal.is_none() && (lines < stub.lines || ends);
            same && (part || (history.seal == stub.seal && ends))
        })
    }

    /// The numbers missing, given those here of every device.
    pub fn gaps(&self, here: &BTreeMap<Id, BTreeSet<u64>>) -> Vec<Gap> {
        let mut devices: BTreeMap<&Id, BTreeSet<u64>> = BTreeMap::new();
        for (device, numbers) in here {
            devices.entry(device).or_default().extend(numbers);
        }
        for device in self.heads.keys() {
            devices.entry(device).or_default();
        }
        devices
            .into_iter()
            .flat_map(|(device, numbers)| self.gaps_of(device, &numbers))
            .collect()
    }

    fn gaps_of(&self, device: &Id, here: &BTreeSet<u64>) -> Vec<Gap> {
        let pruned = self.pruned.iter().filter(|stub| stub.device == *device);
        let mut known: BTreeSet<u64> = here.iter().copied().collect();
        known.extend(pruned.map(|stub| stub.seq));
        let head = self.heads.get(device).copied().unwrap_or_default();
        let end = known.last().copied().unwrap_or_default().max(head);
        let mut gaps = Vec::new();
        let mut expected = 1;
        let stops = known.iter().copied().chain([end.saturating_add(1)]);
        for stop in stops {
            let mut from = expected;
            // Parts of it that a manager knows to be lost are not looked for.
            while from < stop {
                let lost = self
                    .lost
                    .iter()
                    .find(|loss| loss.device == *device && loss.from <= from && from <= loss.to);
                if let Some(loss) = lost {
                    from = loss.to.saturating_add(1);
                    continue;
                }
                let losses = self.lost.iter().filter(|loss| loss.device == *device);
                let next = losses.map(|loss| loss.from).filter(|at| *at > from).min();
                let to = next.unwrap_or(stop).min(stop) - 1;
                gaps.push(Gap {
                    device: device.clone(),
                    from,
                    to,
                    before: here.range(..from).next_back().copied(),
                    after: here.range(to..).next().copied(),
                });
                from = to + 1;
            }
            expected = stop.saturating_add(1);
        }
        gaps
    }
}

impl Fork {
    /// Whether histories of the same number part, given all of that number that no manager ended.
    pub fn of(histories: &[History]) -> Option<Self> {
        let mut branches: Vec<&History> = Vec::new();
        for history in histories {
            if branches.iter().any(|one| one.holds(history)) {
                continue;
            }
            branches.retain(|one| !history.holds(one));
            branches.push(history);
        }
        let [first, second, ..] = branches.as_slice() else {
            return None;
        };
        Some(Self {
            device: first.key.device.clone(),
            seq: first.key.seq,
            parts: parting(first, second),
            histories: branches.len(),
        })
    }
}

fn parting(first: &History, second: &History) -> Parting {
    if first.key != second.key {
        return Parting::Trips;
    }
    let same = first.lines.iter().zip(&second.lines);
    let same = same.take_while(|(one, other)| one == other).count();
    if same == first.lines.len() && same == second.lines.len() {
        Parting::Seals
    } else {
        Parting::Line(same + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::walk::Words;

    fn id(text: &str) -> Id {
        Id::read(text).unwrap()
    }

    fn missing(told: &Told, here: &[u64]) -> Vec<(u64, u64, Option<u64>, Option<u64>)> {
        let here = BTreeMap::from([(id("laptop"), here.iter().copied().collect())]);
        let gaps = told.gaps(&here).into_iter();
        gaps.map(|gap| (gap.from, gap.to, gap.before, gap.after))
            .collect()
    }

    #[test]
    fn what_is_missing_is_told_with_its_neighbours() {
        let told = Told::default();
        assert_eq!(missing(&told, &[1, 2, 3]), []);
        assert_eq!(missing(&told, &[]), []);
        assert_eq!(
            missing(&told, &[2, 5, 6]),
            [(1, 1, None, Some(2)), (3, 4, Some(2), Some(5))]
        );
    }

    #[test]
    fn what_a_manager_has_seen_is_missing_too_unless_it_is_known_to_be_lost() {
        let mut told = Told::default();
        told.heads.insert(id("laptop"), 6);
        assert_eq!(missing(&told, &[1, 2]), [(3, 6, Some(2), None)]);
        told.lost.push(LossAccepted {
            device: id("laptop"),
            from: 4,
            to: 5,
            words: Words::read("drowned").unwrap(),
        });
        assert_eq!(
            missing(&told, &[1, 2]),
            [(3, 3, Some(2), None), (6, 6, Some(2), None)]
        );
        assert_eq!(missing(&told, &[1, 2, 3, 6]), []);
    }
}
