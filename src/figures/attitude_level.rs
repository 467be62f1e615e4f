//! How far from level this rig may stand, as it is loaded, before an axle or its tires carry more
//! than they may.

use crate::figures::attitude::{pitch_rad, reckoned};
use crate::figures::fineness::Fineness;
use crate::figures::gather::{Gather, amount};
use crate::figures::{Found, Input, Lacking, bodies, tire_capacity};
use crate::mechanics::attitude::{AtLimit, LEVEL_TOLERANCE, Tolerance, axle_name, tolerance_of};
use crate::mechanics::load::{MassItems, mass_properties};
use crate::mechanics::{MassProperties, Springing};
use crate::rig::{Axle, Rig};
use crate::units::Unit::{Inch, Pound};

/// Which way the frame leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Nose {
    Low,
    High,
}

/// What one axle may carry, and by what.
struct Limit {
    most_lb: f64,
    by: &'static str,
}

struct Leaning {
    tolerance: Tolerance,
    limits: Vec<Limit>,
    base_in: f64,
    inputs: Vec<Input>,
}

/// The most that the front mark may stand lower, or higher, than the rear one.
pub(crate) fn most(rig: &Rig, nose: Nose) -> Result<Found, Lacking> {
    let leaning = leaning(rig)?;
    let gap = leaning.gap(nose)?;
    leaning.told(gap, nose)
}

/// How much further the frame may lean that way than it does as it stands; negative where it leans
/// too far already.
pub(crate) fn left(rig: &Rig, nose: Nose) -> Result<Found, Lacking> {
    let leaning = leaning(rig)?;
    let (most, now) = (leaning.gap(nose)?, pitch_rad(rig)? * leaning.base_in);
    let taken = match nose {
        Nose::Low => -now,
        Nose::High => now,
    };
    let mut told = leaning.told(most, nose)?;
    let stands = Fineness::TENTH_INCH.nearest(now)?;
    if let Some(working) = &mut told.working {
        working.inputs.push(Input {
            what: "front mark higher than the rear one, as it stands".to_owned(),
            value: stands.to_string(),
            from: "pitch reckoned from the rig file".to_owned(),
        });
    }
    Ok(Found {
        quantity: Fineness::TENTH_INCH.down(most - taken)?,
        from: format!("of {}: {}", told.quantity, told.from),
        ..told
    })
}

/// The nearer of the two, with what gives way first.
pub(crate) fn first(rig: &Rig) -> Result<Found, Lacking> {
    let leaning = leaning(rig)?;
    let (gap, nose) = match (leaning.gap(Nose::Low), leaning.gap(Nose::High)) {
        (Ok(low), Ok(high)) if high < low => (high, Nose::High),
        (Ok(low), _) => (low, Nose::Low),
        (Err(_), high) => (high?, Nose::High),
    };
    leaning.told(gap, nose)
}

fn leaning(rig: &Rig) -> Result<Leaning, Lacking> {
    let mut gather = Gather::new();
    let trailer = bodies::trailer(&mut gather, rig);
    let couple = bodies::couple(&mut gather, rig);
    let base = Some(&rig.trailer.frame_base);
    let base_in = gather.number(
        "base between the frame marks",
        "trailer.frame-base",
        base,
        Inch,
    );
    let mass = mass_properties(&MassItems {
        items: trailer.items.clone(),
    });
    let mass = gather.reckoned(mass);
    let axles = &rig.trailer.axles;
    let limits: Vec<Limit> = axles
        .iter()
        .map(|axle| limit(&mut gather, axle, mass.as_ref(), axles.len()))
        .collect();
    let inputs = gather.done()?;
    if axles.len() == 1 {
        return Err(Lacking::NoNumber(
            "a single axle carries the same at any pitch, so none of it is a limit by load; the \
             trade asks for a frame within half a degree of level"
                .to_owned(),
        ));
    }
    if trailer.suspension == Springing::Equalized {
        return Err(Lacking::NoNumber(
            "an equalizer keeps the axles' loads alike at any pitch, so none of it is a limit by \
             load; the trade asks for a frame within half a degree of level"
                .to_owned(),
        ));
    }
    let most: Vec<f64> = limits.iter().map(|limit| limit.most_lb).collect();
    Ok(Leaning {
        tolerance: tolerance_of(&trailer, &most, couple)?,
        limits,
        base_in,
        inputs,
    })
}

/// The least of an axle's rating and of what its tires may carry, the heavier side counted twice.
fn limit(gather: &mut Gather, axle: &Axle, mass: Option<&MassProperties>, axles: usize) -> Limit {
    let rating = Some(&axle.gawr);
    let rating = gather.number("rating of the axle", "trailer.axles.gawr", rating, Pound);
    let tire = tire_capacity::capacity(gather, &axle.tire);
    let count = f64::from(u32::try_from(axles).unwrap_or(u32::MAX));
    let across = mass.map_or(0.0, |mass| {
        (mass.weight_lb * mass.y_cg_in / amount(&axle.track.quantity, Inch) / count).abs()
    });
    let tires = 2.0 * (tire - across);
    if tires < rating {
        Limit {
            most_lb: tires,
            by: "what its tires may carry at the cold pressure asked of them",
        }
    } else {
        Limit {
            most_lb: rating,
            by: "its rating",
        }
    }
}

impl Leaning {
    /// The gap between the marks at which an axle meets its limit, in.
    fn gap(&self, nose: Nose) -> Result<f64, Lacking> {
        if self.tolerance.over.is_some() {
            return Ok(0.0);
        }
        let at = self.at(nose).ok_or_else(|| {
            let side = match nose {
                Nose::Low => "nose low",
                Nose::High => "nose high",
            };
            Lacking::NoNumber(format!(
                "with this load no axle passes its limit {side}, however far the frame leans; \
                 the trade asks for a frame within half a degree of level"
            ))
        })?;
        Ok(at.pitch_rad.abs() * self.base_in)
    }

    fn at(&self, nose: Nose) -> Option<AtLimit> {
        match nose {
            Nose::Low => self.tolerance.down,
            Nose::High => self.tolerance.up,
        }
    }

    fn told(self, gap: f64, nose: Nose) -> Result<Found, Lacking> {
        let name = |axle: usize| axle_name(axle, self.limits.len());
        let by = |axle: usize| self.limits.get(axle).map_or("", |limit| limit.by);
        let from = match (self.tolerance.over, self.at(nose)) {
            (Some(axle), _) => format!("the {} axle is past {} even level", name(axle), by(axle)),
            (None, Some(at)) => {
                let lean = match nose {
                    Nose::Low => "lower",
                    Nose::High => "higher",
                };
                let (name, by) = (name(at.axle), by(at.axle));
                format!("any {lean} in front, and the {name} axle passes {by}")
            }
            (None, None) => String::new(),
        };
        let quantity = Fineness::TENTH_INCH.down(gap)?;
        Ok(Found {
            from,
            ..reckoned(quantity, &LEVEL_TOLERANCE, self.inputs)
        })
    }
}

#[cfg(test)]
mod tests {
    use crate::figures::{Figure, Found, NotKnown};
    use crate::rig::demo::{JUNIPER, MESQUITE};
    use crate::rig::{Given, Rig, Suspension};
    use crate::units::{Dimension, Quantity, Unit, parse_quantity};

    fn rig(text: &str) -> Rig {
        Rig::read(text).unwrap()
    }

    fn found(rig: &Rig, figure: Figure) -> Found {
        figure.of(rig, None).unwrap()
    }

    fn shown(rig: &Rig, figure: Figure) -> String {
        found(rig, figure).quantity.to_string()
    }

    fn set(given: &mut Given, text: &str, dimension: Dimension) {
        given.quantity = parse_quantity(text, dimension).unwrap();
    }

    /// An independent model of these two rigs, written apart from the program: 7.88 in and 7.27 in
    /// nose low.
    #[test]
    fn the_demo_rigs_may_stand_far_from_level_before_an_axle_passes_its_rating() {
        let juniper = rig(JUNIPER);
        assert_eq!(shown(&juniper, Figure::LevelMostNoseLow), "7.8 in");
        assert_eq!(shown(&juniper, Figure::LevelMostNoseHigh), "9.6 in");
        let first = found(&juniper, Figure::LevelFirst);
        assert_eq!(first.quantity.to_string(), "7.8 in");
        assert_eq!(
            first.from,
            "any lower in front, and the front axle passes its rating"
        );
        assert_eq!(shown(&rig(MESQUITE), Figure::LevelMostNoseLow), "7.2 in");
    }

    /// Half a degree over 150 in is 1.3 in; what stands nose up has that much less room upward and
    /// more downward.
    #[test]
    fn what_is_left_of_the_level_tolerance_is_what_the_pitch_does_not_take() {
        let juniper = rig(JUNIPER);
        let inches = |figure| found(&juniper, figure).quantity.value.to_f64().unwrap();
        let pitch = found(&juniper, Figure::AttitudePitch).quantity;
        let now = pitch.value.to_f64().unwrap().to_radians() * 150.0;
        for (left, most, taken) in [
            (Figure::LevelLeftNoseHigh, Figure::LevelMostNoseHigh, now),
            (Figure::LevelLeftNoseLow, Figure::LevelMostNoseLow, -now),
        ] {
            // Each of the three is rounded, the pitch to a twentieth of a degree.
            assert!((inches(left) - (inches(most) - taken)).abs() < 0.35);
        }
    }

    /// Tires that carry 1,480 lb each at 35 psi, 5 lb of it moved across: 2,949 lb an axle, 488 lb
    /// over its load when level, where its rating leaves 1,039 lb and 7.88 in.
    #[test]
    fn with_less_air_the_tires_give_way_before_the_axle_does() {
        let mut juniper = rig(JUNIPER);
        for axle in &mut juniper.trailer.axles {
            set(&mut axle.tire.cold, "35 psi", Dimension::Pressure);
            axle.tire.table.as_mut().unwrap().rows[0].load = Quantity::whole(1480, Unit::Pound);
        }
        let low = found(&juniper, Figure::LevelMostNoseLow);
        assert_eq!(low.quantity.to_string(), "3.7 in");
        assert_eq!(
            low.from,
            "any lower in front, and the front axle passes what its tires may carry at the cold \
             pressure asked of them"
        );
    }

    #[test]
    fn an_axle_past_its_rating_even_when_level_leaves_nothing() {
        let mut juniper = rig(JUNIPER);
        set(
            &mut juniper.trailer.axles[1].gawr,
            "2000 lb",
            Dimension::Mass,
        );
        for figure in [
            Figure::LevelMostNoseLow,
            Figure::LevelMostNoseHigh,
            Figure::LevelFirst,
        ] {
            let found = found(&juniper, figure);
            assert_eq!(found.quantity.to_string(), "0 in");
            assert_eq!(found.from, "the rear axle is past its rating even level");
        }
    }

    #[test]
    fn a_side_on_which_nothing_passes_its_limit_has_no_number_and_the_other_keeps_its_own() {
        let mut juniper = rig(JUNIPER);
        // One light pony: by itself the rear axle would still carry less than its rating.
        juniper.load.truncate(1);
        set(
            &mut juniper.trailer.axles[0].gawr,
            "2000 lb",
            Dimension::Mass,
        );
        let refused = Figure::LevelMostNoseHigh.of(&juniper, None).unwrap_err();
        assert!(
            refused
                .to_string()
                .contains("no axle passes its limit nose high")
        );
        let low = shown(&juniper, Figure::LevelMostNoseLow);
        assert_eq!(shown(&juniper, Figure::LevelFirst), low);
    }

    #[test]
    fn a_single_axle_and_an_equalizer_have_no_limit_by_load_and_name_the_rule_of_thumb() {
        let mut single = rig(JUNIPER);
        single.trailer.axles.truncate(1);
        single.load.truncate(1);
        let mut leaf = rig(JUNIPER);
        for axle in &mut leaf.trailer.axles {
            axle.suspension = Suspension::EqualizedLeaf;
        }
        for (rig, why) in [(&single, "a single axle"), (&leaf, "an equalizer")] {
            let Err(NotKnown::NoNumber(_, sentence)) = Figure::LevelFirst.of(rig, None) else {
                panic!("a limit for {why}");
            };
            assert!(sentence.starts_with(why), "{sentence}");
            assert!(sentence.contains("half a degree"), "{sentence}");
        }
    }
}
