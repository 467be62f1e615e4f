//! Wheels: the clamp behind the torque, and when the nuts are to be looked at again.

use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Fact, Found, Lacking, Today, Working};
use crate::mechanics::wheels::{
    CLAMP_FROM_TORQUE, NUT_FACTOR, RETORQUE_DUE, Tightened, WheelOff, clamp_from_torque,
    retorque_due,
};
use crate::rig::Axle;
use crate::units::Unit::{FootPound, Inch, Mile, PoundForce};

/// The clamp of one stud at the torque aimed at, dry. It scatters by some 30 %, so it is told to a
/// thousand pounds.
pub(crate) fn clamp(axle: &Axle) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let fit = &axle.fit;
    let torque_lbft = gather.number(
        "torque to aim at",
        "trailer.axles.fit.torque",
        Some(&fit.torque),
        FootPound,
    );
    let diameter_in = gather.number("stud", "trailer.axles.fit.stud", Some(&fit.stud), Inch);
    let inputs = gather.done()?;
    let clamp = clamp_from_torque(&Tightened {
        torque_lbft,
        diameter_in,
        k: NUT_FACTOR,
    })?;
    Ok(Found {
        quantity: Fineness::new(PoundForce, (1_000, 1)).nearest(clamp.clamp_lb)?,
        from: "torque to aim at, on clean dry threads".to_owned(),
        by_maker: false,
        working: Some(Working {
            page: &CLAMP_FROM_TORQUE,
            inputs,
        }),
    })
}

/// The odometer at which the nuts are next to be looked at, when they are set now.
pub(crate) fn recheck_at(today: &Today<'_>, axle: &Axle) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let wheel_off_at_mi = gather.number(
        "odometer when a wheel was last off",
        "trailer.axles.wheel-off-at",
        axle.wheel_off_at.as_ref(),
        Mile,
    );
    let odometer_mi = gather.fact(today, Fact::Odometer, Mile);
    let inputs = gather.done()?;
    let due = retorque_due(&WheelOff {
        wheel_off_at_mi,
        odometer_mi,
        last_recheck_at_mi: Some(odometer_mi),
    })?;
    let due_at = due.due_at_mi.ok_or_else(|| {
        Lacking::NoNumber(
            "the wheel was last off more than 50 miles ago, and no re-check by miles is left"
                .to_owned(),
        )
    })?;
    Ok(Found {
        quantity: Fineness::new(Mile, (1, 1)).down(due_at)?,
        from: "10, 25 and 50 miles after a wheel was off, by axle makers' manuals".to_owned(),
        by_maker: false,
        working: Some(Working {
            page: &RETORQUE_DUE,
            inputs,
        }),
    })
}

#[cfg(test)]
mod tests {
    use crate::figures::{Each, Fact, Facts, Figure, NotKnown, Today};
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::{Quantity, Unit};

    fn of(figure: Figure, rig: &Rig, facts: &Facts) -> Result<String, NotKnown> {
        let item = Each::TrailerWheel.items(rig).remove(0);
        let found = figure.of(Today { rig, facts }, Some(&item))?;
        Ok(found.quantity.to_string())
    }

    /// 105 ft-lb on a half-inch stud: 105 x 12 / (0.2 x 0.5) is 12,600 lb.
    #[test]
    fn a_stud_clamps_with_tons_at_its_torque() {
        let juniper = Rig::read(JUNIPER).unwrap();
        let clamp = of(Figure::WheelClamp, &juniper, &Facts::default());
        assert_eq!(clamp.unwrap(), "13000 lb");
    }

    #[test]
    fn the_next_re_check_is_the_next_mark_after_the_nuts_are_set_now() {
        let juniper = Rig::read(JUNIPER).unwrap();
        let at = |miles| {
            let read = Quantity::whole(miles, Unit::Mile);
            let facts = Facts::default().with(Fact::Odometer, read);
            of(Figure::WheelRecheckAt, &juniper, &facts)
        };
        for (now, due) in [
            (48_175, "48185 mi"),
            (48_185, "48200 mi"),
            (48_210, "48225 mi"),
        ] {
            assert_eq!(at(now).unwrap(), due, "{now}");
        }
        for beyond in [48_240, 48_000] {
            assert!(matches!(at(beyond), Err(NotKnown::NoNumber(..))));
        }
        let unread = of(Figure::WheelRecheckAt, &juniper, &Facts::default());
        assert!(matches!(unread, Err(NotKnown::Unread(_, Fact::Odometer))));
    }
}
