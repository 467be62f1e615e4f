//! What only many trips of one person show: digits, readings just inside a limit, and that nothing
//! is ever found. All are held against what others have on the same rigs, since a tire that is kept
//! at 65 psi ends in 5 for everybody.

use crate::mechanics::chance::{Counted, at_least};
use crate::review::Trace;
use crate::review::attention::{Asking, Brief, Signal};
use crate::review::trace::{Measured, Named};
use crate::rig::InstrumentKind;
use crate::rules::Side;
use crate::units::{Exact, Quantity};
use std::collections::BTreeMap;

/// Nobody is asked about fewer readings, of himself or of others, nor about fewer trips.
const READINGS: u32 = 30;
const TRIPS: u32 = 20;

/// Nobody is asked about what luck gives more often than this.
const LUCK_OF_READINGS: f64 = 1e-4;
const LUCK_OF_TRIPS: f64 = 1e-2;

/// Nor about readings that lie so little above the share of others: a tire that leaks slowly lies
/// just inside its limit for whoever has it in those weeks.
const MORE: f64 = 0.05;

/// Readings that end in 0 or 5 where all digits are alike.
const ROUND_SHARE: f64 = 0.2;

/// What has been counted.
#[derive(Debug, Default)]
pub(super) struct Counts {
    round: Tally,
    inside: Tally,
    nothing: Tally,
    last: BTreeMap<String, Named>,
}

/// Hits and counts by rig and person.
#[derive(Debug, Default)]
struct Tally(BTreeMap<(String, String), (u32, u32)>);

/// What one trip adds, by whoever typed: hits and counts. It is at the keys that a number is rounded.
#[derive(Clone, Debug)]
pub(super) struct Own {
    people: BTreeMap<String, [(u32, u32); 2]>,
    nothing: bool,
}

impl Own {
    pub(super) fn of(trace: &Trace) -> Self {
        let mut people: BTreeMap<String, [(u32, u32); 2]> = BTreeMap::new();
        for act in trace.acts.iter().filter(|act| act.first) {
            let Some(read) = act.read() else { continue };
            let own = people.entry(act.actor.clone()).or_default();
            for ((hits, all), hit) in own.iter_mut().zip([ends_round(read), is_just_inside(read)]) {
                *hits += u32::from(hit == Some(true));
                *all += u32::from(hit.is_some());
            }
        }
        Self {
            people,
            nothing: !trace.found,
        }
    }
}

impl Counts {
    pub(super) fn take(&mut self, brief: &Brief) {
        let of = |who: &str| (brief.rig.clone(), who.to_owned());
        for (who, [round, inside]) in &brief.own.people {
            self.round.count(of(who), *round);
            self.inside.count(of(who), *inside);
        }
        let nothing = (u32::from(brief.own.nothing), 1);
        self.nothing.count(of(&brief.of.who), nothing);
        for who in brief.own.people.keys().chain([&brief.of.who]) {
            let last = Named {
                who: who.clone(),
                ..brief.of.clone()
            };
            self.last.insert(who.clone(), last);
        }
    }

    /// What is asked of each person, by the last trip.
    pub(super) fn asked(&self) -> Vec<Asking> {
        let asked = self.last.iter().flat_map(|(who, of)| {
            let round = self
                .round
                .excess(who, READINGS, LUCK_OF_READINGS, ROUND_SHARE);
            let inside = self.inside.excess(who, READINGS, LUCK_OF_READINGS, 0.0);
            let nothing = self.nothing.excess(who, TRIPS, LUCK_OF_TRIPS, 0.0);
            let nothing = nothing.filter(|excess| excess.hits == excess.of);
            let signals = [
                round.map(|found| Signal::RoundDigits {
                    round: found.hits,
                    of: found.of,
                    others_pct: found.others_pct,
                }),
                inside.map(|found| Signal::JustInside {
                    inside: found.hits,
                    of: found.of,
                    others_pct: found.others_pct,
                }),
                nothing.map(|found| Signal::NothingFound {
                    trips: found.of,
                    others_pct: found.others_pct,
                }),
            ];
            let asking = |what| Asking {
                of: of.clone(),
                what,
            };
            signals.into_iter().flatten().map(asking)
        });
        asked.collect()
    }
}

/// More hits than others have, and than luck gives.
struct Excess {
    hits: u32,
    of: u32,
    others_pct: u32,
}

impl Tally {
    fn count(&mut self, of: (String, String), (more_hits, more): (u32, u32)) {
        let (hits, all) = self.0.entry(of).or_default();
        *hits += more_hits;
        *all += more;
    }

    /// Whether this person has more hits than the others, on the rigs both have to do with.
    fn excess(&self, who: &str, least: u32, luck: f64, floor: f64) -> Option<Excess> {
        let (mut hits, mut of, mut others, mut expected) = (0, 0, 0, 0.0);
        for ((rig, _), (own_hits, own)) in self.0.iter().filter(|((_, one), _)| one == who) {
            let there = self
                .0
                .iter()
                .filter(|((other_rig, other), _)| other_rig == rig && other != who);
            let (there_hits, there) = there.fold((0, 0), |(hits, all), (_, (more_hits, more))| {
                (hits + more_hits, all + more)
            });
            if there == 0 {
                continue;
            }
            hits += own_hits;
            of += own;
            others += there;
            expected += f64::from(*own) * f64::from(there_hits) / f64::from(there);
        }
        if of < least || others < least {
            return None;
        }
        let share = (expected / f64::from(of)).max(floor);
        let counted = Counted {
            counted: of,
            hits,
            chance: share,
        };
        let likely = at_least(&counted).ok()?.chance;
        let more = f64::from(hits) / f64::from(of) - share;
        (likely < luck && more > MORE).then(|| Excess {
            hits,
            of,
            others_pct: percent(share),
        })
    }
}

fn percent(share: f64) -> u32 {
    let whole = Exact::nearest(share * 100.0, &Exact::whole(1));
    whole
        .and_then(|whole| whole.rounded(0).parse().ok())
        .unwrap_or(0)
}

/// Whether a pressure ends in 0 or 5; nothing of a gauge whose marks are not one of its unit.
fn ends_round(read: &Measured) -> Option<bool> {
    let fine = read.mark.as_ref()?.difference_in(read.value.unit)?.value == Exact::whole(1);
    (read.kind == InstrumentKind::PressureGauge && fine).then_some(())?;
    Some(read.value.value.over(&Exact::whole(5))?.is_whole())
}

/// Whether a reading lies within one mark of a limit, on the good side; nothing where it is held
/// to none.
fn is_just_inside(read: &Measured) -> Option<bool> {
    let mark = read.mark.as_ref().filter(|_| !read.limits.is_empty())?;
    let near = |(side, bound): &(Side, Quantity)| {
        let mark = mark.difference_in(bound.unit)?.value;
        let over = read.value.minus(bound)?.difference_in(bound.unit)?.value;
        let inside = match side {
            Side::Below | Side::AtOrBelow => over,
            Side::Above | Side::AtOrAbove => &Exact::zero() - &over,
        };
        Some(!inside.is_negative() && inside <= mark)
    };
    Some(read.limits.iter().any(|limit| near(limit) == Some(true)))
}
