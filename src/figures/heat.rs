//! # The humidity at which it is too hot for horses
//!
//! The heat sum turned round: the air is read first, and what humidity brings the sum to a bound is
//! then known exactly. In air so cold or so hot that no humidity, or any, brings it there, the
//! figure lies above 100 % or at 0 %.

use crate::figures::{Fact, Found, Input, Lacking, Today, Working};
use crate::mechanics::horse::HEAT_SUM;
use crate::units::{Exact, Quantity, Unit};

/// The humidity at which the air read today and it come to this sum.
pub(crate) fn humidity_at(today: &Today<'_>, sum: i16) -> Result<Found, Lacking> {
    let air = today.facts.get(Fact::AirTemperature);
    let air = air.ok_or(Lacking::Unread(Fact::AirTemperature))?;
    let degrees = air.in_unit(Unit::Fahrenheit).ok_or(Lacking::Absent)?;
    let left = &Exact::whole(i64::from(sum)) - &degrees.value;
    let humidity = if left.is_negative() {
        Exact::zero()
    } else {
        left
    };
    let input = |what: &str, value: String, from: &str| Input {
        what: what.to_owned(),
        value,
        from: from.to_owned(),
    };
    Ok(Found {
        quantity: Quantity::new(humidity, Unit::Percent),
        from: format!("a heat sum of {sum}, less the air read today, {air}"),
        by_maker: false,
        working: Some(Working {
            page: &HEAT_SUM,
            inputs: vec![
                input("air temperature", air.to_string(), "read today"),
                input(
                    "sum",
                    sum.to_string(),
                    "comfort index of extension services",
                ),
            ],
        }),
    })
}

#[cfg(test)]
mod tests {
    use crate::figures::{Fact, Facts, Figure, Today};
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::{Dimension, parse_quantity};

    fn bounds(air: &str) -> [String; 2] {
        let rig = Rig::read(JUNIPER).unwrap();
        let air = parse_quantity(air, Dimension::Temperature).unwrap();
        let facts = Facts::default().with(Fact::AirTemperature, air);
        let today = Today {
            rig: &rig,
            facts: &facts,
        };
        [Figure::HeatHumidityCare, Figure::HeatHumidityDanger]
            .map(|figure| figure.of(today, None).unwrap().quantity.to_string())
    }

    /// 81 F and 74 % come to 155, which is over 150: at 81 F the bound lies at 69 %.
    #[test]
    fn the_humidity_that_is_left_to_a_bound_is_the_bound_less_the_air_in_fahrenheit() {
        assert_eq!(bounds("81 F"), ["69 %", "99 %"]);
        assert_eq!(bounds("30 C"), ["64 %", "94 %"]);
    }

    #[test]
    fn no_humidity_makes_cold_air_too_hot_and_any_makes_the_hottest_so() {
        assert_eq!(bounds("-5 F"), ["155 %", "185 %"]);
        assert_eq!(bounds("155 F"), ["0 %", "25 %"]);
    }
}
