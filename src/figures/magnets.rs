//! What reaches the brake magnets when the breakaway battery feeds them.
//!
//! The battery is taken as it is just before it would be noted as weak: at rest at three quarters
//! of its charge. Inside it keeps some volts back too; 0.03 ohm is that of a small sealed battery
//! in good order, from memory. A drum that the table of magnets does not have is reckoned by the
//! current its maker gives for one magnet, taken as that at 12 V.

use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Found, Input, Lacking, Working, battery, brakes};
use crate::mechanics::electrics::{
    AtMagnets, MAGNET_VOLTS, MagnetCircuit, magnet_ohm, magnet_volts,
};
use crate::rig::{Brake, BrakeWire, Rig};
use crate::units::Unit::{Ampere, Foot, Inch, Piece, Volt};
use std::cmp::Ordering;

/// Resistance inside a small sealed battery in good order, ohm.
const BATTERY_OHM: f64 = 0.03;

/// Volts at which makers of magnets give their current, from memory.
const MAKERS_V: f64 = 12.0;

/// Gauge named for a wire of no length.
const ANY_GAUGE: f64 = 12.0;

/// Volts at the magnets, down to a tenth.
pub(crate) fn volts(rig: &Rig) -> Result<Found, Lacking> {
    let (told, inputs) = through_the_wire(rig)?;
    let quantity = Fineness::new(Volt, (1, 10)).down(told.magnet_v)?;
    Ok(Found {
        quantity,
        from: "what the wire leaves of a breakaway battery at three quarters".to_owned(),
        by_maker: false,
        working: Some(Working {
            page: &MAGNET_VOLTS,
            inputs,
        }),
    })
}

/// Current of all magnets. One magnet differs from the next by some 5 %, so it is told to half an
/// ampere.
pub(crate) fn current_expected(rig: &Rig) -> Result<Found, Lacking> {
    let (told, inputs) = through_the_wire(rig)?;
    let quantity = Fineness::new(Ampere, (1, 2)).nearest(told.current_a)?;
    Ok(Found {
        quantity,
        from: "what a breakaway battery at three quarters drives through wire and magnets"
            .to_owned(),
        by_maker: false,
        working: Some(Working {
            page: &MAGNET_VOLTS,
            inputs,
        }),
    })
}

/// Current of all magnets, A, and where it comes from: the greater of what the volts drive through
/// them and of what their maker says. Where the wire is not described none is counted, which is on
/// the strict side.
pub(super) fn current_to_hold(rig: &Rig) -> Result<(f64, String), Lacking> {
    let wire = rig.hitch.plug.brake_wire.as_ref();
    let driven = fed_by_battery(rig, wire).map(|(told, _)| told.current_a);
    let says = brakes::current(rig).ok_or(Lacking::Absent)?;
    let mut gather = Gather::new();
    let said = gather.value("magnets", &says.quantity, &says.from, Ampere);
    match driven {
        Ok(driven) if driven > said => Ok((
            driven,
            "what the battery's volts drive through wire and magnets".to_owned(),
        )),
        _ => Ok((said, says.from)),
    }
}

fn through_the_wire(rig: &Rig) -> Result<(AtMagnets, Vec<Input>), Lacking> {
    let Some(wire) = rig.hitch.plug.brake_wire.as_ref() else {
        drums(rig)?;
        let mut gather = Gather::new();
        gather.lacks("gauge of the brake wire", "hitch.plug.brake-wire.gauge");
        gather.lacks("length of the brake wire", "hitch.plug.brake-wire.length");
        gather.done()?;
        return Err(Lacking::Absent);
    };
    fed_by_battery(rig, Some(wire))
}

fn fed_by_battery(rig: &Rig, wire: Option<&BrakeWire>) -> Result<(AtMagnets, Vec<Input>), Lacking> {
    let brake = drums(rig)?;
    let mut gather = Gather::new();
    let rest = battery::three_quarters(rig).ok_or(Lacking::Absent)?;
    let source_v = gather.value(
        "breakaway battery at rest",
        &rest.quantity,
        &rest.from,
        Volt,
    );
    let magnets = brakes::magnets(rig);
    gather.value("magnets", &magnets.quantity, &magnets.from, Piece);
    let drum_in = gather.number("drum", "trailer.axles.brake.drum", Some(&brake.drum), Inch);
    let by_maker = magnet_ohm(drum_in).is_none().then(|| {
        let field = "trailer.axles.brake.magnet-current";
        let current = Some(&brake.magnet_current);
        MAKERS_V / gather.number("current of one magnet at 12 V", field, current, Ampere)
    });
    let (gauge, one_way_ft) = match wire {
        None => (ANY_GAUGE, 0.0),
        Some(wire) => (
            gather.number(
                "gauge of the brake wire",
                "hitch.plug.brake-wire.gauge",
                Some(&wire.gauge),
                Piece,
            ),
            gather.number(
                "its length, one way",
                "hitch.plug.brake-wire.length",
                Some(&wire.length),
                Foot,
            ),
        ),
    };
    let mut inputs = gather.done()?;
    inputs.push(Input {
        what: "resistance inside the battery".to_owned(),
        value: format!("{BATTERY_OHM} ohm"),
        from: "small sealed battery in good order, from memory".to_owned(),
    });
    let told = magnet_volts(&MagnetCircuit {
        source_v,
        n_magnets: brakes::count(rig),
        drum_in,
        magnet_ohm: by_maker,
        one_way_ft,
        gauge,
        return_gauge: None,
        source_ohm: BATTERY_OHM,
    })?;
    Ok((told, inputs))
}

/// The brake of the first braked axle, when all are of one size.
fn drums(rig: &Rig) -> Result<&Brake, Lacking> {
    let mut braked = brakes::braked(rig);
    let first = braked.next().ok_or(Lacking::Absent)?;
    if braked
        .all(|other| first.drum.quantity.compare(&other.drum.quantity) == Some(Ordering::Equal))
    {
        Ok(first)
    } else {
        Err(Lacking::NoNumber(
            "the axles have drums of different sizes, and so different magnets; measure the \
             current of all together"
                .to_owned(),
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::{Figure, NotKnown};
    use crate::rig::demo::{JUNIPER, MESQUITE};

    fn shown(rig: &Rig, figure: Figure) -> String {
        figure.of(rig, None).unwrap().quantity.to_string()
    }

    /// Four 10 in magnets at 0.8375 ohm together, 60 ft of 12 gauge at 1.588 ohm to 1000 ft, and
    /// 0.03 ohm: 12.6 V drives 13.09 A and leaves 10.96 V.
    #[test]
    fn the_wire_keeps_part_of_the_volts_from_the_magnets() {
        let juniper = Rig::read(JUNIPER).unwrap();
        assert_eq!(shown(&juniper, Figure::MagnetVolts), "10.9 V");
        assert_eq!(shown(&juniper, Figure::MagnetCurrentExpected), "13 A");
        let found = Figure::MagnetVolts.of(&juniper, None).unwrap();
        let inputs = found.working.unwrap().inputs;
        assert!(
            inputs.iter().any(|input| input.value == "30 ft"),
            "{inputs:?}"
        );
    }

    #[test]
    fn a_rig_whose_wire_is_not_described_is_told_what_to_measure() {
        let mut juniper = Rig::read(JUNIPER).unwrap();
        juniper.hitch.plug.brake_wire = None;
        let lacks = Figure::MagnetVolts.of(&juniper, None).unwrap_err();
        assert!(
            matches!(&lacks, NotKnown::Undescribed(_, lacks) if lacks.len() == 2),
            "{lacks}"
        );
        let (strict, _) = current_to_hold(&juniper).unwrap();
        let (with_wire, _) = current_to_hold(&Rig::read(JUNIPER).unwrap()).unwrap();
        assert!(strict > with_wire);
    }

    #[test]
    fn a_drum_of_no_table_is_reckoned_by_its_makers_current() {
        let mesquite = Rig::read(MESQUITE).unwrap();
        let found = Figure::MagnetVolts.of(&mesquite, None).unwrap();
        let inputs = found.working.unwrap().inputs;
        assert!(
            inputs.iter().any(|input| input.what.ends_with("at 12 V")),
            "{inputs:?}"
        );
    }

    #[test]
    fn a_trailer_without_brakes_has_no_magnets_and_mixed_drums_have_no_number() {
        let mut juniper = Rig::read(JUNIPER).unwrap();
        let other = Rig::read(MESQUITE).unwrap().trailer.axles[0].brake.clone();
        assert_ne!(juniper.trailer.axles[0].brake, other);
        juniper.trailer.axles[0].brake = other;
        let mixed = Figure::MagnetVolts.of(&juniper, None).unwrap_err();
        assert!(matches!(mixed, NotKnown::NoNumber(..)), "{mixed}");
        for axle in &mut juniper.trailer.axles {
            axle.brake = None;
        }
        let none = Figure::MagnetVolts.of(&juniper, None).unwrap_err();
        assert!(matches!(none, NotKnown::NotOnThisRig(_)), "{none}");
    }
}
