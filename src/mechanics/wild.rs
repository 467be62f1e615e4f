//! Any number at all, for laws that must hold whatever is typed.

use crate::mechanics::NoNumber;
use proptest::prelude::*;
use std::fmt::Debug;

/// Any finite number, ordinary ones more often than not.
pub(crate) fn wild() -> impl Strategy<Value = f64> {
    use proptest::num::f64::{NEGATIVE, NORMAL, POSITIVE, SUBNORMAL, ZERO};
    prop_oneof![
        4 => 0.0..130.0_f64,
        2 => 100.0..9000.0_f64,
        1 => -100.0..100.0_f64,
        1 => NORMAL | SUBNORMAL | ZERO | POSITIVE | NEGATIVE,
    ]
}

/// Holds a result to be a refusal or to have nothing but numbers in it.
pub(crate) fn only_numbers(result: &Result<impl Debug, NoNumber>) {
    if let Ok(outputs) = result {
        let shown = format!("{outputs:?}");
        assert!(!shown.contains("NaN") && !shown.contains("inf"), "{shown}");
    }
}
