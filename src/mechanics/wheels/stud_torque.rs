//! # The torque of a stud

use crate::mechanics::constants::FOOT_IN;
use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure stud_torque` tells of it.
pub const PAGE: Page = Page {
    name: "stud_torque",
    title: "The torque of a stud",
    situation: "A stud is a spring: stretched by its nut it clamps the wheel, and the clamp, not \
                the stud's shank, carries the load. Makers aim at three quarters of what the stud \
                bears without taking a set.",
    formula: "At = pi/4 (d - 0.9743 / tpi)^2; F = 0.75 S At; T = K d F",
    symbols: &[
        ("d", "diameter of the stud, in"),
        ("tpi", "threads to the inch"),
        ("At", "area that bears, in2"),
        ("S", "proof strength, psi; 120,000 for a grade 8 stud"),
        ("F", "clamp, lb"),
        (
            "K",
            "nut factor: 0.20 for clean dry steel, 0.15 oiled, 0.30 rusty",
        ),
        ("T", "torque, lb ft"),
    ],
    holds: "studs of 1/4 to 1 1/2 in, 6 to 32 threads to the inch, K of 0.05 to 0.50, shares of \
            proof up to 1",
    assumes: "Dry threads. The clamp behind one torque scatters by some 30 %.",
    never: "To set a torque. The plate or the axle maker's manual says it; this tells why it is \
            about that much.",
    source: "ASME B1.1 stress area; Shigley, Mechanical Engineering Design, for T = K d F and 0.75 \
             of proof; from memory and secondary pages",
};

/// Nut factor of clean dry steel.
pub const NUT_FACTOR: f64 = 0.20;

/// Share of proof load makers aim at in a joint that is opened again.
const PROOF_SHARE: f64 = 0.75;

/// What the stress area of an inch thread leaves off the diameter, in pitches.
const PITCHES_OFF: f64 = 0.9743;

/// A stud.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stud {
    /// Diameter, in.
    pub diameter_in: f64,
    /// Threads to the inch.
    pub tpi: f64,
    /// Proof strength, psi.
    pub proof_psi: f64,
    /// Nut factor; that of clean dry steel unless given.
    #[serde(default = "nut_factor", alias = "nut_factor")]
    pub k: f64,
    /// Share of proof load aimed at; three quarters unless given.
    #[serde(default = "proof_share", alias = "proof_fraction")]
    pub fraction: f64,
}

/// Its torque.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StudTorque {
    /// Area that bears, in².
    pub stress_area_in2: f64,
    /// Clamp, lb.
    pub clamp_lb: f64,
    /// Torque, lb ft.
    pub torque_lbft: f64,
}

pub(super) fn nut_factor() -> f64 {
    NUT_FACTOR
}

fn proof_share() -> f64 {
    PROOF_SHARE
}

/// Looks at a stud's diameter and nut factor.
pub(super) fn look_at_stud(ranges: &mut Ranges, diameter_in: f64, k: f64) {
    ranges
        .within("diameter_in", diameter_in, 0.25, 1.5)
        .within("k", k, 0.05, 0.5);
}

/// The torque that stretches a stud to a share of its proof load.
///
/// # Errors
/// [`NoNumber`] outside the ranges.
pub fn stud_torque(inputs: &Stud) -> Result<StudTorque, NoNumber> {
    let Stud {
        diameter_in,
        tpi,
        proof_psi,
        k,
        fraction,
    } = *inputs;
    let mut ranges = Ranges::new();
    look_at_stud(&mut ranges, diameter_in, k);
    ranges
        .within("tpi", tpi, 6.0, 32.0)
        .within("proof_psi", proof_psi, 10_000.0, 250_000.0)
        .positive("fraction", fraction)
        .holds(fraction <= 1.0, "fraction", fraction, "1 or less")
        .checked()?;
    let bears = diameter_in - PITCHES_OFF / tpi;
    let area = std::f64::consts::FRAC_PI_4 * bears * bears;
    let clamp = fraction * proof_psi * area;
    Ok(StudTorque {
        stress_area_in2: finite("the area", area)?,
        clamp_lb: finite("the clamp", clamp)?,
        torque_lbft: finite("the torque", k * diameter_in * clamp / FOOT_IN)?,
    })
}
