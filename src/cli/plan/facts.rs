//! What was read today, as typed behind flags.

use crate::cli::args::FactArgs;
use crate::cli::plan::NotMeant;
use crate::figures::{Fact, Facts};
use crate::units::{Quantity, parse_quantity};

/// What was read today, as typed behind the flags.
pub(super) fn today(typed: &FactArgs) -> Result<Facts, NotMeant> {
    let flags = [
        (Fact::AirTemperature, "--air", &typed.air),
        (Fact::Odometer, "--odometer", &typed.odometer),
        (
            Fact::TrailerWeight,
            "--trailer-weight",
            &typed.trailer_weight,
        ),
        (Fact::TongueWeight, "--tongue-weight", &typed.tongue_weight),
    ];
    let mut facts = Facts::default();
    for (fact, flag, text) in flags {
        if let Some(text) = text {
            let read = parse_quantity(text, fact.dimension())
                .map_err(|not| NotMeant::NoFact(flag, not))?;
            facts = facts.with(fact, read);
        }
    }
    Ok(facts)
}

/// The truck's odometer, as typed.
pub(super) fn odometer(typed: &str) -> Result<Quantity, NotMeant> {
    let read = parse_quantity(typed, Fact::Odometer.dimension());
    read.map_err(|not| NotMeant::NoFact("--odometer", not))
}
