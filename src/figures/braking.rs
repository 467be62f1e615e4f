//! What a rig's own brakes should do: which trailer axle slides first, and how hard the lever
//! alone stops truck and trailer.
//!
//! | taken | what for | source |
//! |---|---|---|
//! | grip 0.6 | a hard dry road with dust or grit on it | from memory |
//! | seven tenths | least part of the brakes' force that a lever pull must show: with one of two axles dead only half is left | common practice, no source |
//! | half a second | lever and magnets taking hold, and the thumb on the watch | from memory |

use crate::figures::bodies;
use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Found, Input, Lacking, Working, brakes, weights};
use crate::mechanics::attitude::axle_name;
use crate::mechanics::braking::{
    Brakes, Class, FIRST_LOCK, LeverPull, PULL_MPH, PULL_STOP_TIME, Pulled, RigOnRoad,
    STOPPING_REQUIRED, StoppingClass, WheelTorque, brake_force_from_torque, first_lock,
    pull_stop_time, stopping_required,
};
use crate::mechanics::{Page, Springing, Trailer};
use crate::rig::{Axle, Given, Rig, Spring};
use crate::units::Quantity;
use crate::units::Unit::{FootPerSecondSquared, FootPound, Inch, Pound, Second, StandardGravity};

/// Grip of tire on road taken where nobody measured it.
pub(super) const GRIP: f64 = 0.6;

/// Least part of the force that a lever pull must show.
const SHOWN: f64 = 0.7;

/// Lever, magnets and thumb, s.
const TAKES_HOLD_S: f64 = 0.5;

/// Below this the road and the engine hold back as much as brakes do, of gravity.
const LEAST_PULL_G: f64 = 0.03;

/// What brake torque and grip leave of a deceleration's digits.
pub(super) const TWENTIETH_G: Fineness = Fineness::new(StandardGravity, (1, 20));

/// Deceleration that the law asks of the brakes of truck and trailer together.
pub(crate) fn asked() -> Result<Found, Lacking> {
    let asked = stopping_required(&StoppingClass {
        class: Class::Combination,
    })?;
    Ok(told(
        Fineness::new(FootPerSecondSquared, (1, 1)).nearest(asked.decel_ft_s2)?,
        "49 CFR 393.52(d), combinations, all brakes together, from 20 mph".to_owned(),
        &STOPPING_REQUIRED,
        Vec::new(),
    ))
}

/// Deceleration at which the first trailer axle slides, all of its own stopping done by the
/// trailer; which axle stands beside it.
pub(crate) fn first_to_slide(rig: &Rig) -> Result<Found, Lacking> {
    brakes::braked(rig).next().ok_or(Lacking::Absent)?;
    let mut gather = Gather::new();
    let mut at_rest = bodies::coupled(&mut gather, rig);
    let arm = moved_by_brakes(&mut gather, rig, &mut at_rest.trailer);
    let height = rig.truck.middle_height.as_ref();
    let height = height.map(|height| {
        let what = "truck's centre above ground";
        gather.number(what, "truck.middle-height", Some(height), Inch)
    });
    let mut inputs = gather.done()?;
    inputs.push(grip());
    let axles = &rig.trailer.axles;
    let first = first_lock(&RigOnRoad {
        rig: at_rest,
        brakes: Brakes {
            gain: 1.0,
            truck_follows: true,
            truck_cg_height_in: height,
            pivot_over_arm: arm,
            braked: Some(axles.iter().map(|axle| axle.brake.is_some()).collect()),
        },
        mu: GRIP,
    })?;
    let axle = usize::try_from(first.axle.saturating_sub(1)).unwrap_or(0);
    let name = axle_name(axle, axles.len());
    Ok(told(
        TWENTIETH_G.down(first.decel_g)?,
        format!("the {name} axle slides first, on a road of grip {GRIP}"),
        &FIRST_LOCK,
        inputs,
    ))
}

/// Deceleration of truck and trailer by the trailer's brakes alone, lever full on.
pub(crate) fn pull(rig: &Rig) -> Result<Found, Lacking> {
    let (pulled, inputs) = pulled(rig)?;
    Ok(told(
        TWENTIETH_G.nearest(pulled.decel_g)?,
        "reckoned from brake torque, tires and weights of the rig file".to_owned(),
        &PULL_STOP_TIME,
        inputs,
    ))
}

/// The longest time from a walking pace to a stand, lever full on, that still shows the brakes
/// this rig should have.
pub(crate) fn longest_pull(rig: &Rig) -> Result<Found, Lacking> {
    let (pulled, mut inputs) = pulled(rig)?;
    if pulled.decel_g < LEAST_PULL_G {
        return Err(Lacking::NoNumber(
            "this trailer is so light against its truck that a lever pull shows little; feel for \
             the tug, and lift each wheel and turn it by hand"
                .to_owned(),
        ));
    }
    for (what, value, from) in [
        (
            "time all brakes would take",
            format!("{:.1} s", pulled.time_s),
            "the formula",
        ),
        (
            "least part of their force to show",
            format!("{SHOWN}"),
            "common practice, no source",
        ),
        (
            "lever, magnets and thumb",
            format!("{TAKES_HOLD_S} s"),
            "from memory",
        ),
    ] {
        inputs.push(Input {
            what: what.to_owned(),
            value,
            from: from.to_owned(),
        });
    }
    Ok(told(
        Fineness::new(Second, (1, 10)).down(pulled.time_s / SHOWN + TAKES_HOLD_S)?,
        "by brake torque, tires and weights of the rig file; seven tenths of the force must show"
            .to_owned(),
        &PULL_STOP_TIME,
        inputs,
    ))
}

fn pulled(rig: &Rig) -> Result<(Pulled, Vec<Input>), Lacking> {
    brakes::braked(rig).next().ok_or(Lacking::Absent)?;
    let mut gather = Gather::new();
    let most: f64 = forces(&mut gather, rig).iter().sum();
    let weighed = rig.truck.weighed.as_ref();
    let front = weighed.map(|loads| &loads.front);
    let front = gather.number(
        "truck's front axle, uncoupled",
        "truck.weighed.front",
        front,
        Pound,
    );
    let rear = weighed.map(|loads| &loads.rear);
    let rear = gather.number(
        "truck's rear axle, uncoupled",
        "truck.weighed.rear",
        rear,
        Pound,
    );
    let gross = weights::gross(rig)?;
    let gross = gather.value("trailer as loaded", &gross.quantity, &gross.from, Pound);
    let mut inputs = gather.done()?;
    inputs.push(grip());
    let pulled = pull_stop_time(&LeverPull {
        speed_mph: PULL_MPH,
        time_s: None,
        decel_g: None,
        // The tires hold no more back than they grip, and they carry no more than the trailer.
        brake_force_lb: Some(most.min(GRIP * gross)),
        combined_lb: Some(front + rear + gross),
    })?;
    Ok((pulled, inputs))
}

/// Most brake force of each axle at the road, lb; nothing on an axle without brakes.
pub(super) fn forces(gather: &mut Gather, rig: &Rig) -> Vec<f64> {
    let axles = rig.trailer.axles.iter();
    axles.map(|axle| force(gather, axle)).collect()
}

fn force(gather: &mut Gather, axle: &Axle) -> f64 {
    let Some(brake) = &axle.brake else {
        return 0.0;
    };
    let torque = brake.torque.as_ref();
    let torque = gather.number(
        "torque of one brake",
        "trailer.axles.brake.torque",
        torque,
        FootPound,
    );
    let radius = axle.tire.radius.as_ref();
    let radius = gather.number("axle to ground", "trailer.axles.tire.radius", radius, Inch);
    let force = brake_force_from_torque(&WheelTorque {
        torque_per_wheel_lbft: torque,
        tire_radius_in: radius,
        wheels_per_axle: 2.0,
    });
    gather
        .reckoned(force)
        .map_or(1.0, |force| force.brake_force_per_axle_lb)
}

/// What brakes move from axle to axle: by the eyes of leaf springs, or by the arms of torsion axles
/// where their pivots are described.
pub(super) fn moved_by_brakes(
    gather: &mut Gather,
    rig: &Rig,
    trailer: &mut Trailer,
) -> Option<f64> {
    let axles = &rig.trailer.axles;
    if trailer.suspension == Springing::Equalized {
        if axles.len() > 1 {
            let equalizer = rig.trailer.equalizer.as_ref();
            let mut number =
                |what, field, given: Option<&Given>| Some(gather.number(what, field, given, Inch));
            let eyes = equalizer.map(|own| &own.eye_height);
            let field = "trailer.equalizer.eye-height";
            trailer.eye_height_in = number("spring eyes above ground", field, eyes);
            let half = equalizer.map(|own| &own.half_spring);
            let field = "trailer.equalizer.half-spring";
            trailer.half_spring_in = number("half of one leaf spring", field, half);
        }
        return None;
    }
    let described = axles.iter().map(|axle| match &axle.spring {
        Some(Spring::Arm {
            length,
            pivot_height: Some(pivot),
            ..
        }) => Some((length, pivot)),
        _ => None,
    });
    let described: Vec<_> = described.collect::<Option<_>>()?;
    let count = f64::from(u32::try_from(described.len()).unwrap_or(u32::MAX));
    let pivots = described.into_iter().map(|(length, pivot)| {
        let length = gather.number("its arm", "trailer.axles.spring.arm", Some(length), Inch);
        let field = "trailer.axles.spring.pivot-height";
        gather.number("its arm's pivot above ground", field, Some(pivot), Inch) / length
    });
    Some(pivots.sum::<f64>() / count)
}

/// The grip that is taken, for whoever asks why.
pub(super) fn grip() -> Input {
    Input {
        what: "grip of tire on road".to_owned(),
        value: GRIP.to_string(),
        from: "hard dry road with grit on it, from memory".to_owned(),
    }
}

pub(super) fn told(
    quantity: Quantity,
    from: String,
    page: &'static Page,
    inputs: Vec<Input>,
) -> Found {
    Found {
        quantity,
        from,
        by_maker: false,
        working: Some(Working { page, inputs }),
    }
}

#[cfg(test)]
mod tests {
    use crate::figures::{Figure, NotKnown};
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};

    fn juniper() -> Rig {
        Rig::read(JUNIPER).unwrap()
    }

    fn shown(figure: Figure) -> String {
        figure.of(&juniper(), None).unwrap().quantity.to_string()
    }

    /// Four brakes of 900 ft-lb on 13.6 in: 3,176 lb against 6,300 lb of truck and some 5,600 lb of
    /// trailer are 0.27 of gravity, and stop 5 mph in 0.86 s. Seven tenths of it takes 1.22 s.
    #[test]
    fn a_lever_pull_is_held_to_what_the_brakes_of_this_rig_can_do() {
        assert_eq!(shown(Figure::PullDeceleration), "0.25 g");
        assert_eq!(shown(Figure::PullStopTime), "1.7 s");
    }

    #[test]
    fn the_axle_that_slides_first_is_named_and_the_law_stands_beside_it() {
        let first = Figure::BrakesFirstLock.of(&juniper(), None).unwrap();
        assert_eq!(first.quantity.to_string(), "0.4 g");
        assert!(first.from.contains("axle slides first"), "{}", first.from);
        assert_eq!(shown(Figure::BrakesAsked), "14 ft/s2");
    }

    #[test]
    fn without_torque_or_tire_radius_it_is_told_what_to_look_up() {
        let mesquite = Rig::read(MESQUITE).unwrap();
        for figure in [Figure::PullStopTime, Figure::BreakawayGrade] {
            let lacks = figure.of(&mesquite, None).unwrap_err();
            let told = lacks.to_string();
            assert!(matches!(lacks, NotKnown::Undescribed(..)), "{told}");
            assert!(told.contains("trailer.axles.brake.torque"), "{told}");
            assert!(told.contains("trailer.axles.tire.radius"), "{told}");
        }
    }

    #[test]
    fn a_trailer_without_brakes_has_no_pull() {
        let mut rig = juniper();
        for axle in &mut rig.trailer.axles {
            axle.brake = None;
        }
        for figure in [
            Figure::BrakesFirstLock,
            Figure::BreakawayDeceleration,
            Figure::BreakawayGrade,
            Figure::PullDeceleration,
            Figure::PullStopTime,
        ] {
            let none = figure.of(&rig, None).unwrap_err();
            assert!(matches!(none, NotKnown::NotOnThisRig(_)), "{none}");
        }
    }

    #[test]
    fn brakes_on_one_axle_of_two_pull_half_as_hard_and_show_longer() {
        let mut rig = juniper();
        rig.trailer.axles[0].brake = None;
        let longest = Figure::PullStopTime.of(&rig, None).unwrap();
        assert_eq!(longest.quantity.to_string(), "2.9 s");
    }

    #[test]
    fn a_trailer_too_light_to_hold_its_truck_back_is_told_so() {
        let mut rig = juniper();
        rig.trailer.axles[0].brake = None;
        let brake = rig.trailer.axles[1].brake.as_mut().unwrap();
        let torque = brake.torque.as_mut().unwrap();
        torque.quantity = crate::units::Quantity::whole(90, crate::units::Unit::FootPound);
        let none = Figure::PullStopTime.of(&rig, None).unwrap_err();
        assert!(matches!(none, NotKnown::NoNumber(..)), "{none}");
    }
}
