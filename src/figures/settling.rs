//! Whether one way of loading a rig lets its trailer settle sooner than another after a swing.
//!
//! The sum behind it knows no tire and no road of this rig, so its numbers are told to nobody:
//! only which of two rigs is the more damped. No speed is said to be right.
//!
//! | taken | what for | source |
//! |---|---|---|
//! | 60 mph | the speed of the comparison | the middle of what is driven, common practice |
//! | 0.43 of the wheelbase | yaw radius of a pickup | from memory |
//! | frame base over root 12 | yaw radius of the empty trailer about its middle: an even beam | statics, any textbook |

use crate::figures::gather::Gather;
use crate::figures::{Lacking, bodies};
use crate::mechanics::Item;
use crate::mechanics::attitude::{StaticSolution, solve_static};
use crate::mechanics::sway::{SwayRig, sway};
use crate::rig::Rig;
use crate::units::Unit::Inch;

/// How a swing of one rig goes on, compared with another's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Settles {
    /// It dies out sooner.
    MoreDamped,
    /// It dies out later.
    LessDamped,
    /// The sum is not fine enough to tell.
    AboutAlike,
}

impl Settles {
    /// The words on screens.
    pub fn word(self) -> &'static str {
        match self {
            Self::MoreDamped => "more damped than before",
            Self::LessDamped => "less damped than before",
            Self::AboutAlike => "about as damped as before",
        }
    }
}

/// Speed at which both are compared.
const COMPARED_AT_MPH: f64 = 60.0;

/// Differences of the damping ratio below this are none.
const TOLD_APART: f64 = 0.01;

/// Whether `after` is more or less damped than `before`, which must be the same rig loaded or set
/// otherwise.
///
/// # Errors
/// A sentence, when one of them is not described well enough or does not swing.
pub fn settles(before: &Rig, after: &Rig) -> Result<Settles, String> {
    let change = damping(after)? - damping(before)?;
    Ok(if change > TOLD_APART {
        Settles::MoreDamped
    } else if change < -TOLD_APART {
        Settles::LessDamped
    } else {
        Settles::AboutAlike
    })
}

fn damping(rig: &Rig) -> Result<f64, String> {
    let told = |lacking: Lacking| match lacking {
        Lacking::Undescribed(lacks) => {
            let fields: Vec<&str> = lacks.iter().map(|lack| lack.field).collect();
            format!("not described: {}", fields.join(", "))
        }
        Lacking::NoNumber(why) => why,
        Lacking::Absent | Lacking::Unread(_) => "not known of this rig".to_owned(),
    };
    let found = in_the_plane(rig).map_err(told)?;
    let swings = sway(&found).map_err(|no| no.to_string())?;
    if swings
        .largest_real_root_1_s
        .is_some_and(|grows| grows > 0.0)
    {
        return Err("it would not swing but run away, and that is not compared".to_owned());
    }
    swings
        .damping_ratio
        .ok_or_else(|| "it does not swing at all".to_owned())
}

fn in_the_plane(rig: &Rig) -> Result<SwayRig, Lacking> {
    let mut gather = Gather::new();
    let bodies = bodies::coupled(&mut gather, rig);
    let base = Some(&rig.trailer.frame_base);
    let frame_in = gather.number(
        "base between the frame marks",
        "trailer.frame-base",
        base,
        Inch,
    );
    gather.done()?;
    let rests = solve_static(&bodies)?;
    let (truck, trailer) = (&bodies.truck, &bodies.trailer);
    Ok(SwayRig {
        truck_front_lb: truck.front_lb,
        truck_rear_lb: truck.rear_lb,
        wheelbase_in: truck.wheelbase_in,
        ball_behind_rear_axle_in: truck.ball_behind_rear_axle_in,
        truck_yaw_radius_in: 0.43 * truck.wheelbase_in,
        trailer_gross_lb: rests.trailer_gross_lb,
        ball_to_axle_in: middle_of_load(trailer.axles.iter().map(|axle| axle.x_in), &rests),
        trailer_yaw_radius_in: yaw_radius(&trailer.items, frame_in),
        speed_mph: COMPARED_AT_MPH,
        tongue_pct: rests.tongue_pct_of_gross,
        cornering_front_per_rad: SwayRig::front(),
        cornering_rear_per_rad: SwayRig::rear(),
        cornering_trailer_per_rad: SwayRig::trailer(),
    })
}

/// Where the axles' loads together act, in behind the ball.
fn middle_of_load(places: impl Iterator<Item = f64>, rests: &StaticSolution) -> f64 {
    let moment: f64 = places.zip(&rests.axle_lb).map(|(x, load)| x * load).sum();
    moment / rests.axle_sum_lb
}

/// Yaw radius of trailer and load about the centre of all: the empty trailer, which stands first,
/// as an even beam, everything else as if in one place.
fn yaw_radius(items: &[Item], frame_in: f64) -> f64 {
    let weight: f64 = items.iter().map(|item| item.weight_lb).sum();
    let middle = items
        .iter()
        .map(|item| item.weight_lb * item.x_in)
        .sum::<f64>()
        / weight;
    let away = |item: &Item| item.weight_lb * (item.x_in - middle) * (item.x_in - middle);
    let beam = items
        .first()
        .map_or(0.0, |empty| empty.weight_lb * frame_in * frame_in / 12.0);
    ((beam + items.iter().map(away).sum::<f64>()) / weight).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::demo::{JUNIPER, MESQUITE};
    use crate::units::Quantity;

    fn juniper() -> Rig {
        Rig::read(JUNIPER).unwrap()
    }

    /// Everything in the trailer this far back.
    fn moved(inches: i64) -> Rig {
        let mut rig = juniper();
        for load in &mut rig.load {
            let by = Quantity::whole(inches, Inch);
            load.at.behind.quantity = load.at.behind.quantity.plus(&by).unwrap();
        }
        rig
    }

    #[test]
    fn load_moved_back_settles_later_and_load_moved_forward_sooner() {
        assert_eq!(settles(&juniper(), &moved(25)), Ok(Settles::LessDamped));
        assert_eq!(settles(&moved(25), &juniper()), Ok(Settles::MoreDamped));
    }

    #[test]
    fn the_same_rig_is_as_damped_as_before() {
        assert_eq!(settles(&juniper(), &juniper()), Ok(Settles::AboutAlike));
    }

    #[test]
    fn a_rig_not_described_says_what_it_lacks() {
        let mut bare = Rig::read(MESQUITE).unwrap();
        bare.truck.springs = None;
        let told = settles(&bare, &juniper()).unwrap_err();
        assert!(told.contains("truck.springs.front"), "{told}");
    }
}
