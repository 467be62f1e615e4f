//! # What a scale or thermometer showed today
//!
//! A ticket beats a sum of parts. It may be wrong by its scale's own error, so what is drawn from
//! it is drawn from the strict end of that: a tongue is held to a share of the most, or of the
//! least, that the trailer may weigh by its ticket.
//!
//! | share | what for | source |
//! |---|---|---|
//! | 10 % | least tongue weight of a bumper pull | truck makers' manuals, read in a copy |
//! | 15 % | most tongue weight of a bumper pull | common practice, no source |

use crate::figures::{Fact, Found, Lacking, Today};
use crate::units::{Exact, Quantity};

const LEAST_PERCENT: i128 = 10;
const MOST_PERCENT: i128 = 15;

/// The weight of the trailer with its load.
pub(crate) fn trailer(today: &Today<'_>) -> Result<Found, Lacking> {
    let read = today.facts.get(Fact::TrailerWeight).ok_or(UNREAD)?;
    Ok(found(read.clone(), "read today".to_owned()))
}

/// The least tongue weight for the most this trailer may weigh by its ticket.
pub(crate) fn tongue_least(today: &Today<'_>) -> Result<Found, Lacking> {
    share(today.facts.most(Fact::TrailerWeight), LEAST_PERCENT, "most")
}

/// The most tongue weight for the least this trailer may weigh by its ticket.
pub(crate) fn tongue_most(today: &Today<'_>) -> Result<Found, Lacking> {
    share(
        today.facts.least(Fact::TrailerWeight),
        MOST_PERCENT,
        "least",
    )
}

/// The air's temperature.
pub(crate) fn air(today: &Today<'_>) -> Result<Found, Lacking> {
    let read = today.facts.get(Fact::AirTemperature);
    let read = read.ok_or(Lacking::Unread(Fact::AirTemperature))?;
    Ok(found(read.clone(), "read today".to_owned()))
}

const UNREAD: Lacking = Lacking::Unread(Fact::TrailerWeight);

fn share(of: Option<&Quantity>, percent: i128, end: &str) -> Result<Found, Lacking> {
    let of = of.ok_or(UNREAD)?;
    let share = Exact::ratio(percent, 100).ok_or(Lacking::Absent)?;
    let from = format!("{percent} % of {of}, the {end} the trailer weighs by its ticket of today");
    Ok(found(of.times(&share), from))
}

fn found(quantity: Quantity, from: String) -> Found {
    Found {
        quantity,
        from,
        by_maker: false,
        working: None,
    }
}

#[cfg(test)]
mod tests {
    use crate::figures::{Fact, Facts, Figure, Today};
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::{Quantity, Unit};

    /// 5,600 lb by a ticket wrong by up to 40 lb: 10 % of 5,640 lb and 15 % of 5,560 lb.
    #[test]
    fn a_tongue_is_held_to_the_strict_end_of_what_the_trailer_may_weigh() {
        let pounds = |value| Quantity::whole(value, Unit::Pound);
        let facts = &Facts::default().between(
            Fact::TrailerWeight,
            pounds(5_600),
            pounds(5_560),
            pounds(5_640),
        );
        let rig = &Rig::read(JUNIPER).unwrap();
        let of = |figure: Figure| figure.of(Today { rig, facts }, None).unwrap().quantity;
        assert_eq!(of(Figure::TongueLeast), pounds(564));
        assert_eq!(of(Figure::TongueMost), pounds(834));
    }
}
