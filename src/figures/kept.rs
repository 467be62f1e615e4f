//! What is kept with the rig to measure with: a step that wants a rare instrument asks first
//! whether it is there.

use crate::figures::Found;
use crate::figures::brakes;
use crate::figures::figure::counted;
use crate::rig::{InstrumentKind, Rig};

/// How many instruments of a kind are kept with the rig.
pub(crate) fn instruments(rig: &Rig, kind: InstrumentKind) -> Found {
    let name = kind.word().replace('-', " ");
    let from = format!("{name}s among the instruments in the rig file");
    counted(of_kind(rig, kind), &from)
}

/// How many brake magnets the clamp meters kept with the rig can read the current of.
pub(crate) fn metered_magnets(rig: &Rig) -> Found {
    if of_kind(rig, InstrumentKind::ClampMeter) == 0 {
        return counted(0, "no clamp meter among the instruments in the rig file");
    }
    brakes::magnets(rig)
}

fn of_kind(rig: &Rig, kind: InstrumentKind) -> usize {
    let kept = rig.instruments.iter();
    kept.filter(|instrument| instrument.kind == kind).count()
}

#[cfg(test)]
mod tests {
    use crate::figures::Figure;
    use crate::rig::demo::JUNIPER;
    use crate::rig::{InstrumentKind, Rig};

    #[test]
    fn magnets_are_metered_only_where_a_clamp_meter_is_kept() {
        let mut juniper = Rig::read(JUNIPER).unwrap();
        let count = |rig: &Rig| {
            let found = Figure::MagnetsMetered.of(rig, None).unwrap();
            found.quantity.to_string()
        };
        assert_eq!(count(&juniper), "4");
        juniper
            .instruments
            .retain(|one| one.kind != InstrumentKind::ClampMeter);
        assert_eq!(count(&juniper), "0");
    }

    #[test]
    fn a_step_can_ask_whether_a_rare_instrument_is_kept_with_the_rig() {
        let mut juniper = Rig::read(JUNIPER).unwrap();
        let rare = [
            Figure::DialIndicatorCount,
            Figure::HygrometerCount,
            Figure::ThermometerCount,
            Figure::TreadGaugeCount,
        ];
        let counts =
            |rig: &Rig| rare.map(|figure| figure.of(rig, None).unwrap().quantity.to_string());
        assert_eq!(counts(&juniper), ["1", "1", "2", "1"]);
        juniper.instruments.clear();
        assert_eq!(counts(&juniper), ["0"; 4]);
    }
}
