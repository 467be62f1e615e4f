//! What the truck's springs lift by themselves in a lift test.
//!
//! The jack first takes the tongue's weight off the truck, and the truck comes up by as much as
//! coupling had pressed it down, whether or not the coupler grips the ball. Only what rises above
//! that was lifted by the coupler. Horses are off the trailer then.

use crate::figures::bodies;
use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Found, Lacking, attitude};
use crate::mechanics::attitude::{SOLVE_STATIC, solve_static};
use crate::rig::Rig;

/// How far the ball comes up, no horse aboard, once nothing presses on it; up to a tenth.
pub(crate) fn by_springs(rig: &Rig) -> Result<Found, Lacking> {
    let mut without = rig.clone();
    without.load.retain(|item| item.stall.is_none());
    let mut gather = Gather::new();
    let bodies = bodies::coupled(&mut gather, &without);
    let inputs = gather.done()?;
    let drop = solve_static(&bodies)?.ball_drop_in;
    let quantity = Fineness::TENTH_INCH.up(drop.max(0.0))?;
    Ok(Found {
        from:
            "what coupling presses the truck down by, no horse aboard, reckoned from the rig file"
                .to_owned(),
        ..attitude::reckoned(quantity, &SOLVE_STATIC, inputs)
    })
}

#[cfg(test)]
mod tests {
    use crate::figures::Figure;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;

    /// With its horses aboard the ball comes down from 20.75 in, by tape, to 17.9 in; without them
    /// by less, and still by so much that an inch proves nothing.
    #[test]
    fn a_truck_comes_up_by_what_coupling_pressed_it_down_and_horses_would_press_it_further() {
        let juniper = Rig::read(JUNIPER).unwrap();
        let figure = |figure: Figure| figure.of(&juniper, None).unwrap().quantity.to_string();
        assert_eq!(figure(Figure::AttitudeBallHeight), "17.9 in");
        assert_eq!(figure(Figure::LiftBySprings), "2.5 in");
    }
}
