//! Dice that fall the same way for the same seed, on every machine.

/// A generator (`SplitMix64`: Steele, Lea and Flood, 2014, from memory).
#[derive(Clone, Debug)]
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(crate) fn throw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut x = self.0;
        x = (x ^ (x >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        x = (x ^ (x >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        x ^ (x >> 31)
    }

    /// A number below `end`.
    pub(crate) fn below(&mut self, end: u64) -> u64 {
        self.throw() % end.max(1)
    }

    /// Whether something happens that happens so many times in a hundred.
    pub(crate) fn in_hundred(&mut self, times: u64) -> bool {
        self.below(100) < times
    }

    /// One of these.
    pub(crate) fn of<'a, T>(&mut self, choices: &'a [T]) -> &'a T {
        let at = usize::try_from(self.below(choices.len().try_into().unwrap())).unwrap();
        &choices[at]
    }

    pub(crate) fn bytes(&mut self, bytes: &mut [u8]) {
        for part in bytes.chunks_mut(8) {
            let thrown = self.throw().to_le_bytes();
            part.copy_from_slice(&thrown[..part.len()]);
        }
    }
}
