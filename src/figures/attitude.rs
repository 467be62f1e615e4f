//! How truck and trailer stand, and what each axle and tire carries of it.

use crate::figures::bodies;
use crate::figures::fineness::Fineness;
use crate::figures::gather::{Gather, amount};
use crate::figures::{Found, Input, Item, Lacking, Working, weights};
use crate::mechanics::Page;
use crate::mechanics::attitude::{
    BALL_HEIGHT_SENSITIVITY, BallHeight, LATERAL_TIRE_LOADS, LEVEL_DRAWBAR, Lean, SOLVE_STATIC,
    StaticSolution, ball_height_sensitivity, lateral_tire_loads, solve_static,
};
use crate::mechanics::load::{MassItems, mass_properties};
use crate::rig::{HitchKind, Rig};
use crate::units::{Quantity, Unit};

/// Truck and trailer at rest, and what that rests on.
struct AtRest {
    solution: StaticSolution,
    inputs: Vec<Input>,
}

fn at_rest(rig: &Rig) -> Result<AtRest, Lacking> {
    let mut gather = Gather::new();
    let bodies = bodies::coupled(&mut gather, rig);
    let inputs = gather.done()?;
    Ok(AtRest {
        solution: solve_static(&bodies)?,
        inputs,
    })
}

/// A figure that a formula made of the rig file, as the rig is loaded there.
pub(super) fn reckoned(quantity: Quantity, page: &'static Page, inputs: Vec<Input>) -> Found {
    Found {
        quantity,
        from: "reckoned from the rig file, loaded as it says".to_owned(),
        by_maker: false,
        working: Some(Working { page, inputs }),
    }
}

fn of(rig: &Rig, known: Fineness, part: fn(&StaticSolution) -> f64) -> Result<Found, Lacking> {
    let AtRest { solution, inputs } = at_rest(rig)?;
    let quantity = known.nearest(part(&solution))?;
    Ok(reckoned(quantity, &SOLVE_STATIC, inputs))
}

/// Height of the ball coupled.
pub(crate) fn ball_height(rig: &Rig) -> Result<Found, Lacking> {
    of(rig, Fineness::TENTH_INCH, |rests| {
        rests.ball_height_coupled_in
    })
}

/// Pitch of the trailer, nose up.
pub(crate) fn pitch(rig: &Rig) -> Result<Found, Lacking> {
    of(rig, Fineness::TENTH_DEGREE, |rests| rests.trailer_pitch_deg)
}

/// The same in radians, as it comes out of the sum.
pub(super) fn pitch_rad(rig: &Rig) -> Result<f64, Lacking> {
    Ok(at_rest(rig)?.solution.trailer_pitch_deg.to_radians())
}

/// Height of the ball at which the trailer is level.
pub(crate) fn ball_height_level(rig: &Rig) -> Result<Found, Lacking> {
    for_level(rig, |rests| rests.ball_height_for_level_in)
}

/// How far the drawbar must rise, or drop where negative, for a level trailer.
pub(crate) fn drawbar_change(rig: &Rig) -> Result<Found, Lacking> {
    match rig.kind() {
        HitchKind::BumperPull => for_level(rig, |rests| rests.drawbar_change_for_level_in),
        HitchKind::Gooseneck => Err(Lacking::Absent),
    }
}

fn for_level(rig: &Rig, part: fn(&StaticSolution) -> Option<f64>) -> Result<Found, Lacking> {
    let AtRest { solution, inputs } = at_rest(rig)?;
    let height = part(&solution).ok_or_else(|| {
        Lacking::NoNumber("no height of the ball makes this trailer level".to_owned())
    })?;
    let quantity = Fineness::TENTH_INCH.nearest(height)?;
    Ok(reckoned(quantity, &LEVEL_DRAWBAR, inputs))
}

/// Weight on the ball.
pub(crate) fn tongue_weight(rig: &Rig) -> Result<Found, Lacking> {
    of(rig, Fineness::TEN_POUNDS, |rests| rests.tongue_lb)
}

/// Weight on the ball as a share of the trailer's.
pub(crate) fn tongue_share(rig: &Rig) -> Result<Found, Lacking> {
    of(rig, Fineness::HALF_PERCENT, |rests| {
        rests.tongue_pct_of_gross
    })
}

/// Load of the truck's front axle, coupled.
pub(crate) fn truck_front(rig: &Rig) -> Result<Found, Lacking> {
    of(rig, Fineness::TEN_POUNDS, |rests| rests.truck_front_lb)
}

/// Load of the truck's rear axle, coupled.
pub(crate) fn truck_rear(rig: &Rig) -> Result<Found, Lacking> {
    of(rig, Fineness::TEN_POUNDS, |rests| rests.truck_rear_lb)
}

fn both_axles(rests: &StaticSolution) -> f64 {
    rests.truck_front_lb + rests.truck_rear_lb
}

/// What the truck weighs, coupled.
pub(crate) fn truck_gross(rig: &Rig) -> Result<Found, Lacking> {
    of(rig, Fineness::TEN_POUNDS, both_axles)
}

/// What the truck may still take on, coupled: its rating less what it weighs then.
pub(crate) fn payload_left(rig: &Rig) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let most = Some(&rig.truck.gvwr);
    let most = gather.number("most the truck may weigh", "truck.gvwr", most, Unit::Pound);
    let bodies = bodies::coupled(&mut gather, rig);
    let inputs = gather.done()?;
    let left = most - both_axles(&solve_static(&bodies)?);
    let quantity = Fineness::TEN_POUNDS.down(left)?;
    Ok(reckoned(quantity, &SOLVE_STATIC, inputs))
}

/// What coupling takes off the truck's front axle, as a share of what was on it.
pub(crate) fn front_share_lost(rig: &Rig) -> Result<Found, Lacking> {
    let AtRest { solution, inputs } = at_rest(rig)?;
    let share = solution.front_unloading_pct.ok_or_else(|| {
        Lacking::NoNumber("the front axle carries nothing before coupling".to_owned())
    })?;
    let quantity = Fineness::HALF_PERCENT.nearest(share)?;
    Ok(reckoned(quantity, &SOLVE_STATIC, inputs))
}

/// What truck and trailer weigh together. However the load lies, the sum is the same.
pub(crate) fn combined_gross(rig: &Rig) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let weighed = rig.truck.weighed.as_ref();
    if weighed.is_none() {
        gather.lacks("what the truck weighs", "truck.weighed");
    }
    let trailer = weights::gross(rig)?.quantity;
    gather.done()?;
    let sum = weighed.and_then(|truck| {
        let truck = truck.front.quantity.plus(&truck.rear.quantity)?;
        truck.plus(&trailer)
    });
    let sum = sum.ok_or(Lacking::Absent)?;
    Ok(Found {
        quantity: Fineness::TEN_POUNDS.up(amount(&sum, Unit::Pound))?,
        from: "truck on its scale ticket and trailer as loaded, summed from the rig file"
            .to_owned(),
        by_maker: false,
        working: None,
    })
}

/// Load of one trailer axle.
pub(crate) fn axle_load(rig: &Rig, axle: usize) -> Result<Found, Lacking> {
    let AtRest { solution, inputs } = at_rest(rig)?;
    let load = solution.axle_lb.get(axle).ok_or(Lacking::Absent)?;
    let quantity = Fineness::TEN_POUNDS.nearest(*load)?;
    Ok(reckoned(quantity, &SOLVE_STATIC, inputs))
}

/// Load of one trailer tire, with what moves across to its side.
pub(crate) fn tire_load(rig: &Rig, wheel: &Item) -> Result<Found, Lacking> {
    let own = rig.trailer.axles.get(wheel.index).ok_or(Lacking::Absent)?;
    let mut gather = Gather::new();
    let bodies = bodies::coupled(&mut gather, rig);
    let track = gather.number("track", "trailer.axles.track", Some(&own.track), Unit::Inch);
    let inputs = gather.done()?;
    let solution = solve_static(&bodies)?;
    let mass = mass_properties(&MassItems {
        items: bodies.trailer.items,
    })?;
    let tires = lateral_tire_loads(&Lean {
        axle_lb: solution.axle_lb,
        trailer_gross_lb: mass.weight_lb,
        y_cg_in: mass.y_cg_in,
        track_in: track,
    })?;
    let side = if wheel.id.starts_with("left") {
        tires.left_tire_lb
    } else {
        tires.right_tire_lb
    };
    let load = side.get(wheel.index).ok_or(Lacking::Absent)?;
    let quantity = Fineness::TEN_POUNDS.nearest(*load)?;
    Ok(reckoned(quantity, &LATERAL_TIRE_LOADS, inputs))
}

/// How one axle's load changes with an inch of ball height.
pub(crate) fn load_per_inch(rig: &Rig, axle: usize) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let trailer = bodies::trailer(&mut gather, rig);
    let inputs = gather.done()?;
    let found = ball_height_sensitivity(&BallHeight {
        trailer,
        truck: None,
    })?;
    let change = found.daxle_per_ball_in_lb.get(axle);
    let change = change.ok_or(Lacking::Absent)?;
    let quantity = Fineness::TEN_POUNDS_AN_INCH.nearest(*change)?;
    Ok(reckoned(quantity, &BALL_HEIGHT_SENSITIVITY, inputs))
}

#[cfg(test)]
mod tests {
    use crate::figures::{Each, Figure, NotKnown};
    use crate::rig::demo::{JUNIPER, MESQUITE};
    use crate::rig::{Given, Rig};
    use crate::units::{Dimension, Quantity, parse_quantity};
    use std::cmp::Ordering;

    fn rig(text: &str) -> Rig {
        Rig::read(text).unwrap()
    }

    fn shown(rig: &Rig, figure: Figure) -> String {
        figure.of(rig, None).unwrap().quantity.to_string()
    }

    fn each(rig: &Rig, figure: Figure, each: Each) -> Vec<Quantity> {
        let items = each.items(rig);
        let found = items.iter().map(|item| figure.of(rig, Some(item)));
        found.map(|found| found.unwrap().quantity).collect()
    }

    fn set(given: &mut Given, text: &str, dimension: Dimension) {
        given.quantity = parse_quantity(text, dimension).unwrap();
    }

    /// Reckoned once by hand from the file: 5,667 lb balance at 144.6 in, the axles' mean is
    /// 166.5 in, so near level they carry 4,920 lb and the ball some 750 lb.
    #[test]
    fn the_bumper_pull_stands_a_little_nose_high_and_takes_load_off_the_steering_axle() {
        let juniper = rig(JUNIPER);
        assert_eq!(shown(&juniper, Figure::TongueWeight), "760 lb");
        assert_eq!(shown(&juniper, Figure::TongueShare), "13.5 %");
        assert_eq!(shown(&juniper, Figure::AttitudePitch), "0.3 deg");
        assert_eq!(shown(&juniper, Figure::AttitudeDrawbarChange), "-0.9 in");
        assert_eq!(shown(&juniper, Figure::TruckFrontShareLost), "7.5 %");
        assert_eq!(shown(&juniper, Figure::CombinedGross), "11970 lb");
    }

    /// Nothing is shown finer than ten pounds, so five numbers may be off by five each.
    #[test]
    fn axles_ball_and_truck_together_carry_what_truck_and_trailer_weigh() {
        for text in [JUNIPER, MESQUITE] {
            let rig = rig(text);
            let sum = each(&rig, Figure::AxleLoad, Each::TrailerAxle)
                .into_iter()
                .chain(
                    [Figure::TruckFrontLoad, Figure::TruckRearLoad]
                        .map(|figure| figure.of(&rig, None).unwrap().quantity),
                )
                .reduce(|sum, next| sum.plus(&next).unwrap())
                .unwrap();
            let whole = Figure::CombinedGross.of(&rig, None).unwrap().quantity;
            let apart = whole.minus(&sum).unwrap().value.to_f64().unwrap();
            assert!(apart.abs() <= 30.0, "{}: {apart} lb apart", rig.id);
        }
    }

    #[test]
    fn a_gooseneck_ball_ahead_of_the_rear_axle_loads_the_steering_axle_and_has_no_drawbar() {
        let mesquite = rig(MESQUITE);
        assert_eq!(shown(&mesquite, Figure::TruckFrontShareLost), "-1 %");
        assert_eq!(
            Figure::AttitudeDrawbarChange.of(&mesquite, None),
            Err(NotKnown::NotOnThisRig(Figure::AttitudeDrawbarChange))
        );
    }

    #[test]
    fn the_heavier_horse_leans_on_the_tires_of_its_side() {
        let mut juniper = rig(JUNIPER);
        set(
            juniper.load[0].weight.as_mut().unwrap(),
            "1500 lb",
            Dimension::Mass,
        );
        let tires = each(&juniper, Figure::TireLoad, Each::TrailerWheel);
        let [left_front, _, _, right_front] = &tires[..] else {
            panic!("{tires:?}");
        };
        assert_eq!(left_front.compare(right_front), Some(Ordering::Greater));
        let lefts = tires[0].plus(&tires[1]).unwrap();
        let both = tires[2].plus(&tires[3]).unwrap().plus(&lefts).unwrap();
        let axles = each(&juniper, Figure::AxleLoad, Each::TrailerAxle);
        let apart = axles[0].plus(&axles[1]).unwrap().minus(&both).unwrap();
        assert!(apart.value.to_f64().unwrap().abs() <= 30.0, "{apart}");
    }

    #[test]
    fn what_the_file_lacks_is_told_all_at_once_and_each_thing_once() {
        let mut juniper = rig(JUNIPER);
        juniper.truck.springs = None;
        juniper.trailer.empty_middle = None;
        for axle in &mut juniper.trailer.axles {
            axle.spring = None;
        }
        let Err(NotKnown::Undescribed(_, lacks)) = Figure::TongueWeight.of(&juniper, None) else {
            panic!("a number without springs");
        };
        let fields: Vec<&str> = lacks.iter().map(|lack| lack.field).collect();
        assert_eq!(
            fields,
            [
                "truck.springs.front",
                "truck.springs.rear",
                "trailer.axles.spring",
                "trailer.empty-middle"
            ]
        );
    }

    #[test]
    fn what_it_rests_on_is_kept_with_where_each_value_was_read() {
        let found = Figure::TongueWeight.of(&rig(JUNIPER), None).unwrap();
        let working = found.working.unwrap();
        assert_eq!(working.page.name, "solve_static");
        let bramble = working
            .inputs
            .iter()
            .find(|one| one.what.starts_with("Bramble"));
        let bramble = bramble.unwrap();
        assert_eq!(bramble.value, "1100 lb at 158 in behind the ball");
        assert_eq!(bramble.from, "scale, vet clinic, spring");
    }

    /// Leaf springs and torsion arms under one trailer are beyond the formulas.
    #[test]
    fn axles_sprung_in_two_ways_get_no_number() {
        let mut juniper = rig(JUNIPER);
        juniper.trailer.axles[0].suspension = crate::rig::Suspension::EqualizedLeaf;
        let refused = Figure::TongueWeight.of(&juniper, None).unwrap_err();
        assert!(
            refused
                .to_string()
                .contains("one axle stands on leaf springs")
        );
    }
}
