//! What the tickets make of tongue, trailer and share.

use crate::figures::gather::amount;
use crate::figures::weighing::{Refused, Tickets};
use crate::mechanics::load::{ScaleTickets, scale_tickets};
use crate::rig::HitchKind;
use crate::units::{Exact, Quantity, Unit};

/// A value with the least and the most it may be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Band {
    /// As read.
    pub is: Quantity,
    /// With every reading off to one side.
    pub least: Quantity,
    /// With every reading off to the other.
    pub most: Quantity,
}

impl Band {
    /// The same no finer than `step`, its ends outward.
    #[must_use]
    pub fn outward(&self, step: &Exact) -> Self {
        let stepped = |of: &Quantity, to: fn(&Exact, &Exact) -> Option<Exact>| {
            let value = to(&of.value, step).unwrap_or_else(|| of.value.clone());
            Quantity::new(value, of.unit)
        };
        let half = step * &Exact::ratio(1, 2).unwrap_or_else(Exact::zero);
        let middle = Quantity::new(&self.is.value + &half, self.is.unit);
        Self {
            is: stepped(&middle, Exact::down_to),
            least: stepped(&self.least, Exact::down_to),
            most: stepped(&self.most, Exact::up_to),
        }
    }
}

/// What the tickets say.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The smallest step of the scale.
    pub step: Quantity,
    /// How far a reading may be off either way.
    pub error: Quantity,
    /// Weight on the ball.
    pub tongue: Band,
    /// Weight of the loaded trailer.
    pub trailer: Band,
    /// Weight on the ball, of the trailer's.
    pub share: Band,
    /// How widely many weighings would spread.
    pub spread: Spread,
    /// What share is asked for.
    pub asked: ShareAsked,
    /// Whether it is held.
    pub held: Held,
    /// What the trailer did to the steer axle; negative is lighter.
    pub steer_change: Quantity,
    /// Part of that which the bars gave back.
    pub restored: Option<Band>,
    /// The truck as it is driven: steer and drive axle, the bars tight where there are any.
    pub truck_axles: [Band; 2],
    /// The trailer's axles likewise.
    pub trailer_axles: Band,
}

/// The share of the trailer that belongs on the ball.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShareAsked {
    /// Least, %.
    pub least: i64,
    /// Most, %.
    pub most: i64,
    /// Whose word it is.
    pub source: &'static str,
}

/// Whether the share asked for is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// Anywhere in the band.
    Within,
    /// Nowhere in the band: too light.
    Below,
    /// Nowhere in the band: too heavy.
    Above,
    /// In one part of the band and not in another.
    CannotTell,
}

impl ShareAsked {
    /// Of a rig of this kind.
    pub fn of(kind: HitchKind) -> Self {
        match kind {
            HitchKind::BumperPull => Self {
                least: 10,
                most: 15,
                source: "10 %: truck makers' manuals, read in a copy; 15 %: common practice, no source",
            },
            HitchKind::Gooseneck => Self {
                least: 15,
                most: 25,
                source: "common practice, no source",
            },
        }
    }

    fn held_by(self, share: &Band) -> Held {
        let [least, most] = [self.least, self.most].map(Exact::whole);
        if share.most.value < least {
            Held::Below
        } else if share.least.value > most {
            Held::Above
        } else if share.least.value >= least && share.most.value <= most {
            Held::Within
        } else {
            Held::CannotTell
        }
    }
}

impl Tickets {
    /// What the tickets say.
    ///
    /// # Errors
    /// Everything that is wrong with them.
    pub fn weighed(&self) -> Result<Weighed, Vec<Refused>> {
        for wrong in [self.wrong_readings(), self.contradictions()] {
            if !wrong.is_empty() {
                return Err(wrong);
            }
        }
        let [front, rear] = &self.alone;
        let [hitched_front, hitched_rear, axles] = &self.hitched;
        let tongue = &(hitched_front + hitched_rear) - &(front + rear);
        let trailer = &tongue + axles;
        let asked = ShareAsked::of(self.kind);
        let share = self.share(&tongue, &trailer);
        let [driven_front, driven_rear, driven_axles] = self.bars.as_ref().unwrap_or(&self.hitched);
        Ok(Weighed {
            step: self.quantity(self.step.clone()),
            error: self.quantity(self.error()),
            tongue: self.band(&tongue, 4),
            trailer: self.band(&trailer, 5),
            held: asked.held_by(&share),
            share,
            spread: self.spread().map_err(|refused| vec![refused])?,
            asked,
            steer_change: self.quantity(hitched_front - front),
            restored: self.restored(),
            truck_axles: [self.band(driven_front, 1), self.band(driven_rear, 1)],
            trailer_axles: self.band(driven_axles, 1),
        })
    }

    /// A sum of so many readings.
    pub(super) fn band(&self, is: &Exact, readings: i64) -> Band {
        let off = &self.error() * &Exact::whole(readings);
        Band {
            least: self.quantity(is - &off),
            most: self.quantity(is + &off),
            is: self.quantity(is.clone()),
        }
    }

    /// The tongue's share. The same four readings stand above and below the line; the trailer's
    /// own stands below alone, and at its worst is off the other way.
    fn share(&self, tongue: &Exact, trailer: &Exact) -> Band {
        let [four, three] = [4, 3].map(|readings| &self.error() * &Exact::whole(readings));
        let percent = |part: &Exact, whole: &Exact| {
            let share = (part * &Exact::whole(100)).over(whole);
            Quantity::new(share.unwrap_or_else(Exact::zero), Unit::Percent)
        };
        Band {
            is: percent(tongue, trailer),
            least: percent(&(tongue - &four), &(trailer - &three)),
            most: percent(&(tongue + &four), &(trailer + &three)),
        }
    }

    /// The part of the steer axle's loss that the bars gave back, by the worst corners of its
    /// three readings. Nothing where it lost too little to tell.
    fn restored(&self) -> Option<Band> {
        let [tight, ..] = self.bars.as_ref()?;
        let ([front, _], [loose, ..]) = (&self.alone, &self.hitched);
        let error = self.error();
        let share = |front: &Exact, loose: &Exact, tight: &Exact| {
            let lost = front - loose;
            let back = &(tight - loose) * &Exact::whole(100);
            (!lost.is_zero() && !lost.is_negative())
                .then(|| back.over(&lost))
                .flatten()
                .map(|part| Quantity::new(part, Unit::Percent))
        };
        let ends = |of: &Exact| [of - &error, of + &error];
        let mut corners = Vec::new();
        for front in ends(front) {
            for loose in ends(loose) {
                for tight in ends(tight) {
                    corners.push(share(&front, &loose, &tight)?);
                }
            }
        }
        corners.sort_by(|one, other| one.value.cmp(&other.value));
        Some(Band {
            is: share(front, loose, tight)?,
            least: corners.first()?.clone(),
            most: corners.last()?.clone(),
        })
    }

    /// Standard deviations of tongue and share, by the formula.
    fn spread(&self) -> Result<Spread, Refused> {
        let number = |value: &Exact| amount(&self.quantity(value.clone()), Unit::Pound);
        let [front, rear] = &self.alone;
        let [hitched_front, hitched_rear, axles] = &self.hitched;
        let weighed = scale_tickets(&ScaleTickets {
            alone_front_lb: number(front),
            alone_rear_lb: number(rear),
            hitched_front_lb: number(hitched_front),
            hitched_rear_lb: number(hitched_rear),
            hitched_trailer_lb: number(axles),
            reading_error_lb: number(&self.error()),
            bars_front_lb: None,
            bars_rear_lb: None,
            bars_trailer_lb: None,
            trailer_only_lb: None,
            wheelbase_in: None,
            ball_behind_rear_axle_in: None,
        });
        let weighed = weighed.map_err(|no| Refused::NoNumber(no.to_string()))?;
        let pounds = amount(&Quantity::whole(1, self.unit), Unit::Pound);
        let whole = Exact::nearest(weighed.sd_tongue_lb / pounds, &Exact::whole(1));
        let tenth = Exact::ratio(1, 10).unwrap_or_else(Exact::zero);
        let tenths = Exact::nearest(weighed.sd_tongue_pct, &tenth);
        let (Some(whole), Some(tenths)) = (whole, tenths) else {
            return Err(Refused::NoNumber(
                "the spread comes to no number".to_owned(),
            ));
        };
        Ok(Spread {
            tongue: self.quantity(whole),
            share: Quantity::new(tenths, Unit::Percent),
        })
    }
}

/// Standard deviations of a reading anywhere within its error.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spread {
    /// Of the tongue weight, to one of its unit.
    pub tongue: Quantity,
    /// Of the tongue's share, to a tenth of a percent.
    pub share: Quantity,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::weighing::Stands;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use proptest::prelude::*;

    fn tickets(alone: [i64; 2], hitched: [i64; 3], step: i64) -> Tickets {
        Tickets {
            kind: HitchKind::BumperPull,
            unit: Unit::Pound,
            step: Exact::whole(step),
            alone: alone.map(Exact::whole),
            hitched: hitched.map(Exact::whole),
            bars: None,
            trailer: None,
        }
    }

    fn percent(value: &Quantity) -> String {
        value.value.written()
    }

    /// 820 of 6,300 lb, each reading off by 10 lb: 780 of 6,270 and 860 of 6,330.
    #[test]
    fn the_band_of_the_share_is_that_of_its_worst_corners() {
        let weighed = tickets([3880, 2920], [3600, 4020, 5480], 20)
            .weighed()
            .unwrap();
        assert_eq!(percent(&weighed.share.is), "820/63");
        assert_eq!(percent(&weighed.share.least), "2600/209");
        assert_eq!(percent(&weighed.share.most), "8600/633");
        assert_eq!(weighed.held, Held::Within);
    }

    #[test]
    fn a_band_that_ends_on_a_limit_lies_within_it_and_a_hair_more_does_not() {
        let asked = ShareAsked::of(HitchKind::BumperPull);
        let held = |least: (i128, i128), most: (i128, i128)| {
            let percent =
                |(upper, lower)| Quantity::new(Exact::ratio(upper, lower).unwrap(), Unit::Percent);
            let [least, most] = [least, most].map(percent);
            let is = least.clone();
            asked.held_by(&Band { is, least, most })
        };
        assert_eq!(held((10, 1), (15, 1)), Held::Within);
        assert_eq!(held((10, 1), (150_001, 10_000)), Held::CannotTell);
        assert_eq!(held((99_999, 10_000), (15, 1)), Held::CannotTell);
        assert_eq!(held((8, 1), (99_999, 10_000)), Held::Below);
        assert_eq!(held((150_001, 10_000), (17, 1)), Held::Above);
    }

    #[test]
    fn bars_tell_what_they_gave_back_and_carry_over_to_the_axles_as_driven() {
        let mut tickets = tickets([3880, 2920], [3600, 4020, 5480], 20);
        tickets.bars = Some([3760, 3800, 5540].map(Exact::whole));
        let weighed = tickets.weighed().unwrap();
        let restored = weighed.restored.unwrap();
        assert_eq!(percent(&restored.is), "400/7");
        assert_eq!(weighed.trailer_axles.is, Quantity::whole(5540, Unit::Pound));
        assert_eq!(weighed.tongue.is, Quantity::whole(820, Unit::Pound));
    }

    #[test]
    fn a_rating_is_left_over_or_not_to_be_told_by_the_heaviest_and_the_lightest_reading() {
        let rig = Rig::read(JUNIPER).unwrap();
        let stands = |drive: i64| {
            let tickets = tickets([3440, 2860], [3200, drive, 4960], 20);
            let weighed = tickets.weighed().unwrap();
            let left = tickets.left_of(&weighed, &rig);
            left.into_iter()
                .find(|left| left.what == "drive axle")
                .unwrap()
                .stands
        };
        let pounds = |value| Quantity::whole(value, Unit::Pound);
        assert_eq!(stands(3820), Stands::Left(pounds(270)));
        assert_eq!(stands(4100), Stands::CannotTell);
        assert_eq!(stands(4120), Stands::Over(pounds(10)));
    }

    proptest! {
        /// True loads, read to the nearest step: the truth lies within the band, and a verdict on
        /// the whole band is a verdict on the truth.
        #[test]
        fn the_truth_lies_within_the_band(
            alone in (3000_i64..4500, 2000_i64..4000),
            tongue in 200_i64..1500,
            unloading in 40_i64..200,
            axles in 2500_i64..9000,
            step in prop::sample::select(vec![2_i64, 10, 20, 50]),
        ) {
            let truth = [alone.0, alone.1, alone.0 - unloading, alone.1 + unloading + tongue, axles];
            let [front, rear, hitched_front, hitched_rear, read] =
                truth.map(|load| (load + step / 2).div_euclid(step) * step);
            let read = tickets([front, rear], [hitched_front, hitched_rear, read], step);
            if let Ok(weighed) = read.weighed() {
                let share = Exact::ratio(i128::from(100 * tongue), i128::from(tongue + axles)).unwrap();
                let within = |band: &Band, truth: &Exact| {
                    &band.least.value <= truth && truth <= &band.most.value
                };
                prop_assert!(within(&weighed.tongue, &Exact::whole(tongue)));
                prop_assert!(within(&weighed.trailer, &Exact::whole(tongue + axles)));
                prop_assert!(within(&weighed.share, &share));
                match weighed.held {
                    Held::Within => prop_assert!(share >= Exact::whole(10) && share <= Exact::whole(15)),
                    Held::Below => prop_assert!(share < Exact::whole(10)),
                    Held::Above => prop_assert!(share > Exact::whole(15)),
                    Held::CannotTell => {}
                }
            }
        }
    }
}
