//! # Weight and centre of gravity

use crate::mechanics::{Item, MassProperties, NoNumber, Page, Ranges, finite, look_at_items};
use serde::Deserialize;

/// What `hames figure mass_properties` tells of it.
pub const PAGE: Page = Page {
    name: "mass_properties",
    title: "Weight and centre of gravity",
    situation: "The empty trailer and everything in it press down together as one weight at one \
                place. Where that place lies decides how much of it the ball carries.",
    formula: "W = sum w_i; x = sum (w_i x_i) / W, and likewise y and z",
    symbols: &[
        ("w_i", "weight of one thing, lb"),
        ("x_i, y_i, z_i", "its place: rearward, right, up, in"),
        ("W", "weight of all, lb"),
        ("x, y, z", "centre of gravity, in"),
    ],
    holds: "weights of 0 lb or more, some weight together",
    assumes: "Everything carried is listed; horses stand in the middle of their stalls.",
    never: "In place of a scale ticket where there is one.",
    source: "statics, any textbook: the moment of a sum is the sum of the moments",
};

/// Things with weights and places.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MassItems {
    /// The things.
    pub items: Vec<Item>,
}

/// Weight and centre of gravity of several things together.
///
/// # Errors
/// [`NoNumber`] for a weight below nothing, or none at all.
pub fn mass_properties(inputs: &MassItems) -> Result<MassProperties, NoNumber> {
    let mut ranges = Ranges::new();
    look_at_items("items", &inputs.items, &mut ranges);
    ranges.checked()?;
    weighed(&inputs.items)
}

/// The same of things whose numbers were looked at.
pub(crate) fn weighed(items: &[Item]) -> Result<MassProperties, NoNumber> {
    let sum = |part: fn(&Item) -> f64| items.iter().map(part).sum::<f64>();
    let weight = sum(|item| item.weight_lb);
    let centre = |part: fn(&Item) -> f64| {
        let moment: f64 = items.iter().map(|item| item.weight_lb * part(item)).sum();
        finite("the centre of gravity", moment / weight)
    };
    Ok(MassProperties {
        weight_lb: finite("the weight", weight)?,
        x_cg_in: centre(|item| item.x_in)?,
        z_cg_in: centre(|item| item.z_in)?,
        y_cg_in: centre(|item| item.y_in)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_equal_weights_balance_half_way_between_them() {
        let at = |x_in, y_in| Item {
            weight_lb: 1000.0,
            x_in,
            z_in: 60.0,
            y_in,
        };
        let items = vec![at(100.0, -20.0), at(140.0, 10.0)];
        let both = mass_properties(&MassItems { items }).unwrap();
        let found = [both.weight_lb, both.x_cg_in, both.z_cg_in, both.y_cg_in];
        for (found, expected) in found.into_iter().zip([2000.0, 120.0, 60.0, -5.0]) {
            assert!((found - expected).abs() < 1e-9);
        }
    }

    #[test]
    fn nothing_has_no_centre() {
        assert!(mass_properties(&MassItems { items: vec![] }).is_err());
    }
}
