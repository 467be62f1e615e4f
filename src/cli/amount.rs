//! A number with its unit, as JSON has it.

use crate::units::{Exact, Quantity};
use serde::Serialize;
use serde_json::value::RawValue;

/// Exact, or where no decimal is, to fifteen digits with the fraction beside it.
#[derive(Serialize)]
pub(super) struct Amount {
    value: Box<RawValue>,
    #[serde(skip_serializing_if = "Option::is_none")]
    exact: Option<String>,
    unit: &'static str,
}

/// Digits behind the point where a fraction has no finite decimal.
const PLACES: usize = 15;

impl Amount {
    pub(super) fn of(quantity: &Quantity) -> Result<Self, serde_json::Error> {
        let Quantity { value, unit } = quantity;
        Ok(Self {
            value: digits(value)?,
            exact: value.decimal().is_none().then(|| value.written()),
            unit: unit.symbol(),
        })
    }
}

/// The number's decimal digits, as they are written and not through a float.
fn digits(value: &Exact) -> Result<Box<RawValue>, serde_json::Error> {
    RawValue::from_string(value.decimal().unwrap_or_else(|| value.rounded(PLACES)))
}
