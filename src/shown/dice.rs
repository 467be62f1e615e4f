//! Dice that fall the same way for the same seed, on every machine.

/// A generator (`SplitMix64`: Steele, Lea and Flood, 2014, from memory).
#[derive(Clone, Debug)]
pub struct Dice(u64);

/// One more than the largest number of 32 bits.
const TWO_TO_32: f64 = 4_294_967_296.0;

impl Dice {
    /// Dice for a seed.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number.
    pub fn throw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut x = self.0;
        x = (x ^ (x >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        x = (x ^ (x >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        x ^ (x >> 31)
    }

    /// A number below `end`.
    pub fn below(&mut self, end: u64) -> u64 {
        self.throw() % end.max(1)
    }

    /// A number from `low` to `high`, both taken in.
    pub fn between(&mut self, low: u64, high: u64) -> u64 {
        low + self.below(high.saturating_sub(low) + 1)
    }

    /// Whether something happens that happens so many times in ten thousand.
    pub fn in_myriad(&mut self, times: u64) -> bool {
        self.below(10_000) < times
    }

    /// One of these; nothing where there is none.
    pub fn of<'a, T>(&mut self, choices: &'a [T]) -> Option<&'a T> {
        let count = u64::try_from(choices.len()).unwrap_or(1);
        choices.get(usize::try_from(self.below(count)).unwrap_or(0))
    }

    /// From 0 to 1, 1 left out.
    pub fn share(&mut self) -> f64 {
        f64::from(u32::try_from(self.throw() >> 32).unwrap_or(0)) / TWO_TO_32
    }

    /// Around 0, by about `spread` either way and never by more than three and a half times that:
    /// the sum of four even throws.
    pub fn around(&mut self, spread: f64) -> f64 {
        let sum = self.share() + self.share() + self.share() + self.share();
        // Four even throws spread by the root of a third.
        (sum - 2.0) * 1.732 * spread
    }

    /// Bytes.
    pub fn bytes<const N: usize>(&mut self) -> [u8; N] {
        std::array::from_fn(|_| u8::try_from(self.throw() >> 56).unwrap_or(0))
    }
}
