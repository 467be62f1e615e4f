//! The random bytes a key is made from, thrown by the caller.

use std::fmt;
use zeroize::Zeroizing;

/// Fresh random bytes for one key: its seed, the salt of its passphrase, and its check number.
/// Wiped from memory when dropped.
pub struct Dice {
    seed: Zeroizing<[u8; 32]>,
    salt: [u8; 16],
    check: [u8; 4],
}

impl Dice {
    /// How many bytes are thrown.
    pub const BYTES: usize = 52;

    /// Takes the bytes. They make one key and are then spent.
    pub fn new(thrown: [u8; Self::BYTES]) -> Self {
        let thrown = Zeroizing::new(thrown);
        let mut dice = Self {
            seed: Zeroizing::new([0; 32]),
            salt: [0; 16],
            check: [0; 4],
        };
        let places = dice.seed.iter_mut().chain(&mut dice.salt);
        for (place, byte) in places.chain(&mut dice.check).zip(thrown.iter()) {
            *place = *byte;
        }
        dice
    }

    pub(super) fn seed(&self) -> &[u8; 32] {
        &self.seed
    }

    pub(super) const fn salt(&self) -> &[u8; 16] {
        &self.salt
    }

    pub(super) const fn check(&self) -> [u8; 4] {
        self.check
    }
}

impl fmt::Debug for Dice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Dice")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_byte_thrown_is_used_once_and_in_order() {
        let thrown: [u8; Dice::BYTES] = std::array::from_fn(|at| u8::try_from(at).unwrap());
        let dice = Dice::new(thrown);
        let used = [&dice.seed()[..], dice.salt(), &dice.check()].concat();
        assert_eq!(used, thrown);
    }
}
