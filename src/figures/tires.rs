//! Tires: what a cold gauge should show today, and which pressure the load asks for.

use crate::figures::fineness::Fineness;
use crate::figures::gather::Gather;
use crate::figures::{Fact, Found, Lacking, Today, Working};
use crate::mechanics::tires::{AirChange, TIRE_PRESSURE_SHIFT, tire_pressure_shift};
use crate::rig::Tire;
use crate::units::Unit::{Fahrenheit, Foot, Psi};

/// What a gauge should show today, cold, if no air was lost since the tire was set: in the air of
/// today, at the place it was set.
///
/// It tells a leak from a cold morning, and is no target: the placard's pressure is asked for cold
/// at any temperature, so a tire that reads below it is filled, leak or not.
pub(crate) fn cold_today(today: &Today<'_>, tire: &Tire) -> Result<Found, Lacking> {
    let mut gather = Gather::new();
    let set = tire.set.as_ref();
    let gauge_psi = gather.number(
        "pressure it was set to",
        "trailer.axles.tire.set.pressure",
        set.map(|set| &set.pressure),
        Psi,
    );
    let temp_f = gather.number(
        "air when it was set",
        "trailer.axles.tire.set.air",
        set.map(|set| &set.air),
        Fahrenheit,
    );
    let place = set.and_then(|set| set.altitude.as_ref());
    let altitude_ft = place.map_or(0.0, |place| {
        let field = "trailer.axles.tire.set.altitude";
        gather.number("height of the place", field, Some(place), Foot)
    });
    let new_temp_f = gather.fact(today, Fact::AirTemperature, Fahrenheit);
    let inputs = gather.done()?;
    let shifted = tire_pressure_shift(&AirChange {
        gauge_psi,
        temp_f,
        new_temp_f,
        altitude_ft,
        new_altitude_ft: None,
    })?;
    Ok(Found {
        quantity: Fineness::new(Psi, (1, 1)).nearest(shifted.gauge_psi)?,
        from: "as it was set, in the air of today, no air lost".to_owned(),
        by_maker: false,
        working: Some(Working {
            page: &TIRE_PRESSURE_SHIFT,
            inputs,
        }),
    })
}
