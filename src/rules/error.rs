//! How wrong an instrument may be at a reading.
//!
//! Dial gauges by the grades of ASME B40.100 (A 2-1-2 %, B 3-2-3 % of span at the first quarter,
//! the middle half and the last quarter; 1A 1 % over the whole scale), from memory. Torque
//! wrenches by a share of the reading, ±4 % above 10 N·m in ISO 6789-1:2017, from memory.
//!
//! Whatever its leaflet says, nothing is read finer than half its smallest mark: common practice,
//! no source. So a share of nothing is not taken for no error.

use crate::rig::{ErrorRule, GaugeGrade, Instrument, InstrumentKind};
use crate::units::{Exact, Quantity};

/// How wrong this instrument may be at this reading, in the reading's unit; nothing when its scale
/// does not measure such a reading, so that its error is not known.
pub(crate) fn error_at(instrument: &Instrument, reading: &Quantity) -> Option<Quantity> {
    let stated = stated(instrument, reading)?;
    if matches!(
        instrument.kind,
        InstrumentKind::Count | InstrumentKind::Plate
    ) {
        return Some(stated);
    }
    let mark = instrument.step.difference_in(reading.unit)?;
    let half = mark.times(&Exact::ratio(1, 2)?);
    Some(if stated.value < half.value {
        half
    } else {
        stated
    })
}

/// What its maker says of it.
fn stated(instrument: &Instrument, reading: &Quantity) -> Option<Quantity> {
    if instrument.step.dimension() != reading.dimension() {
        return None;
    }
    match &instrument.error {
        ErrorRule::Fixed(error) => error.difference_in(reading.unit),
        ErrorRule::OfReading(share) => Some(Quantity::new(
            &reading.value.magnitude() * share,
            reading.unit,
        )),
        ErrorRule::Grade(grade) => {
            let (low, high) = instrument.span.as_ref()?;
            let low = low.in_unit(reading.unit)?;
            let high = high.in_unit(reading.unit)?;
            let span = &high.value - &low.value;
            let share = share_of_span(*grade, &low.value, &span, &reading.value)?;
            Some(Quantity::new(&span * &share, reading.unit))
        }
    }
}

/// The share of span a graded gauge may be wrong by at this value. The ends of the middle half
/// belong to it.
fn share_of_span(grade: GaugeGrade, low: &Exact, span: &Exact, value: &Exact) -> Option<Exact> {
    let quarter = low + &(span * &Exact::ratio(1, 4)?);
    let three_quarters = low + &(span * &Exact::ratio(3, 4)?);
    let middle = quarter <= *value && *value <= three_quarters;
    let percent = match (grade, middle) {
        (GaugeGrade::A, true) | (GaugeGrade::OneA, _) => 1,
        (GaugeGrade::A, false) | (GaugeGrade::B, true) => 2,
        (GaugeGrade::B, false) => 3,
    };
    Exact::ratio(percent, 100)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::{Dimension, parse_quantity};

    fn error(instrument: &str, reading: &str, dimension: Dimension) -> Option<String> {
        let rig = Rig::read(JUNIPER).unwrap();
        let reading = parse_quantity(reading, dimension).unwrap();
        let error = error_at(rig.instrument(instrument).unwrap(), &reading)?;
        Some(error.to_string())
    }

    #[test]
    fn a_graded_gauge_is_finer_in_its_middle_half_whose_ends_belong_to_it() {
        for (reading, expected) in [
            ("24.9 psi", "3 psi"),
            ("25 psi", "2 psi"),
            ("75 psi", "2 psi"),
            ("75.1 psi", "3 psi"),
            ("4 bar", "0.137895 bar"),
        ] {
            let found = error("gauge-100", reading, Dimension::Pressure);
            assert_eq!(found.as_deref(), Some(expected), "{reading}");
        }
    }

    #[test]
    fn a_share_of_the_reading_grows_with_it() {
        for (reading, expected) in [("50 ft-lb", "2 ft-lb"), ("150 N·m", "6 N·m")] {
            let found = error("wrench-150", reading, Dimension::Torque);
            assert_eq!(found.as_deref(), Some(expected), "{reading}");
        }
    }

    #[test]
    fn nothing_is_read_finer_than_half_the_smallest_mark_but_what_is_counted() {
        for (instrument, reading, dimension, expected) in [
            ("multimeter", "0 V", Dimension::Voltage, "0.005 V"),
            ("multimeter", "0.4 V", Dimension::Voltage, "0.005 V"),
            ("multimeter", "12 V", Dimension::Voltage, "0.12 V"),
            ("wrench-250", "20 ft-lb", Dimension::Torque, "1 ft-lb"),
            ("count", "4", Dimension::Count, "0"),
        ] {
            let found = error(instrument, reading, dimension);
            assert_eq!(found.as_deref(), Some(expected), "{instrument} {reading}");
        }
    }

    #[test]
    fn an_error_in_degrees_is_a_difference_and_no_place_on_the_scale() {
        for (reading, expected) in [("90 F", "3 F"), ("-30 C", "1.666667 C")] {
            let found = error("thermometer", reading, Dimension::Temperature);
            assert_eq!(found.as_deref(), Some(expected), "{reading}");
        }
    }

    #[test]
    fn the_error_of_a_reading_on_another_scale_is_not_known() {
        assert_eq!(error("gauge-100", "65 ft-lb", Dimension::Torque), None);
        assert_eq!(error("multimeter", "12 A", Dimension::Current), None);
    }
}
