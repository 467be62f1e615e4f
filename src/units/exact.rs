//! An exact number: a fraction of two whole numbers, never a binary float.

use num_bigint::BigInt;
use num_rational::{BigRational, Ratio};
use num_traits::{FromPrimitive, Signed, ToPrimitive, Zero};
use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Mul, Neg, Sub};

/// An exact rational number.
///
/// `65.0` and `65` are equal here; the characters a person typed are kept beside it
/// in [`Typed`](crate::units::Typed).
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Exact(BigRational);

/// Text that is not a plain decimal number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotANumber;

/// Digits a decimal may have. More is a slip, and a bound keeps hostile input small.
const MOST_DIGITS: usize = 18;

/// Longest number a record holds, in characters.
const LONGEST_WRITTEN: usize = 400;

/// Digits shown behind the point when a fraction has no finite decimal.
const SHOWN_PLACES: usize = 6;

impl Exact {
    /// A whole number.
    pub fn whole(value: i64) -> Self {
        Self(BigRational::from_integer(BigInt::from(value)))
    }

    /// `numerator / denominator`, or nothing when the denominator is zero.
    pub fn ratio(numerator: i128, denominator: i128) -> Option<Self> {
        if denominator == 0 {
            return None;
        }
        // The least number of all has no positive counterpart to reckon with.
        let small = numerator != i128::MIN && denominator != i128::MIN;
        Some(if small {
            Self::lowest(numerator, denominator)
        } else {
            Self(BigRational::new(numerator.into(), denominator.into()))
        })
    }

    /// Zero.
    pub fn zero() -> Self {
        Self(BigRational::zero())
    }

    /// Reads a plain decimal: an optional minus, digits, at most one point with digits on both
    /// sides. No exponent, no comma, no `+`, no other alphabet's digits.
    ///
    /// # Errors
    /// [`NotANumber`] for anything else, and for more than eighteen digits.
    pub fn parse_decimal(text: &str) -> Result<Self, NotANumber> {
        let (negative, body) = match text.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, text),
        };
        let (whole, part) = match body.split_once('.') {
            Some((_, "")) => return Err(NotANumber),
            Some((whole, part)) => (whole, part),
            None => (body, ""),
        };
        let mut digits = whole.bytes().chain(part.bytes());
        if whole.is_empty() || whole.len() + part.len() > MOST_DIGITS {
            return Err(NotANumber);
        }
        let mantissa = digits.try_fold(0_i64, |number, digit| {
            let digit = digit.is_ascii_digit().then(|| i64::from(digit - b'0'));
            digit.map(|digit| number * 10 + digit).ok_or(NotANumber)
        })?;
        let scale = ten_to(part.len()).ok_or(NotANumber)?;
        let signed = if negative { -mantissa } else { mantissa };
        let (upper, lower) = Ratio::new(signed, scale).into_raw();
        Ok(Self(BigRational::new_raw(upper.into(), lower.into())))
    }

    /// A fraction in lowest terms. The denominator is not zero, and neither is [`i128::MIN`].
    fn lowest(numerator: i128, denominator: i128) -> Self {
        let (upper, lower) = Ratio::new(numerator, denominator).into_raw();
        Self(BigRational::new_raw(upper.into(), lower.into()))
    }

    /// Numerator and denominator where both are small, as nearly always. Of such, the products and
    /// the sums of two products fit the widest machine word, and no big numbers are reckoned with.
    fn small(&self) -> Option<(i128, i128)> {
        let (upper, lower) = (self.0.numer().to_i64()?, self.0.denom().to_i64()?);
        Some((upper.into(), lower.into()))
    }

    /// The quotient, or nothing when dividing by zero.
    pub fn over(&self, divisor: &Self) -> Option<Self> {
        if divisor.0.is_zero() {
            return None;
        }
        Some(match (self.small(), divisor.small()) {
            (Some((a, b)), Some((c, d))) => Self::lowest(a * d, b * c),
            _ => Self(&self.0 / &divisor.0),
        })
    }

    /// The distance from zero.
    #[must_use]
    pub fn magnitude(&self) -> Self {
        Self(self.0.abs())
    }

    /// Whether this is below zero.
    pub fn is_negative(&self) -> bool {
        self.0.is_negative()
    }

    /// Whether this is exactly zero.
    pub fn is_zero(&self) -> bool {
        self.0.is_zero()
    }

    /// Whether this is a whole number.
    pub fn is_whole(&self) -> bool {
        self.0.is_integer()
    }

    /// The nearest float, for physics only; nothing when it would not be finite.
    pub fn to_f64(&self) -> Option<f64> {
        if let (Some(upper), Some(lower)) = (whole_f64(self.0.numer()), whole_f64(self.0.denom())) {
            return Some(upper / lower);
        }
        self.0.to_f64().filter(|value| value.is_finite())
    }

    /// The multiple of `step` nearest to a float, for what physics reckoned; nothing when it is no
    /// number, or so large that its steps cannot be counted.
    pub fn nearest(value: f64, step: &Self) -> Option<Self> {
        Self::stepped(value, step, f64::round)
    }

    /// The largest multiple of `step` not above a float.
    pub fn floor(value: f64, step: &Self) -> Option<Self> {
        Self::stepped(value, step, f64::floor)
    }

    /// The smallest multiple of `step` not below a float.
    pub fn ceiling(value: f64, step: &Self) -> Option<Self> {
        Self::stepped(value, step, f64::ceil)
    }

    fn stepped(value: f64, step: &Self, to_whole: fn(f64) -> f64) -> Option<Self> {
        let steps = BigRational::from_f64(to_whole(value / step.to_f64()?))?;
        Some(&Self(steps) * step)
    }

    /// The largest multiple of `step` not above this, exactly; nothing for a step of nothing.
    pub fn down_to(&self, step: &Self) -> Option<Self> {
        let steps = Self(self.over(step)?.0.floor());
        Some(&steps * step)
    }

    /// The smallest multiple of `step` not below this, exactly; nothing for a step of nothing.
    pub fn up_to(&self, step: &Self) -> Option<Self> {
        let steps = Self(self.over(step)?.0.ceil());
        Some(&steps * step)
    }

    /// The number in decimal, rounded half away from zero to at most `places` digits behind the
    /// point, without trailing zeros.
    pub fn rounded(&self, places: usize) -> String {
        let scale = power_of_ten(places);
        let scaled = (&self.0 * BigRational::from_integer(scale))
            .round()
            .to_integer();
        pointed(&scaled, places)
    }

    /// The number in full, for records: a decimal where one is finite, else `7/3` in lowest terms.
    pub fn written(&self) -> String {
        self.decimal()
            .unwrap_or_else(|| format!("{}/{}", self.0.numer(), self.0.denom()))
    }

    /// Reads what [`written`](Self::written) writes, and no other spelling of the number.
    ///
    /// # Errors
    /// [`NotANumber`] for anything else, and for more than some hundred digits.
    pub fn read_written(text: &str) -> Result<Self, NotANumber> {
        if text.len() > LONGEST_WRITTEN {
            return Err(NotANumber);
        }
        let decimal = Self::parse_decimal(text);
        let shortest = decimal.is_ok() && is_shortest(text);
        let number = decimal.or_else(|_| Self::read_long(text))?;
        if shortest || number.written() == text {
            Ok(number)
        } else {
            Err(NotANumber)
        }
    }

    /// A fraction, or a decimal of more digits than anyone types.
    fn read_long(text: &str) -> Result<Self, NotANumber> {
        let whole = |digits: &str| digits.parse::<BigInt>().map_err(|_| NotANumber);
        let (upper, lower) = if let Some((upper, lower)) = text.split_once('/') {
            (whole(upper)?, whole(lower)?)
        } else {
            let places = text.split_once('.').map_or(0, |(_, part)| part.len());
            (whole(&text.replacen('.', "", 1))?, power_of_ten(places))
        };
        if lower.is_zero() {
            return Err(NotANumber);
        }
        Ok(Self(BigRational::new(upper, lower)))
    }

    /// The exact decimal digits, or nothing when there is no finite decimal of reasonable length.
    pub fn decimal(&self) -> Option<String> {
        // In lowest terms: it needs as many places as the first power of ten has that the lower
        // number divides.
        let lower = self.0.denom().to_i64()?;
        let (places, ten) = (0..=MOST_DIGITS)
            .filter_map(|places| Some((places, ten_to(places)?)))
            .find(|(_, ten)| ten % lower == 0)?;
        Some(pointed(&(self.0.numer() * (ten / lower)), places))
    }
}

/// Whether a decimal stands there in its shortest spelling, which is the one records have.
fn is_shortest(decimal: &str) -> bool {
    let digits = decimal.strip_prefix('-').unwrap_or(decimal);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, "1"));
    (whole == "0" || !whole.starts_with('0')) && !part.ends_with('0') && decimal != "-0"
}

/// The float that is this whole number, where one is. The quotient of two such is the float nearest
/// to their fraction: floats divide to the last bit.
fn whole_f64(number: &BigInt) -> Option<f64> {
    let number = number.to_i64()?;
    (number.unsigned_abs() <= 1 << f64::MANTISSA_DIGITS)
        .then(|| number.to_f64())
        .flatten()
}

/// The whole number with a point so many places before its end, without trailing zeros.
fn pointed(number: &BigInt, places: usize) -> String {
    let digits = format!(
        "{:0>width$}",
        number.magnitude().to_string(),
        width = places + 1
    );
    let (whole, part) = digits.split_at(digits.len() - places);
    let part = part.trim_end_matches('0');
    let sign = if number.is_negative() { "-" } else { "" };
    if part.is_empty() {
        format!("{sign}{whole}")
    } else {
        format!("{sign}{whole}.{part}")
    }
}

/// Ten to the power of `places`, where that is a small number.
fn ten_to(places: usize) -> Option<i64> {
    10_i64.checked_pow(u32::try_from(places).ok()?)
}

/// Ten to the power of `places`.
fn power_of_ten(places: usize) -> BigInt {
    (0..places).fold(BigInt::from(1), |power, _| power * 10)
}

impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.small() {
            Some((whole, 1)) => write!(f, "{whole}"),
            _ => f.write_str(&self.decimal().unwrap_or_else(|| self.rounded(SHOWN_PLACES))),
        }
    }
}

impl Ord for Exact {
    fn cmp(&self, other: &Self) -> Ordering {
        match (self.small(), other.small()) {
            (Some((a, b)), Some((c, d))) => (a * d).cmp(&(c * b)),
            _ => self.0.cmp(&other.0),
        }
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Add for &Exact {
    type Output = Exact;
    fn add(self, other: Self) -> Exact {
        match (self.small(), other.small()) {
            (Some((a, b)), Some((c, d))) => Exact::lowest(a * d + c * b, b * d),
            _ => Exact(&self.0 + &other.0),
        }
    }
}

impl Sub for &Exact {
    type Output = Exact;
    fn sub(self, other: Self) -> Exact {
        match (self.small(), other.small()) {
            (Some((a, b)), Some((c, d))) => Exact::lowest(a * d - c * b, b * d),
            _ => Exact(&self.0 - &other.0),
        }
    }
}

impl Mul for &Exact {
    type Output = Exact;
    fn mul(self, other: Self) -> Exact {
        match (self.small(), other.small()) {
            (Some((a, b)), Some((c, d))) => Exact::lowest(a * c, b * d),
            _ => Exact(&self.0 * &other.0),
        }
    }
}

impl Neg for &Exact {
    type Output = Exact;
    fn neg(self) -> Exact {
        Exact(-&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn exact(text: &str) -> Exact {
        Exact::parse_decimal(text).unwrap()
    }

    #[test]
    fn trailing_zeros_change_the_text_and_not_the_number() {
        assert_eq!(exact("65.0"), exact("65"));
        assert_eq!(exact("0.30").to_string(), "0.3");
    }

    #[test]
    fn a_tenth_added_three_times_is_three_tenths() {
        let tenth = exact("0.1");
        assert_eq!(&(&tenth + &tenth) + &tenth, exact("0.3"));
    }

    #[test]
    fn what_is_not_a_plain_decimal_is_refused() {
        for text in [
            "", "-", ".5", "5.", "1e3", "+5", "1,5", "nan", "inf", "٣", "1_000", "1.2.3",
        ] {
            assert_eq!(Exact::parse_decimal(text), Err(NotANumber), "{text}");
        }
        assert_eq!(Exact::parse_decimal(&"9".repeat(19)), Err(NotANumber));
    }

    #[test]
    fn rounding_is_half_away_from_zero_on_both_sides() {
        assert_eq!(exact("0.125").rounded(2), "0.13");
        assert_eq!(exact("-0.125").rounded(2), "-0.13");
        assert_eq!(exact("-0.001").rounded(2), "0");
        assert_eq!(exact("7000").rounded(0), "7000");
    }

    #[test]
    fn a_third_has_no_finite_decimal_and_shows_six_places() {
        let third = Exact::ratio(1, 3).unwrap();
        assert_eq!(third.decimal(), None);
        assert_eq!(third.to_string(), "0.333333");
        assert_eq!(Exact::ratio(1, 0), None);
    }

    /// Numbers of every size: small ones, the largest that count as small, and larger.
    fn any_exact() -> impl Strategy<Value = Exact> {
        let number = || {
            prop_oneof![
                (-99i64..100).prop_map(i128::from),
                any::<i64>().prop_map(i128::from),
                Just(i128::from(i64::MIN)),
                Just(i128::from(i64::MAX)),
                any::<i128>(),
                Just(i128::MIN),
            ]
        };
        (number(), number())
            .prop_filter_map("no fraction", |(upper, lower)| Exact::ratio(upper, lower))
    }

    proptest! {
        #[test]
        fn the_short_way_of_reckoning_comes_to_the_same_as_the_long(
            left in any_exact(),
            right in any_exact(),
        ) {
            prop_assert_eq!((&left + &right).0, &left.0 + &right.0);
            prop_assert_eq!((&left - &right).0, &left.0 - &right.0);
            prop_assert_eq!((&left * &right).0, &left.0 * &right.0);
            let quotient = left.over(&right).map(|quotient| quotient.0);
            prop_assert_eq!(quotient, (!right.is_zero()).then(|| &left.0 / &right.0));
            prop_assert_eq!(left.to_f64(), left.0.to_f64());
            prop_assert_eq!(left.cmp(&right), left.0.cmp(&right.0));
        }

        #[test]
        fn any_fraction_written_for_a_record_reads_back_the_same(
            upper: i64,
            lower in prop_oneof![1i64..1000, (0u32..19).prop_map(|places| 10i64.pow(places)), 1..i64::MAX],
        ) {
            let number = Exact::ratio(upper.into(), lower.into()).unwrap();
            prop_assert_eq!(Exact::read_written(&number.written()), Ok(number.clone()));
            if let Some(decimal) = number.decimal() {
                prop_assert_eq!(Exact::read_written(&decimal), Ok(number.clone()));
                prop_assert_eq!(decimal, number.rounded(MOST_DIGITS));
            }
        }
    }

    #[test]
    fn a_number_written_for_a_record_has_one_spelling() {
        for right in ["0", "65", "-0.125", "7/3", "-1/7", "0.000000000000000001"] {
            assert_eq!(Exact::read_written(right).unwrap().written(), right);
        }
        for wrong in [
            "",
            "-",
            "-0",
            "-0.0",
            "0.50",
            "-00.5",
            "65.0",
            "065",
            "+65",
            "1/2",
            "14/6",
            "7/-3",
            "1/0",
            "7/3/1",
            "1.5/3",
            "1.",
            ".5",
            "6 5",
            "1_0",
            &"1".repeat(500),
        ] {
            assert_eq!(Exact::read_written(wrong), Err(NotANumber), "{wrong}");
        }
    }
}
