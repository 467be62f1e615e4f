//! A rig file's truck and trailer as bodies on springs, for the formulas of attitude and braking.
//!
//! Only what the file says goes in: where a rate or a place is missing, it is told by its path and
//! nothing is reckoned.

use crate::figures::gather::{Gather, amount};
use crate::figures::weights::load_weight;
use crate::mechanics::attitude::{StaticRig, TorsionAxle, in_series, torsion_axle_rates};
use crate::mechanics::{Axle, Item, NoNumber, Springing, Trailer, Truck};
use crate::rig::{self, Given, Joint, Position, Rig, Spring, Suspension};
use crate::units::Unit::{Degree, FootPound, Inch, Pound, PoundPerInch};

/// Truck and trailer coupled, with spring bars where the rig has any.
pub(crate) fn coupled(gather: &mut Gather, rig: &Rig) -> StaticRig {
    let truck = truck(gather, rig);
    let trailer = trailer(gather, rig);
    StaticRig {
        truck,
        trailer,
        wd_moment_lbft: couple(gather, rig),
    }
}

/// The couple of the spring bars, lb ft; nothing without them.
pub(crate) fn couple(gather: &mut Gather, rig: &Rig) -> f64 {
    rig.hitch.spring_bars.as_ref().map_or(0.0, |bars| {
        let field = "hitch.spring-bars.couple";
        gather.number("spring bars", field, Some(&bars.couple), FootPound)
    })
}

/// The truck before coupling. Its scale ticket has the people in, so nothing is added to it.
pub(crate) fn truck(gather: &mut Gather, rig: &Rig) -> Truck {
    let truck = &rig.truck;
    let mut given =
        |what, field, given: Option<&Given>, unit| gather.number(what, field, given, unit);
    let weighed = truck.weighed.as_ref();
    let front = weighed.map(|loads| &loads.front);
    let front_lb = given(
        "truck's front axle, uncoupled",
        "truck.weighed.front",
        front,
        Pound,
    );
    let rear = weighed.map(|loads| &loads.rear);
    let rear_lb = given(
        "truck's rear axle, uncoupled",
        "truck.weighed.rear",
        rear,
        Pound,
    );
    let springs = truck.springs.as_ref();
    let front = springs.map(|rates| &rates.front);
    let front_rate = given(
        "rate of its front axle",
        "truck.springs.front",
        front,
        PoundPerInch,
    );
    let rear = springs.map(|rates| &rates.rear);
    let rear_rate = given(
        "rate of its rear axle",
        "truck.springs.rear",
        rear,
        PoundPerInch,
    );
    let base = given("wheelbase", "truck.wheelbase", Some(&truck.wheelbase), Inch);
    let reach = Some(&truck.ball_behind_rear_axle);
    let reach = given(
        "ball behind rear axle",
        "truck.ball-behind-rear-axle",
        reach,
        Inch,
    );
    let (platform, rise) = match &rig.hitch.joint {
        Joint::BumperPull {
            receiver, drawbar, ..
        } => {
            let field = "hitch.joint.bumper-pull.receiver.height";
            let height = given("receiver above ground", field, Some(&receiver.height), Inch);
            let field = "hitch.joint.bumper-pull.drawbar.rise";
            (
                height,
                given("rise of the drawbar", field, Some(&drawbar.rise), Inch),
            )
        }
        Joint::Gooseneck { bed_height, .. } => {
            let field = "hitch.joint.gooseneck.bed-height";
            (
                given("bed above ground", field, Some(bed_height), Inch),
                0.0,
            )
        }
    };
    let ball = Some(&rig.hitch.ball.height);
    let ball = given("ball above its platform", "hitch.ball.height", ball, Inch);
    Truck {
        name: String::new(),
        wheelbase_in: base,
        front_lb,
        rear_lb,
        front_rate_lb_in: front_rate,
        rear_rate_lb_in: rear_rate,
        ball_behind_rear_axle_in: reach,
        ball_height_in: platform + ball,
        drawbar_rise_in: rise,
        payload: Vec::new(),
        cg_height_in: None,
    }
}

/// The trailer with its load.
pub(crate) fn trailer(gather: &mut Gather, rig: &Rig) -> Trailer {
    let trailer = &rig.trailer;
    let suspension = gather
        .reckoned(springing(trailer))
        .unwrap_or(Springing::Torsion);
    let height = Some(&trailer.level_coupler_height);
    let height = gather.number(
        "coupler, frame level",
        "trailer.level-coupler-height",
        height,
        Inch,
    );
    let level = trailer.level_axle_load.as_ref();
    let level = gather.number(
        "load of each axle then",
        "trailer.level-axle-load",
        level,
        Pound,
    );
    let axles = trailer.axles.iter().map(|own| axle(gather, own)).collect();
    let travel = trailer
        .equalizer
        .as_ref()
        .and_then(|own| own.travel.as_ref());
    let travel = travel.map(|travel| {
        let field = "trailer.equalizer.travel";
        gather.number("travel of the equalizer", field, Some(travel), Inch)
    });
    Trailer {
        name: String::new(),
        suspension,
        level_coupler_height_in: height,
        ref_axle_load_lb: level,
        axles,
        items: items(gather, rig),
        equalizer_travel_in: travel,
        eye_height_in: None,
        half_spring_in: None,
        pivot_over_arm: None,
    }
}

/// The empty trailer and everything in it, with their places.
pub(crate) fn items(gather: &mut Gather, rig: &Rig) -> Vec<Item> {
    let mut items = Vec::with_capacity(rig.load.len() + 1);
    let empty = &rig.trailer.empty;
    match &rig.trailer.empty_middle {
        Some(middle) => items.push(item(gather, "empty trailer", empty, middle)),
        None => gather.lacks(
            "where the empty trailer's weight lies",
            "trailer.empty-middle",
        ),
    }
    for load in &rig.load {
        let Some(weight) = gather.reckoned(load_weight(load)) else {
            continue;
        };
        items.push(item(gather, &load.name, &weight, &load.at));
    }
    items
}

fn item(gather: &mut Gather, what: &str, weight: &Given, at: &Position) -> Item {
    let from = weight.source.told();
    let shown = format!(
        "{} at {} behind the ball",
        weight.quantity, at.behind.quantity
    );
    gather.note(what, shown, &from);
    Item {
        weight_lb: amount(&weight.quantity, Pound),
        x_in: amount(&at.behind.quantity, Inch),
        z_in: amount(&at.above.quantity, Inch),
        y_in: amount(&at.right.quantity, Inch),
    }
}

fn axle(gather: &mut Gather, axle: &rig::Axle) -> Axle {
    let place = Some(&axle.behind_ball);
    let place = gather.number("axle behind ball", "trailer.axles.behind-ball", place, Inch);
    let own = own_rate(gather, axle);
    let tire = axle.tire.spring_rate.as_ref();
    let tire = gather.number(
        "rate of a tire",
        "trailer.axles.tire.spring-rate",
        tire,
        PoundPerInch,
    );
    let together = gather.reckoned(in_series(own, tire)).unwrap_or(1.0);
    Axle {
        x_in: place,
        rate_lb_in: together,
        mount_offset_in: 0.0,
    }
}

/// The rate of an axle without its tires: as its maker says, or by the arms of a torsion axle.
fn own_rate(gather: &mut Gather, axle: &rig::Axle) -> f64 {
    match &axle.spring {
        None => {
            gather.lacks(
                "how far an axle of the trailer gives",
                "trailer.axles.spring",
            );
            1.0
        }
        Some(Spring::Rate(rate)) => {
            let field = "trailer.axles.spring.rate";
            gather.number("rate of the axle", field, Some(rate), PoundPerInch)
        }
        Some(Spring::Arm {
            length,
            start_angle,
            ..
        }) => {
            let arm = Some(length);
            let arm = gather.number("its arm", "trailer.axles.spring.arm", arm, Inch);
            let angle = Some(start_angle);
            let field = "trailer.axles.spring.start-angle";
            let angle = gather.number("its arm below level, unloaded", field, angle, Degree);
            let rating = Some(&axle.gawr);
            let rating = gather.number("its rating", "trailer.axles.gawr", rating, Pound);
            let rates = torsion_axle_rates(&TorsionAxle::of_usual_twist(arm, angle, rating));
            gather
                .reckoned(rates)
                .map_or(1.0, |rates| rates.secant_rate_lb_in)
        }
    }
}

fn springing(trailer: &rig::Trailer) -> Result<Springing, NoNumber> {
    let leaf = |axle: &rig::Axle| axle.suspension == Suspension::EqualizedLeaf;
    if trailer.axles.iter().all(leaf) {
        return Ok(Springing::Equalized);
    }
    if trailer.axles.iter().any(leaf) {
        return Err(NoNumber::because(
            "one axle stands on leaf springs and another on torsion arms; no formula here knows \
             how those share a load, and a scale under each axle does",
        ));
    }
    Ok(Springing::Torsion)
}
