//! What a trailer that broke loose does: how hard its own brakes slow it, and on what slope they
//! hold it.
//!
//! | taken | what for | source |
//! |---|---|---|
//! | 3-1/2 in | height of a ball socket whose coupler slides on the road | from memory |
//! | grip 0.4 | steel coupler on asphalt | from memory |
//! | six tenths | what drum brakes hold backward of what they hold forward | from memory |

use crate::figures::bodies;
use crate::figures::braking::{GRIP, TWENTIETH_G, forces, grip, moved_by_brakes, told};
use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Found, Input, Lacking, brakes};
use crate::mechanics::braking::{
    BREAKAWAY_DECEL, GRADE_HOLD, LooseTrailer, PerAxle, TrailerOnSlope, breakaway_decel, grade_hold,
};
use crate::mechanics::load::{MassItems, mass_properties};
use crate::rig::Rig;
use crate::units::Unit::{Inch, Percent};

/// Height of the socket of a coupler on the road, in.
const ON_THE_ROAD_IN: f64 = 3.5;

/// Grip of a coupler on the road.
const COUPLER_GRIP: f64 = 0.4;

/// What drums hold backward, of what they hold forward.
const BACKWARD: f64 = 0.6;

/// Deceleration of the loose trailer, its brakes at full force.
pub(crate) fn deceleration(rig: &Rig) -> Result<Found, Lacking> {
    brakes::braked(rig).next().ok_or(Lacking::Absent)?;
    let mut gather = Gather::new();
    let mut trailer = bodies::trailer(&mut gather, rig);
    let arm = moved_by_brakes(&mut gather, rig, &mut trailer);
    let forces = forces(&mut gather, rig);
    let mut inputs = gather.done()?;
    let taken = |what: &str, value: String| Input {
        what: what.to_owned(),
        value,
        from: "from memory".to_owned(),
    };
    inputs.extend([
        grip(),
        taken("grip of coupler on road", COUPLER_GRIP.to_string()),
        taken(
            "socket of a coupler on the road",
            format!("{ON_THE_ROAD_IN} in"),
        ),
    ]);
    let loose = breakaway_decel(&LooseTrailer {
        trailer,
        coupler_rest_height_in: ON_THE_ROAD_IN,
        brake_force_max_per_axle_lb: PerAxle::Each(forces),
        mu_tire: GRIP,
        mu_skid: COUPLER_GRIP,
        pivot_over_arm: arm,
    })?;
    let sliding = loose.locked.iter().filter(|locked| **locked).count();
    let from = format!(
        "nose on the road, brakes full on; {sliding} of {} axles slide",
        loose.locked.len()
    );
    Ok(told(
        TWENTIETH_G.down(loose.decel_g)?,
        from,
        &BREAKAWAY_DECEL,
        inputs,
    ))
}

/// The steepest grade on which the loose trailer is held, whichever way it points.
pub(crate) fn grade(rig: &Rig) -> Result<Found, Lacking> {
    brakes::braked(rig).next().ok_or(Lacking::Absent)?;
    let mut gather = Gather::new();
    let items = bodies::items(&mut gather, rig);
    let mass = gather.reckoned(mass_properties(&MassItems { items }));
    let forces = forces(&mut gather, rig);
    let places = rig.trailer.axles.iter().map(|axle| {
        let field = "trailer.axles.behind-ball";
        gather.number("axle behind ball", field, Some(&axle.behind_ball), Inch)
    });
    let places: f64 = places.sum();
    let mut inputs = gather.done()?;
    let Some(mass) = mass else {
        return Err(Lacking::Absent);
    };
    let count = f64::from(u32::try_from(forces.len()).unwrap_or(u32::MAX));
    let backward = Input {
        what: "what drums hold backward".to_owned(),
        value: BACKWARD.to_string(),
        from: "from memory".to_owned(),
    };
    inputs.extend([grip(), backward]);
    let slope = |nose_uphill| TrailerOnSlope {
        gross_lb: mass.weight_lb,
        x_cg_in: mass.x_cg_in,
        h_cg_in: mass.z_cg_in,
        axle_x_mean_in: places / count,
        // On its nose, where the jack may be torn off.
        jack_x_in: 0.0,
        brake_force_total_lb: forces.iter().sum(),
        mu_tire: GRIP,
        nose_uphill,
        direction_factor: if nose_uphill { BACKWARD } else { 1.0 },
    };
    let (uphill, downhill) = (grade_hold(&slope(true))?, grade_hold(&slope(false))?);
    let least = [uphill.hold_pct, uphill.nose_lifts_pct, downhill.hold_pct]
        .into_iter()
        .flatten()
        .reduce(f64::min)
        .ok_or_else(|| Lacking::NoNumber("no slope moves this trailer".to_owned()))?;
    let from = "standing on its nose, pointing up or down, as long as the battery holds";
    let known = Fineness::new(Percent, (5, 1)).down(least)?;
    Ok(told(known, from.to_owned(), &GRADE_HOLD, inputs))
}
