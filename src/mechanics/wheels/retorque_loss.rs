//! # What a loss at the re-check means

use crate::mechanics::wheels::star_order::look_at_count;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure retorque_loss` tells of it.
pub const PAGE: Page = Page {
    name: "retorque_loss",
    title: "What a loss at the re-check means",
    situation: "Paint and faces settle in the first miles, and all nuts of a wheel lose a little \
                together. One nut that lost much more than the rest tells of a worn seat or a \
                stretched stud.",
    formula: "loss = 100 (set - found) / set for each nut; uneven when the worst lost over 20 \
              points more than the least",
    symbols: &[
        ("set", "torque the nuts were set to, lb ft"),
        ("found", "torque at which each nut moved again, lb ft"),
        ("loss", "what it lost, %; its clamp lost the same share"),
    ],
    holds: "4 to 10 nuts of one wheel, read with a wrench that indicates",
    assumes: "Read on the way tighter, as the nut begins to move; friction at rest hides a little \
              loss.",
    never: "With a click wrench: it proves at least its setting and measures no loss.",
    source: "10 % as the bound, and looking twice, are common practice, no source; even loss as \
             settling and uneven loss as damage likewise",
};

/// Loss up to which a nut has held, %.
pub const HELD_PCT: f64 = 10.0;

/// How much more the worst may lose than the least before the loss is uneven, points.
const EVEN_PTS: f64 = 20.0;

/// A wheel looked at again.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Recheck {
    /// Torque the nuts were set to, lb ft.
    pub set_lbft: f64,
    /// Torque at which each moved again, lb ft.
    pub found_lbft: Vec<f64>,
    /// Whether this wheel lost torque before on the same trip.
    #[serde(default)]
    pub lost_before: bool,
}

/// What it lost.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TorqueLoss {
    /// Loss of the nut that lost most, %; below 0 when all were tighter.
    pub worst_loss_pct: f64,
    /// Loss of the nut that lost least, %.
    pub least_loss_pct: f64,
    /// What that points to.
    pub status: LossMeans,
}

/// What a loss of torque points to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LossMeans {
    /// No nut lost more than a tenth.
    Held,
    /// All lost about alike: settling. Set them again and look again in 25 miles.
    Settled,
    /// One lost much more than another: worn seat or stretched stud. The wheel comes off.
    Uneven,
    /// Lost for the second time on one trip: studs or seat. The wheel comes off.
    LostAgain,
}

/// How much torque the nuts of a wheel lost, and what that points to.
///
/// # Errors
/// [`NoNumber`] for fewer than four nuts, more than ten, or a torque below nothing.
pub fn retorque_loss(inputs: &Recheck) -> Result<TorqueLoss, NoNumber> {
    let nuts = u32::try_from(inputs.found_lbft.len()).unwrap_or(u32::MAX);
    let mut ranges = Ranges::new();
    ranges.positive("set_lbft", inputs.set_lbft);
    look_at_count(&mut ranges, "length of found_lbft", nuts);
    for found in &inputs.found_lbft {
        ranges.not_negative("found_lbft", *found);
    }
    ranges.checked()?;
    let loss = |found: f64| 100.0 * (inputs.set_lbft - found) / inputs.set_lbft;
    let loosest = inputs
        .found_lbft
        .iter()
        .copied()
        .fold(f64::INFINITY, f64::min);
    let tightest = inputs.found_lbft.iter().copied().fold(0.0, f64::max);
    let worst_loss_pct = finite("the loss", loss(loosest))?;
    let least_loss_pct = finite("the loss", loss(tightest))?;
    let status = if worst_loss_pct <= HELD_PCT {
        LossMeans::Held
    } else if worst_loss_pct - least_loss_pct > EVEN_PTS {
        LossMeans::Uneven
    } else if inputs.lost_before {
        LossMeans::LostAgain
    } else {
        LossMeans::Settled
    };
    Ok(TorqueLoss {
        worst_loss_pct,
        least_loss_pct,
        status,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(found: [f64; 6], lost_before: bool) -> LossMeans {
        let recheck = Recheck {
            set_lbft: 100.0,
            found_lbft: found.to_vec(),
            lost_before,
        };
        retorque_loss(&recheck).unwrap().status
    }

    #[test]
    fn an_even_loss_is_settling_and_one_nut_alone_is_damage() {
        assert_eq!(told([90.0; 6], false), LossMeans::Held);
        let even = [85.0, 90.0, 86.0, 88.0, 85.0, 89.0];
        assert_eq!(told(even, false), LossMeans::Settled);
        assert_eq!(told(even, true), LossMeans::LostAgain);
        let one = [100.0, 100.0, 60.0, 98.0, 100.0, 100.0];
        assert_eq!(told(one, false), LossMeans::Uneven);
    }
}
