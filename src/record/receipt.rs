//! The receipt: ten characters to read out on the phone or write in the cab book.
//!
//! Eight characters carry the first 40 bits of a seal's hash, two more are check characters. The
//! alphabet is Crockford's base 32 (digits and letters without I, L, O and U), each character an
//! element of the field of 32. The checks make the sum of all ten characters zero, and the sum of
//! each times its place's power of the generator zero. Any two places are independent under those
//! two sums, so any one or two wrong characters are caught, and with them every exchange of two.
//! Forty bits witness against later loss and change; they are no secret.

use crate::record::Digest;
use std::fmt;

/// The short code of one seal.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Receipt([u8; DATA]);

/// Why a text is not a receipt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotAReceipt {
    /// Another number of characters than ten.
    Length(usize),
    /// A character receipts do not have.
    Letter(char),
    /// A character was misread or two changed places.
    Mistyped,
}

const ALPHABET: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const DATA: usize = 8;
const LENGTH: usize = DATA + 2;

impl Receipt {
    /// The receipt of the seal with this hash.
    pub fn of(seal: &Digest) -> Self {
        let first_five = seal.bytes().iter().take(5);
        let bits = first_five.fold(0, |bits, byte| bits << 8 | u64::from(*byte));
        let mut symbols = [0; DATA];
        for (place, symbol) in symbols.iter_mut().rev().enumerate() {
            let five_bits = (bits >> (5 * place)) & 31;
            *symbol = u8::try_from(five_bits).unwrap_or_default();
        }
        Self(symbols)
    }

    /// Reads a receipt as people write it: small letters, hyphens and blanks anywhere, O for 0, I
    /// or L for 1.
    ///
    /// # Errors
    /// [`NotAReceipt`]; any one or two wrong characters are caught.
    pub fn read(typed: &str) -> Result<Self, NotAReceipt> {
        let symbols = typed
            .chars()
            .filter(|letter| !matches!(letter, '-' | ' '))
            .map(symbol)
            .collect::<Result<Vec<u8>, _>>()?;
        let symbols: [u8; LENGTH] = symbols
            .try_into()
            .map_err(|symbols: Vec<u8>| NotAReceipt::Length(symbols.len()))?;
        let [data @ .., first, second] = symbols;
        let receipt = Self(data);
        if receipt.checks() == [first, second] {
            Ok(receipt)
        } else {
            Err(NotAReceipt::Mistyped)
        }
    }

    /// The two check characters: with them both sums over all ten places are zero.
    fn checks(self) -> [u8; 2] {
        let weights = [power(DATA), power(DATA + 1)];
        let plain = self.0.iter().fold(0, |sum, symbol| sum ^ symbol);
        let weighted = self
            .0
            .iter()
            .enumerate()
            .fold(0, |sum, (place, symbol)| sum ^ times(*symbol, power(place)));
        let [first, second] = weights;
        let last = times(weighted ^ times(first, plain), inverse(first ^ second));
        [plain ^ last, last]
    }
}

fn symbol(typed: char) -> Result<u8, NotAReceipt> {
    let letter = match typed.to_ascii_uppercase() {
        'O' => '0',
        'I' | 'L' => '1',
        other => other,
    };
    (0u8..)
        .zip(ALPHABET)
        .find(|(_, known)| char::from(**known) == letter)
        .map(|(value, _)| value)
        .ok_or(NotAReceipt::Letter(typed))
}

/// The product in the field of 32, modulo x⁵ + x² + 1.
fn times(mut left: u8, mut right: u8) -> u8 {
    let mut product = 0;
    while right != 0 {
        if right & 1 == 1 {
            product ^= left;
        }
        left <<= 1;
        if left & 32 != 0 {
            left ^= 0b10_0101;
        }
        right >>= 1;
    }
    product
}

/// The generator to a power; it takes 31 different values.
fn power(exponent: usize) -> u8 {
    (0..exponent).fold(1, |value, _| times(value, 2))
}

/// The inverse of an element that is not zero: its 30th power, for its 31st is one.
fn inverse(element: u8) -> u8 {
    (0..30).fold(1, |value, _| times(value, element))
}

impl fmt::Display for Receipt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let checks = self.checks();
        for (place, symbol) in self.0.iter().chain(&checks).enumerate() {
            if place == LENGTH / 2 {
                f.write_str("-")?;
            }
            let letter = ALPHABET.get(usize::from(*symbol)).copied();
            write!(f, "{}", char::from(letter.unwrap_or(b'?')))?;
        }
        Ok(())
    }
}

impl fmt::Debug for Receipt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Receipt({self})")
    }
}

impl fmt::Display for NotAReceipt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(found) => write!(
                f,
                "a receipt has {LENGTH} characters and this has {found}; ask for it again"
            ),
            Self::Letter(letter) => write!(
                f,
                "receipts have no “{}”; ask for that character again",
                letter.escape_debug()
            ),
            Self::Mistyped => write!(
                f,
                "one or more characters were misread; ask for the receipt again"
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn of(bytes: [u8; 5]) -> Receipt {
        let add = |hex: String, byte: &u8| format!("{hex}{byte:02x}");
        let hex = bytes.iter().fold(String::new(), add);
        Receipt::of(&Digest::read(&format!("{hex:0<64}")).unwrap())
    }

    #[test]
    fn the_first_forty_bits_are_read_off_in_fives() {
        assert!(of([0; 5]).to_string().starts_with("00000-000"));
        assert!(of([0xff; 5]).to_string().starts_with("ZZZZZ-ZZZ"));
        assert!(
            of([0, 0x44, 0x32, 0x14, 0xc7])
                .to_string()
                .starts_with("01234-567")
        );
    }

    #[test]
    fn the_field_has_thirty_one_powers_and_inverses() {
        let powers: std::collections::HashSet<u8> = (0..31).map(power).collect();
        assert_eq!(powers.len(), 31);
        for element in 1..32 {
            assert_eq!(times(element, inverse(element)), 1);
        }
    }

    #[test]
    fn people_write_receipts_in_many_ways() {
        let receipt = of([0, 0x44, 0x32, 0x14, 0xc7]);
        let shown = receipt.to_string();
        for typed in [
            shown.clone(),
            shown.replace('-', ""),
            shown.to_lowercase(),
            shown.replace('0', "O").replace('1', "l"),
            shown.replace('0', "o").replace('1', "I"),
            shown.replace('-', " - "),
        ] {
            assert_eq!(Receipt::read(&typed), Ok(receipt), "{typed}");
        }
        assert_eq!(Receipt::read("0123"), Err(NotAReceipt::Length(4)));
        assert_eq!(Receipt::read("U1234-56700"), Err(NotAReceipt::Letter('U')));
    }

    proptest! {
        #[test]
        fn a_shown_receipt_reads_back_the_same(bytes: [u8; 5]) {
            let receipt = of(bytes);
            prop_assert_eq!(Receipt::read(&receipt.to_string()), Ok(receipt));
        }

        #[test]
        fn any_one_or_two_wrong_characters_are_caught(
            bytes: [u8; 5],
            first in 0usize..LENGTH,
            second in 0usize..LENGTH,
        ) {
            let shown: Vec<u8> = of(bytes).to_string().replace('-', "").into_bytes();
            for one in ALPHABET {
                for other in ALPHABET {
                    let mut typed = shown.clone();
                    typed[first] = *one;
                    typed[second] = *other;
                    if typed != shown {
                        let typed = String::from_utf8(typed).unwrap();
                        prop_assert_eq!(Receipt::read(&typed), Err(NotAReceipt::Mistyped));
                    }
                }
            }
        }

        #[test]
        fn two_characters_that_change_places_are_caught(bytes: [u8; 5]) {
            let shown: Vec<u8> = of(bytes).to_string().replace('-', "").into_bytes();
            for left in 0..LENGTH {
                for right in left + 1..LENGTH {
                    let mut typed = shown.clone();
                    typed.swap(left, right);
                    if typed != shown {
                        let typed = String::from_utf8(typed).unwrap();
                        prop_assert_eq!(Receipt::read(&typed), Err(NotAReceipt::Mistyped));
                    }
                }
            }
        }

        #[test]
        fn whatever_is_typed_reading_it_does_not_panic(text in "\\PC{0,20}") {
            let _ = Receipt::read(&text);
        }
    }
}
