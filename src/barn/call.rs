//! Whom to call when something is not clear.

use std::fmt;

/// A person and a telephone number, as the barn wrote them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    who: String,
    phone: String,
}

/// Fewest digits of a number that somebody answers; emergency numbers have three.
const FEWEST_DIGITS: usize = 3;

/// Longest number, country, extension and all.
const LONGEST: usize = 40;

impl Call {
    /// A person at a number; nothing where it is no number that can be dialled.
    pub fn new(who: &str, phone: &str) -> Option<Self> {
        let phone = phone.trim();
        let digits = phone.chars().filter(char::is_ascii_digit).count();
        let dialled =
            |letter: char| letter.is_ascii_alphanumeric() || "+-()./#*, ".contains(letter);
        let fits = digits >= FEWEST_DIGITS && phone.len() <= LONGEST && phone.chars().all(dialled);
        fits.then(|| Self {
            who: who.to_owned(),
            phone: phone.to_owned(),
        })
    }

    /// Who answers.
    pub fn who(&self) -> &str {
        &self.who
    }

    /// The number.
    pub fn phone(&self) -> &str {
        &self.phone
    }
}

impl fmt::Display for Call {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}", self.who, self.phone)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_has_digits_and_nothing_that_cannot_be_dialled() {
        for phone in ["555 0142", "+44 1632 960142", "(555) 0142 ext. 7", "112"] {
            assert!(Call::new("Odile Marsh", phone).is_some(), "{phone}");
        }
        let long = "5".repeat(LONGEST + 1);
        for phone in ["", "ask her", "12", "555\u{200b}0142", "555\n0142", &long] {
            assert_eq!(Call::new("Odile Marsh", phone), None, "{phone}");
        }
    }
}
