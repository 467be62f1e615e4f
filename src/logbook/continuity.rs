//! The way of each truck, from reading to reading of its odometer, across trips and laptops.
//!
//! An odometer shows whole miles or kilometres: a reading stands for anything up to one more.
//! So 48210 mi and 77586 km, typed one after the other off the same dial, raise no question.

use crate::checklist::Haul;
use crate::logbook::{Comes, Leg, Mileage, Question, Spot, Thresholds, TruckKey, in_order};
use crate::record::Id;
use crate::units::{Exact, Quantity, Unit};
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// What does not fit together in the ways of the trucks, in the order walked.
pub fn questions(legs: Vec<Leg>, thresholds: &Thresholds) -> Vec<Question> {
    let legs = in_order(legs);
    let mut trucks: BTreeMap<&TruckKey, Way<'_>> = BTreeMap::new();
    let mut asked = Vec::new();
    for leg in &legs {
        let way = trucks.entry(&leg.truck).or_default();
        way.take(leg, thresholds, &mut asked);
    }
    asked
}

/// Where a truck is on its way.
#[derive(Default)]
struct Way<'l> {
    last: Option<Read<'l>>,
    /// The last reading of the last haul, until the next begins.
    parked: Option<Read<'l>>,
    /// Whether the last haul was ended by a walk.
    unhitched: bool,
}

/// A reading and the leg it was read on.
#[derive(Clone, Copy)]
struct Read<'l> {
    leg: &'l Leg,
    mileage: &'l Mileage,
}

impl<'l> Way<'l> {
    fn take(&mut self, leg: &'l Leg, thresholds: &Thresholds, asked: &mut Vec<Question>) {
        for mileage in &leg.mileages {
            let now = Read { leg, mileage };
            if let Some(last) = self.last {
                asked.extend(backwards(last, now));
                asked.extend(too_fast(last, now, thresholds));
            }
            if leg.haul == Haul::Begins
                && let Some(parked) = self.parked.take()
            {
                asked.extend(unaccounted(parked, now, self.unhitched, thresholds));
            }
            self.last = Some(now);
        }
        match leg.haul {
            Haul::Begins if leg.complete => self.unhitched = false,
            Haul::Ends if leg.complete => self.unhitched = true,
            _ => {}
        }
        let of_haul = leg.mileages.last().filter(|_| leg.haul != Haul::Apart);
        if let Some(mileage) = of_haul {
            self.parked = Some(Read { leg, mileage });
        } else if leg.haul == Haul::Ends {
            // Unhitched with no reading: the way since the last one is not told apart.
            self.parked = None;
        }
    }
}

impl Read<'_> {
    fn means(&self) -> &Quantity {
        self.mileage.read.quantity()
    }

    /// The least that lies beyond what the odometer may have stood at.
    fn beyond(&self) -> Option<Quantity> {
        let means = self.means();
        let step = if means.value.is_whole() {
            Exact::whole(1)
        } else {
            Exact::ratio(1, 10)?
        };
        means.plus(&Quantity::new(step, means.unit))
    }

    fn spot(&self) -> Spot {
        Spot::of(self.leg, self.mileage)
    }

    /// The trip that began the haul it belongs to, itself where it did.
    fn haul(&self) -> Option<&Id> {
        self.leg.haul_of.as_ref()
    }
}

fn backwards(earlier: Read<'_>, later: Read<'_>) -> Option<Question> {
    let order = later.beyond()?.compare(earlier.means())?;
    (order != Ordering::Greater).then(|| Question::Backwards {
        truck: later.leg.truck_name.clone(),
        earlier: earlier.spot(),
        later: later.spot(),
        comes: comes(earlier, later),
    })
}

fn unaccounted(
    earlier: Read<'_>,
    later: Read<'_>,
    unhitched: bool,
    thresholds: &Thresholds,
) -> Option<Question> {
    let most = if unhitched {
        &thresholds.unhitched
    } else {
        &thresholds.hitched
    };
    let same_haul = earlier.haul().is_some() && earlier.haul() == later.haul();
    let least = later.means().minus(&earlier.beyond()?)?;
    let long = least.compare(most) == Some(Ordering::Greater);
    (long && !same_haul).then_some(Question::Unaccounted {
        truck: later.leg.truck_name.clone(),
        earlier: earlier.spot(),
        later: later.spot(),
        way: later.means().minus(earlier.means())?,
        unhitched,
    })
}

fn too_fast(earlier: Read<'_>, later: Read<'_>, thresholds: &Thresholds) -> Option<Question> {
    let least = later.means().minus(&earlier.beyond()?)?;
    let miles = least.in_unit(Unit::Mile)?.value;
    let between = between(earlier, later);
    let allowed = between.checked_add(thresholds.clock_slack.num_milliseconds())?;
    let fastest = thresholds.fastest.in_unit(Unit::MilePerHour)?.value;
    let way_in_time = &fastest * &Exact::whole(allowed);
    let way_needed = &miles * &Exact::whole(MS_AN_HOUR);
    (!miles.is_negative() && way_needed > way_in_time).then_some(Question::TooFast {
        truck: later.leg.truck_name.clone(),
        earlier: earlier.spot(),
        later: later.spot(),
        way: later.means().minus(earlier.means())?,
        minutes: between / MS_A_MINUTE,
    })
}

const MS_A_MINUTE: i64 = 60_000;
const MS_AN_HOUR: i64 = 60 * MS_A_MINUTE;

/// Milliseconds between two readings: by the clock that cannot be set where both were typed in one
/// start of one laptop, else by the clocks on the wall. Never less than none.
fn between(earlier: Read<'_>, later: Read<'_>) -> i64 {
    let (from, to) = (&earlier.mileage.at, &later.mileage.at);
    let live = !earlier.leg.from_paper && !later.leg.from_paper;
    let steady = live && earlier.leg.device == later.leg.device && from.boot == to.boot;
    if steady {
        i64::try_from(to.since(from)).unwrap_or(i64::MAX)
    } else {
        let wall = to.wall.signed_duration_since(from.wall);
        wall.num_milliseconds().max(0)
    }
}

fn comes(earlier: Read<'_>, later: Read<'_>) -> Comes {
    let (before, after) = (earlier.leg, later.leg);
    let named = after.after.contains(&before.trip)
        || after
            .seen
            .iter()
            .any(|(device, seq)| *device == before.device && before.seq <= *seq)
        || (before.haul == Haul::Begins && after.haul_of.as_ref() == Some(&before.trip));
    let live = !before.from_paper && !after.from_paper;
    if before.trip == after.trip || (live && before.device == after.device) {
        Comes::Numbered
    } else if named {
        Comes::Named
    } else {
        Comes::Clocks
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::leg::bench::leg;

    /// What is asked of these legs, by its kind and the trips of its readings.
    fn asked(rows: &[&str]) -> Vec<String> {
        let legs = rows.iter().map(|row| leg(row)).collect();
        let asked = questions(legs, &Thresholds::default());
        let tell = |question: &Question| {
            let (earlier, later) = question.spots();
            format!("{} {} {}", question.word(), earlier.trip, later.trip)
        };
        asked.iter().map(tell).collect()
    }

    #[test]
    fn a_week_of_ordinary_hauls_raises_no_question() {
        assert_eq!(
            asked(&[
                "a 1 3.06 begins of a1 48210mi",
                "a 2 3.08 during of a1 48260mi",
                "b 1 3.12 ends of a1 a1 48340mi",
                "b 2 9.06 begins of b2 48601mi",
                "a 3 9.09 ends of b2 b2 48700mi",
            ]),
            [""; 0]
        );
    }

    #[test]
    fn a_reading_below_an_earlier_one_is_asked_about_across_laptops() {
        let rows = ["a 1 3 48210mi", "b 1 4 48190mi"];
        assert_eq!(asked(&rows), ["odometer-backwards a1 b1"]);
        let legs = rows.iter().map(|row| leg(row)).collect();
        let asked = questions(legs, &Thresholds::default());
        assert_eq!(
            asked[0].to_string(),
            "The odometer of Larkspur half-ton reads 48190mi on trip 1 of b (Tobias Fenn, \
             2026-11-04 12:00), and 48210mi on trip 1 of a (Wren Ashdown, 2026-11-03 12:00), which \
             comes before it by the clocks alone. Was one of the two misread or mistyped, or was \
             the odometer changed?"
        );
    }

    #[test]
    fn miles_and_kilometres_are_compared_exactly_to_the_whole_one_a_dial_shows() {
        // 48210 mi are 77586.47 km; the dial shows 77586, and 77585 would be backwards.
        assert_eq!(asked(&["a 1 3 48210mi", "a 2 4 77586km"]), [""; 0]);
        assert_eq!(
            asked(&["a 1 3 48210mi", "a 2 4 77585km"]),
            ["odometer-backwards a1 a2"]
        );
        // 77586 km are 48209.70 mi.
        assert_eq!(asked(&["a 1 3 77586km", "a 2 4 48209mi"]), [""; 0]);
        assert_eq!(
            asked(&["a 1 3 77586km", "a 2 4 48208mi"]),
            ["odometer-backwards a1 a2"]
        );
    }

    #[test]
    fn a_long_way_between_unhitching_and_hitch_up_is_asked_about() {
        let rows = |end: &str, next: &str| {
            asked(&[
                "a 1 3.06 begins of a1 48000mi",
                &format!("a 2 3.10 {end} of a1 48100mi"),
                &format!("b 1 20.06 begins of b1 {next}"),
            ])
        };
        assert_eq!(rows("ends", "48601mi"), [""; 0]);
        assert_eq!(rows("ends", "48602mi"), ["way-unaccounted a2 b1"]);
        assert_eq!(rows("during", "48201mi"), [""; 0]);
        assert_eq!(rows("during", "48202mi"), ["way-unaccounted a2 b1"]);
    }

    #[test]
    fn a_way_no_truck_makes_in_the_time_is_asked_about() {
        // 85 mph for two hours and two minutes are 172.8 mi, and a reading is good to one.
        assert_eq!(asked(&["a 1 3.06 48000mi", "b 1 3.08 48173mi"]), [""; 0]);
        assert_eq!(
            asked(&["a 1 3.06 48000mi", "b 1 3.08 48174mi"]),
            ["too-fast a1 b1"]
        );
        assert_eq!(
            asked(&["a 1 3.06 48000mi", "a 2 3.08 84000mi", "a 3 3.10 48090mi"]),
            ["too-fast a1 a2", "odometer-backwards a2 a3"]
        );
    }

    #[test]
    fn another_truck_has_another_odometer() {
        let mut other = leg("b 1 4 12000mi");
        other.truck_name = "Hollis dually".to_owned();
        other.truck = TruckKey::of(&crate::rig::Truck {
            name: "Hollis dually".to_owned(),
            ..crate::rig::Rig::read(crate::rig::demo::JUNIPER)
                .unwrap()
                .truck
        });
        let legs = vec![leg("a 1 3 48210mi"), other];
        assert_eq!(questions(legs, &Thresholds::default()), []);
    }
}
