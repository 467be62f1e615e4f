//! The order in which trips were walked, across laptops, as far as the records tell it.
//!
//! Some order is certain: a laptop numbers its trips, and a walk names the trips it rests on, the
//! one that began its haul and those that left something open; and one that quotes a manager's
//! statement came after every trip that statement had seen. Between others there are only the
//! clocks. Where a laptop's clock contradicts its own numbers, as few of its trips as possible are
//! taken to have the wrong time, and those are put beside their neighbours.

use crate::logbook::Leg;
use crate::record::Id;
use chrono::{DateTime, FixedOffset};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// The legs in the order walked. Legs that contradict one another come last, by their clocks.
pub fn in_order(mut legs: Vec<Leg>) -> Vec<Leg> {
    legs.sort_by(|one, other| (&one.device, one.seq).cmp(&(&other.device, other.seq)));
    let times = believed(&legs);
    let (mut waits, follows) = arrows(&legs);
    let key = |at: usize| (times.get(at).copied(), at);
    let mut ready: BTreeSet<_> = (0..legs.len())
        .filter(|at| waits.get(at).is_none_or(|waits| *waits == 0))
        .map(key)
        .collect();
    let mut order: Vec<usize> = Vec::with_capacity(legs.len());
    let mut left: BTreeSet<_> = (0..legs.len()).map(key).collect();
    // Of those that wait for each other for ever, the one with the earliest time goes first.
    while let Some(next) = ready.first().or_else(|| left.first()).copied() {
        ready.remove(&next);
        if !left.remove(&next) {
            continue;
        }
        let (_, at) = next;
        order.push(at);
        for after in follows.get(&at).into_iter().flatten() {
            if let Some(count) = waits.get_mut(after) {
                *count = count.saturating_sub(1);
                if *count == 0 {
                    ready.insert(key(*after));
                }
            }
        }
    }
    let mut legs: Vec<Option<Leg>> = legs.into_iter().map(Some).collect();
    order
        .into_iter()
        .filter_map(|at| legs.get_mut(at)?.take())
        .collect()
}

/// How many each waits for, and who follows whom.
type Arrows = (HashMap<usize, usize>, HashMap<usize, Vec<usize>>);

fn arrows(legs: &[Leg]) -> Arrows {
    let places: HashMap<&Id, usize> = legs.iter().map(|leg| &leg.trip).zip(0..).collect();
    let mut pairs: BTreeSet<(usize, usize)> = BTreeSet::new();
    for (at, leg) in legs.iter().enumerate() {
        let named = leg.after.iter().filter_map(|trip| places.get(trip));
        pairs.extend(
            named
                .filter(|before| **before != at)
                .map(|before| (*before, at)),
        );
    }
    let live = live(legs);
    for (at, leg) in legs.iter().enumerate().filter(|(_, leg)| !leg.from_paper) {
        let newest = leg.seen.iter().filter_map(|(device, seq)| {
            let known = live.get(device)?.iter().rev();
            known
                .copied()
                .find(|at| legs.get(*at).is_some_and(|leg| leg.seq <= *seq))
        });
        pairs.extend(
            newest
                .filter(|before| *before != at)
                .map(|before| (before, at)),
        );
    }
    for numbered in live.values() {
        let next = numbered.iter().skip(1);
        pairs.extend(numbered.iter().copied().zip(next.copied()));
    }
    let (mut waits, mut follows) = Arrows::default();
    for (before, after) in pairs {
        *waits.entry(after).or_insert(0) += 1;
        follows.entry(before).or_default().push(after);
    }
    (waits, follows)
}

/// The trips of each device that were walked when their record was kept, by their numbers.
fn live(legs: &[Leg]) -> BTreeMap<&Id, Vec<usize>> {
    let mut devices: BTreeMap<&Id, Vec<usize>> = BTreeMap::new();
    for (at, leg) in legs.iter().enumerate().filter(|(_, leg)| !leg.from_paper) {
        devices.entry(&leg.device).or_default().push(at);
    }
    devices
}

/// The time each leg is put at: what its clock says, unless its device's own numbers say otherwise.
fn believed(legs: &[Leg]) -> Vec<DateTime<FixedOffset>> {
    let mut times: Vec<_> = legs.iter().map(|leg| leg.claimed).collect();
    for (_, numbered) in live(legs) {
        let claimed: Vec<_> = numbered
            .iter()
            .filter_map(|at| legs.get(*at))
            .map(|leg| leg.claimed)
            .collect();
        let right = longest_rise(&claimed);
        let mut last = right
            .iter()
            .position(|right| *right)
            .and_then(|first| claimed.get(first));
        for ((at, claimed), right) in numbered.iter().zip(&claimed).zip(right) {
            if right {
                last = Some(claimed);
            } else if let (Some(time), Some(last)) = (times.get_mut(*at), last) {
                *time = *last;
            }
        }
    }
    times
}

/// Which of the times belong to the longest run that never falls.
fn longest_rise(times: &[DateTime<FixedOffset>]) -> Vec<bool> {
    // Of each length the run with the lowest end; and for each time the one before it in its run.
    let mut ends: Vec<(DateTime<FixedOffset>, usize)> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::with_capacity(times.len());
    for (at, time) in times.iter().enumerate() {
        let length = ends.partition_point(|(end, _)| end <= time);
        let previous = length.checked_sub(1).and_then(|last| ends.get(last));
        before.push(previous.map(|(_, at)| *at));
        match ends.get_mut(length) {
            Some(end) => *end = (*time, at),
            None => ends.push((*time, at)),
        }
    }
    let mut chosen = vec![false; times.len()];
    let mut next = ends.last().map(|(_, at)| *at);
    while let Some(at) = next {
        if let Some(chosen) = chosen.get_mut(at) {
            *chosen = true;
        }
        next = before.get(at).copied().flatten();
    }
    chosen
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::leg::bench::leg;
    use proptest::prelude::*;

    /// `device seq day-of-november [after trips]`, a trip named by device and number.
    fn order(rows: &[&str]) -> String {
        let legs = rows.iter().map(|row| leg(row)).collect();
        let names: Vec<String> = in_order(legs)
            .iter()
            .map(|leg| leg.trip.to_string())
            .collect();
        names.join(" ")
    }

    #[test]
    fn two_laptops_with_right_clocks_come_by_their_clocks() {
        assert_eq!(order(&["a 1 3", "a 2 7", "b 1 1", "b 2 5"]), "b1 a1 b2 a2");
    }

    #[test]
    fn a_laptops_own_numbers_outweigh_its_clock() {
        // Set back for one trip, then ahead for one.
        assert_eq!(order(&["a 1 3", "a 2 1", "a 3 5", "b 1 4"]), "a1 a2 b1 a3");
        assert_eq!(order(&["a 1 3", "a 2 28", "a 3 5", "b 1 4"]), "a1 a2 b1 a3");
    }

    #[test]
    fn a_walk_comes_after_the_trips_it_rests_on_whatever_the_clocks_say() {
        assert_eq!(order(&["a 1 3", "b 1 2 a1"]), "a1 b1");
    }

    #[test]
    fn a_walk_comes_after_every_trip_the_statement_it_quotes_had_seen() {
        assert_eq!(order(&["a 1 3", "a 2 4", "b 1 1 seen a:1"]), "a1 b1 a2");
        assert_eq!(order(&["a 1 3", "a 2 4", "b 1 1 seen a:7"]), "a1 a2 b1");
    }

    #[test]
    fn a_trip_from_paper_stands_where_it_was_walked_and_not_where_it_was_typed() {
        assert_eq!(order(&["a 1 3", "a 2 9", "a 3 5 paper"]), "a1 a3 a2");
    }

    #[test]
    fn trips_that_each_claim_to_follow_the_other_are_all_there() {
        assert_eq!(order(&["a 1 3 b1", "b 1 2 a1", "c 1 9"]), "c1 b1 a1");
    }

    proptest! {
        #[test]
        fn no_leg_is_lost_and_each_laptop_keeps_its_own_order(
            days in proptest::collection::vec((0usize..3, 1u32..29), 0..20),
        ) {
            let mut seqs = [0; 3];
            let legs: Vec<Leg> = days
                .iter()
                .map(|(device, day)| {
                    seqs[*device] += 1;
                    leg(&format!("{} {} {day}", ["a", "b", "c"][*device], seqs[*device]))
                })
                .collect();
            let ordered = in_order(legs);
            prop_assert_eq!(ordered.len(), days.len());
            for device in ["a", "b", "c"] {
                let own = ordered.iter().filter(|leg| leg.device.as_str() == device);
                prop_assert!(own.map(|leg| leg.seq).is_sorted());
            }
        }
    }
}
