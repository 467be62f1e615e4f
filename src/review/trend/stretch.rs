//! Stretches: between two of them something was put right, so that no slope is taken across.
//!
//! Most of that is in the records: a step was answered afresh after something was put right. A
//! battery that was changed in the shop, or a tire that somebody filled without a walk, shows as a
//! jump to the better. It counts as one only where it is more than both readings may be wrong by
//! and the next reading agrees, so that one wild reading breaks nothing.

use crate::mechanics::trends::BadSide;
use crate::review::trend::Kind;
use crate::review::trend::gather::{Kept, Track, Tracks, Which};
use crate::units::Quantity;
use chrono::{DateTime, FixedOffset};
use std::collections::{BTreeMap, BTreeSet};

/// How many readings a jump is told by, on either side.
const BESIDE: usize = 3;

/// A reading among all of a rig: when its walk was, and its line there.
type Place = (DateTime<FixedOffset>, usize);

/// Where each part of a rig was put right.
#[derive(Clone, Debug, Default)]
pub(super) struct Breaks(BTreeMap<Which, BTreeSet<Place>>);

/// The readings of a part by their time.
pub(super) fn in_order(track: &Track) -> Vec<&Kept> {
    let mut kept: Vec<&Kept> = track.kept.iter().collect();
    kept.sort_by_key(|one| (one.at, one.line));
    kept
}

impl Breaks {
    pub(super) fn of(tracks: &Tracks) -> Self {
        let mut all: BTreeMap<Which, BTreeSet<Place>> = BTreeMap::new();
        for ((kind, part), track) in &tracks.tracks {
            let mut found: BTreeSet<Place> = track.renewed.iter().copied().collect();
            if *kind != Kind::TorqueLoss && kind.bad() == BadSide::Below {
                found.extend(jumps(&in_order(track), &found));
            }
            all.entry(owner(*kind, part.as_deref()))
                .or_default()
                .extend(found);
        }
        Self(all)
    }

    /// In which stretch a reading lies.
    pub(super) fn stretch(&self, (kind, part): (Kind, Option<&str>), kept: &Kept) -> usize {
        let place = (kept.at, kept.line);
        let breaks = self.0.get(&owner(kind, part));
        breaks.map_or(0, |breaks| breaks.range(..=place).count())
    }
}

/// The part that is put right: at rest and under load it is one battery.
fn owner(kind: Kind, part: Option<&str>) -> Which {
    let kind = match kind {
        Kind::BatteryLoad => Kind::BatteryRest,
        kind => kind,
    };
    (kind, part.map(str::to_owned))
}

/// Where what was read jumps up, with nothing in the records to say why.
fn jumps(kept: &[&Kept], known: &BTreeSet<Place>) -> Vec<Place> {
    let mut found = Vec::new();
    let mut begin = 0;
    let is_known = |one: &&Kept| known.contains(&(one.at, one.line));
    for (at, next) in kept.iter().enumerate().skip(1) {
        if is_known(next) {
            begin = at;
            continue;
        }
        // Neither side reaches beyond what is known to have been put right.
        let before = kept.get(begin.max(at.saturating_sub(BESIDE))..at);
        let behind = kept.iter().skip(at).take(BESIDE);
        let behind: Vec<&Kept> = behind.take_while(|one| !is_known(one)).copied().collect();
        if before.is_some_and(|before| jumped(before, &behind).unwrap_or(false)) {
            found.push((next.at, next.line));
            begin = at;
        }
    }
    found
}

fn jumped(before: &[&Kept], behind: &[&Kept]) -> Option<bool> {
    let (last, first, _) = (before.last()?, behind.first()?, behind.get(1)?);
    let middle = |kept: &[&Kept]| Quantity::middle(kept.iter().map(|one| &one.value));
    let (was, is) = (middle(before)?, middle(behind)?);
    let most = &last.error + &first.error;
    let rose = |to: &Quantity| Some(to.minus(&was)?.value > most);
    Some(rose(&is)? && rose(&first.value)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Id;
    use crate::units::{Exact, Unit};

    fn kept(readings: &[i64]) -> Vec<Kept> {
        let first: DateTime<FixedOffset> = "2026-03-01T07:00:00Z".parse().unwrap();
        let one = |(read, days): (&i64, i64)| Kept {
            at: first + chrono::TimeDelta::days(7 * days),
            line: 3,
            trip: Id::read("9f0c11b2").unwrap(),
            read: Quantity::whole(*read, Unit::Psi),
            value: Quantity::whole(*read, Unit::Psi),
            error: Exact::whole(1),
            limit: None,
            after_off: false,
        };
        readings.iter().zip(0..).map(one).collect()
    }

    /// At which readings a stretch begins.
    fn broken(readings: &[i64]) -> Vec<usize> {
        let kept = kept(readings);
        let kept: Vec<&Kept> = kept.iter().collect();
        let places = jumps(&kept, &BTreeSet::new());
        let at = |place: &Place| kept.iter().position(|one| one.at == place.0).unwrap();
        places.iter().map(at).collect()
    }

    #[test]
    fn a_jump_that_stays_is_something_put_right() {
        assert_eq!(broken(&[62, 61, 60, 66, 65, 65]), [3]);
        assert_eq!(broken(&[62, 66, 65, 61, 66]), [1]);
    }

    #[test]
    fn one_wild_reading_breaks_nothing_and_neither_does_the_newest_alone() {
        assert!(broken(&[62, 61, 60, 600, 60, 59]).is_empty());
        assert!(broken(&[62, 61, 60, 6, 60, 59]).is_empty());
        assert!(broken(&[62, 61, 60, 66]).is_empty());
    }

    #[test]
    fn what_is_known_to_be_put_right_behind_it_makes_no_jump_before_it() {
        let kept = kept(&[60, 59, 58, 61, 57, 66, 66]);
        let kept: Vec<&Kept> = kept.iter().collect();
        let known = BTreeSet::from([(kept[5].at, kept[5].line)]);
        assert!(jumps(&kept, &known).is_empty());
        assert_eq!(jumps(&kept, &BTreeSet::new()).len(), 1);
    }

    #[test]
    fn what_both_instruments_may_be_wrong_by_is_no_jump() {
        assert!(broken(&[62, 61, 60, 62, 62, 62]).is_empty());
    }
}
