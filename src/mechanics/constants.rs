//! The few numbers of nature and of definition that formulas share, each written once.
//!
//! Sources: third CGPM 1901 for standard gravity; the yard and pound agreement of 1959 for inch
//! and pound; both exact, as tabled in NIST SP 811 appendix B, from memory.

/// Standard gravity, m/s².
pub const GRAVITY_M_S2: f64 = 9.806_65;

/// One inch, m.
pub const INCH_M: f64 = 0.0254;

/// One pound-force, N.
pub const POUND_N: f64 = 4.448_221_615_260_5;

/// One pound, kg.
pub const POUND_KG: f64 = 0.453_592_37;

/// One pound-force per square inch, Pa.
pub const PSI_PA: f64 = POUND_N / (INCH_M * INCH_M);

/// One mile per hour, m/s.
pub const MPH_M_S: f64 = 0.447_04;

/// Inches in a foot.
pub const FOOT_IN: f64 = 12.0;

/// Standard gravity, in/s²: what one g is to formulas in pounds and inches.
pub const GRAVITY_IN_S2: f64 = GRAVITY_M_S2 / INCH_M;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Unit;

    #[test]
    fn the_constants_are_the_sizes_of_the_units() {
        for (constant, unit) in [
            (INCH_M, Unit::Inch),
            (POUND_N, Unit::PoundForce),
            (POUND_KG, Unit::Pound),
            (PSI_PA, Unit::Psi),
            (MPH_M_S, Unit::MilePerHour),
        ] {
            let size = unit.size().to_f64().unwrap();
            assert!((constant / size - 1.0).abs() < 1e-15, "{unit}");
        }
    }
}
