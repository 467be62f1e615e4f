//! The trips of one device: numbers, endings, forks, and what managers say of them.

use crate::logbook::order::closings::{Closing, at_odds, last_closings};
use crate::logbook::order::ended::Ended;
use crate::logbook::order::fault::{Neighbour, OrderFault};
use crate::logbook::order::note::Note;
use crate::logbook::order::placed::Placed;
use crate::logbook::order::rows::{goes_on_from, in_rows};
use crate::logbook::order::witness::{Knowledge, Witness};
use crate::logbook::order::{Judged, Newest};
use crate::record::{Branch, Digest, Id, LossAccepted, Previous, Stated};
use std::collections::{BTreeMap, HashMap};

/// The trips of a device that are here, and what managers say of its trips.
#[derive(Debug, Default)]
pub(super) struct History<'s> {
    pub(super) numbers: BTreeMap<u64, Vec<Placed<'s>>>,
    /// Below this number nothing new is quoted of a trip.
    settled: u64,
    pins: BTreeMap<u64, Vec<Pin<'s>>>,
    pub(super) lost: Vec<(&'s LossAccepted, &'s Stated)>,
    pub(super) closed: Vec<Closing<'s>>,
}

/// How managers say that a trip ended.
#[derive(Debug)]
struct Pin<'s> {
    ends: Previous,
    first: &'s Stated,
    last: &'s Stated,
}

/// What is found on the way along the numbers.
struct Along<'a, 's> {
    device: &'a Id,
    /// Trips of histories that a manager's word ended.
    ended: HashMap<Digest, Ended>,
    /// Numbers told as missing.
    missing: Vec<(u64, u64)>,
    newest: Option<&'a Placed<'s>>,
}

impl<'s> History<'s> {
    pub(super) fn pin(&mut self, seq: u64, ends: Previous, stated: &'s Stated) {
        let same = self.pins.entry(seq).or_default();
        match same.iter_mut().find(|pin| pin.ends == ends) {
            Some(pin) => pin.last = stated,
            None => same.push(Pin {
                ends,
                first: stated,
                last: stated,
            }),
        }
    }

    pub(super) fn pin_seal(&mut self, seq: u64, seal: Digest, stated: &'s Stated) {
        self.pin(seq, Previous::Sealed(seal), stated);
    }

    /// Every trip, by number.
    pub(super) fn trips(&self) -> impl Iterator<Item = &Placed<'s>> {
        self.numbers.values().flatten()
    }

    /// The trips of this number.
    pub(super) fn at(&self, seq: u64) -> &[Placed<'s>] {
        self.numbers.get(&seq).map_or(&[], Vec::as_slice)
    }

    /// Takes in a trip; answers whether it was there already, whole or in part.
    pub(super) fn take(&mut self, mut placed: Placed<'s>) -> bool {
        let seq = placed.stub.seq;
        let branches = self.closed.iter().filter(|(fork, _)| fork.seq == seq);
        let branches = branches.flat_map(|(fork, _)| fork.ended.iter().chain([&fork.goes_on]));
        let pins = self.pins.get(&seq).into_iter().flatten();
        let next = self.at(seq.saturating_add(1)).iter();
        let quotes: Vec<Previous> = branches
            .map(|branch| branch.ends)
            .chain(pins.map(|pin| pin.ends))
            .chain(next.filter_map(|trip| trip.stub.previous))
            .collect();
        for ends in quotes {
            placed.quote(ends);
        }
        if let Some(ends) = placed.stub.previous {
            let from = self.goes_back_to(seq);
            let before = self.numbers.range_mut(from..seq);
            let before = before.flat_map(|(_, trips)| trips);
            before.for_each(|trip| trip.quote(ends));
        }
        let same = self.numbers.entry(seq).or_default();
        let copy = same.iter_mut().find(|other| other.is_same(&placed));
        let known = copy.is_some();
        match copy {
            Some(other) => other.complete(placed),
            None => same.push(placed),
        }
        self.settle(seq);
        known
    }

    /// Keeps the lines of the two newest numbers only.
    fn settle(&mut self, seq: u64) {
        let below = seq.saturating_sub(1);
        if seq < self.settled {
            let again = self.numbers.get_mut(&seq);
            again.into_iter().flatten().for_each(Placed::settle);
        } else if below > self.settled {
            let passed = self.numbers.range_mut(self.settled..below);
            passed.flat_map(|(_, trips)| trips).for_each(Placed::settle);
            self.settled = below;
        }
    }

    pub(super) fn judge(&self, device: &Id, knowledge: &Knowledge<'_>, judged: &mut Judged<'_>) {
        let mut along = Along {
            device,
            ended: self.ended(knowledge),
            missing: Vec::new(),
            newest: None,
        };
        self.go_along(&mut along, knowledge, judged);
        self.held_to_pins(&along, knowledge, judged);
        self.held_to_closings(&along, knowledge, judged);
        self.tell_lost(&along, judged);
        judged.ended.extend(along.ended);
        if let Some(newest) = along.newest {
            let reached = self.pins.iter().rev().find_map(|(seq, pins)| {
                let holds = |pin: &&Pin<'_>| self.has(*seq, pin.ends);
                let pin = pins.iter().rev().find(holds)?;
                Some((*seq, Witness::of(pin.first)))
            });
            judged.newest.push(Newest {
                device: device.clone(),
                seq: newest.stub.seq,
                witnessed: reached,
            });
        }
    }

    /// From number to number.
    fn go_along<'a>(
        &'a self,
        along: &mut Along<'a, 's>,
        knowledge: &Knowledge<'_>,
        judged: &mut Judged<'_>,
    ) {
        let device = along.device;
        let mut expected = 1;
        let mut before: Vec<&Placed<'_>> = Vec::new();
        for (&seq, trips) in &self.numbers {
            let goes_on = |trip: &&Placed<'_>| !along.ended.contains_key(&trip.end());
            let here: Vec<&Placed<'_>> = trips.iter().filter(goes_on).collect();
            let Some(first) = here.first().copied() else {
                continue;
            };
            if seq > expected {
                let goes_over = goes_on_from(&here, &before);
                for (from, to) in self.missing((expected, seq - 1), goes_over) {
                    along.missing.push((from, to));
                    judged.faults.push(OrderFault::Gap {
                        device: device.clone(),
                        from,
                        to,
                        before: along.newest.map(Neighbour::of),
                        after: Neighbour::of(first),
                        named: first.stub.previous.filter(|_| to == seq - 1 && !goes_over),
                    });
                }
                if !goes_over {
                    before.clear();
                }
            }
            if here.len() > 1 {
                judged.faults.push(OrderFault::Fork {
                    device: device.clone(),
                    seq,
                    trips: here.iter().copied().map(Neighbour::of).collect(),
                    said: at_odds(&self.last_closings(seq, knowledge)),
                });
            }
            self.beside(device, (&before, &here), knowledge, judged);
            along.newest = Some(first);
            expected = seq.saturating_add(1);
            before = here;
        }
    }

    /// What the trips of one number say of those of the number before.
    fn beside(
        &self,
        device: &Id,
        (before, here): (&[&Placed<'_>], &[&Placed<'_>]),
        knowledge: &Knowledge<'_>,
        judged: &mut Judged<'_>,
    ) {
        let follows =
            |trip: &Placed<'_>, one: &Placed<'_>| one.stands_to(trip.stub.previous).is_none();
        for trip in here {
            // Of a fork one branch goes on; the other is no second fault.
            let last = before.iter().find(|one| follows(trip, one));
            let Some(last) = last else {
                if self.goes_over_a_loss(trip) {
                    continue;
                }
                let stands = before.first().and_then(|one| {
                    let stands = one.stands_to(trip.stub.previous)?;
                    Some((Neighbour::of(one), stands))
                });
                judged
                    .faults
                    .extend(stands.map(|(one, stands)| OrderFault::Ending {
                        device: device.clone(),
                        trip: one,
                        stands,
                        next: Neighbour::of(trip),
                    }));
                continue;
            };
            if last.stub.seal.is_none() && last.pruned.is_none() {
                let device = device.clone();
                let (ended, trip, next) = (last.ended, Neighbour::of(last), Neighbour::of(trip));
                judged.notes.push(if ended {
                    Note::Unsigned { device, trip, next }
                } else {
                    Note::Abandoned { device, trip, next }
                });
            }
            judged
                .notes
                .extend(backwards(device, last, trip, knowledge));
        }
    }

    /// Whether it quotes the trip before a row of numbers that managers gave up for lost: when it
    /// began, they were not there.
    fn goes_over_a_loss(&self, trip: &Placed<'_>) -> bool {
        let lost = (1..trip.stub.seq)
            .rev()
            .take_while(|seq| self.is_lost(*seq));
        lost.map(|seq| seq - 1).any(|seq| match trip.stub.previous {
            Some(ends) => self.has(seq, ends),
            None => seq == 0,
        })
    }

    /// Every trip a manager has named has to be here as it was named.
    fn held_to_pins(
        &self,
        along: &Along<'_, 's>,
        knowledge: &Knowledge<'_>,
        judged: &mut Judged<'_>,
    ) {
        let newest = along.newest.map_or(0, |trip| trip.stub.seq);
        let mut beyond = None;
        for (&seq, pins) in &self.pins {
            let open = pins.iter().rev().find(|pin| {
                !self.has(seq, pin.ends)
                    && !self.is_accepted(seq, pin, knowledge)
                    && !self.is_closed(seq, pin.ends)
            });
            let Some(pin) = open else { continue };
            let device = along.device.clone();
            let witness = Witness::of(pin.first);
            let told = |(from, to): &(u64, u64)| (*from..=*to).contains(&seq);
            if let Some(trip) = self.at(seq).first() {
                let stands = trip.stands_to(Some(pin.ends));
                judged
                    .faults
                    .extend(stands.map(|stands| OrderFault::Pinned {
                        device,
                        trip: Neighbour::of(trip),
                        stands,
                        ends: pin.ends,
                        witness,
                    }));
            } else if seq > newest {
                beyond = Some((seq, witness));
            } else if !along.missing.iter().any(told) {
                judged.faults.push(OrderFault::Unseen {
                    device,
                    from: seq,
                    to: seq,
                    witness,
                    newest: along.newest.map(Neighbour::of),
                });
            }
        }
        let Some((last, witness)) = beyond else {
            return;
        };
        let mut gone = self.not_accepted((newest.saturating_add(1), last));
        if gone.is_empty() {
            gone.push((last, last));
        }
        judged
            .faults
            .extend(gone.into_iter().map(|(from, to)| OrderFault::Unseen {
                device: along.device.clone(),
                from,
                to,
                witness: witness.clone(),
                newest: along.newest.map(Neighbour::of),
            }));
    }

    /// The histories of a closed fork are kept, both.
    fn held_to_closings(
        &self,
        along: &Along<'_, 's>,
        knowledge: &Knowledge<'_>,
        judged: &mut Judged<'_>,
    ) {
        let device = along.device;
        for (fork, by) in &self.closed {
            for branch in [&fork.goes_on].into_iter().chain(&fork.ended) {
                let here = self.at(fork.seq).iter().any(|trip| is(trip, branch));
                if !here && !self.is_lost(fork.seq) {
                    judged.faults.push(OrderFault::Branch {
                        device: device.clone(),
                        branch: Neighbour {
                            seq: fork.seq,
                            trip: branch.trip.clone(),
                            ends: branch.ends,
                        },
                        by: Witness::of(by),
                    });
                }
            }
            let mut goes_on = self
                .at(fork.seq)
                .iter()
                .filter(|trip| is(trip, &fork.goes_on));
            let last = self.last_closings(fork.seq, knowledge);
            let is_last = last.iter().any(|(_, one)| one.hash() == by.hash());
            if !is_last
                || !at_odds(&last).is_empty()
                || goes_on.any(|trip| along.ended.contains_key(&trip.end()))
            {
                // Told is the last word, and what managers disagree in with the fork itself.
                continue;
            }
            judged.notes.push(Note::Closed {
                device: device.clone(),
                seq: fork.seq,
                goes_on: fork.goes_on.trip.clone(),
                ended: fork.ended.iter().map(|one| one.trip.clone()).collect(),
                by: Witness::of(by),
            });
        }
    }

    /// What managers took out, and what they accept as lost, found again or not.
    fn tell_lost(&self, along: &Along<'_, 's>, judged: &mut Judged<'_>) {
        let device = along.device;
        // What a history that ended has of such a number is another trip than the one lost.
        let goes_on = |trip: &Placed<'_>| !along.ended.contains_key(&trip.end());
        for (loss, by) in &self.lost {
            let here = self.numbers.range(loss.from..=loss.to);
            let here = here.filter(|(_, trips)| trips.iter().any(goes_on)).count();
            let all = loss.to.saturating_sub(loss.from).saturating_add(1);
            if u64::try_from(here).is_ok_and(|here| here < all) {
                judged.notes.push(Note::Accepted {
                    device: device.clone(),
                    from: loss.from,
                    to: loss.to,
                    by: Witness::of(by),
                });
            }
        }
        for (loss, by) in &self.lost {
            let here = self.numbers.range(loss.from..=loss.to);
            let whole = |trip: &Placed<'_>| trip.pruned.is_none() && goes_on(trip);
            let whole = here.filter(|(_, trips)| trips.iter().any(whole));
            for seqs in in_rows(whole.map(|(seq, _)| *seq)) {
                judged.notes.push(Note::Found {
                    device: device.clone(),
                    from: seqs.0,
                    to: seqs.1,
                    by: Witness::of(by),
                });
            }
        }
        let mut open: Option<(u64, u64, &Stated)> = None;
        let mut close = |row: Option<(u64, u64, &Stated)>| {
            judged.notes.extend(row.map(|(from, to, by)| Note::Pruned {
                device: device.clone(),
                from,
                to,
                by: Witness::of(by),
            }));
        };
        for trip in self.trips() {
            let Some(by) = trip.pruned else { continue };
            let seq = trip.stub.seq;
            open = match open {
                Some((from, to, same)) if same == by && seq <= to.saturating_add(1) => {
                    Some((from, seq, by))
                }
                row => {
                    close(row);
                    Some((seq, seq, by))
                }
            };
        }
        close(open);
    }

    fn last_closings(&self, seq: u64, knowledge: &Knowledge<'_>) -> Vec<&Closing<'s>> {
        last_closings(&self.closed, seq, |hash| knowledge.behind(hash))
    }

    fn has(&self, seq: u64, ends: Previous) -> bool {
        let mut same = self.at(seq).iter();
        same.any(|trip| trip.stands_to(Some(ends)).is_none())
    }

    fn is_lost(&self, seq: u64) -> bool {
        let mut lost = self.lost.iter();
        lost.any(|(loss, _)| (loss.from..=loss.to).contains(&seq))
    }

    /// Whether a manager accepts the loss of what is pinned. Who knew of the loss and names the
    /// trip all the same has seen it since.
    fn is_accepted(&self, seq: u64, pin: &Pin<'_>, knowledge: &Knowledge<'_>) -> bool {
        self.lost.iter().any(|(loss, by)| {
            (loss.from..=loss.to).contains(&seq) && !knowledge.knows(pin.last, by)
        })
    }

    /// Whether it is a history of a closed fork, which is held to that word.
    fn is_closed(&self, seq: u64, ends: Previous) -> bool {
        self.closed.iter().any(|(fork, _)| {
            let mut histories = fork.ended.iter().chain([&fork.goes_on]);
            fork.seq == seq && histories.any(|one| one.ends == ends)
        })
    }
}

/// Whether a trip quotes less than the one before it.
fn backwards(
    device: &Id,
    last: &Placed<'_>,
    trip: &Placed<'_>,
    knowledge: &Knowledge<'_>,
) -> Option<Note> {
    let before = knowledge.find(last.stub.manager?)?;
    let after = match trip.stub.manager {
        None => None,
        Some(quoted) => Some(knowledge.find(quoted)?),
    };
    let less = after.is_none_or(|after| after != before && knowledge.knows(before, after));
    less.then(|| Note::Backwards {
        device: device.clone(),
        seq: trip.stub.seq,
        before: Witness::of(before),
        after: after.map(Witness::of),
    })
}

/// Whether it is the one a manager named.
pub(super) fn is(trip: &Placed<'_>, branch: &Branch) -> bool {
    trip.stub.trip == branch.trip && trip.stands_to(Some(branch.ends)).is_none()
}
