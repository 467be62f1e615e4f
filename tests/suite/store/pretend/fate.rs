//! What a power loss leaves of the bytes and names that were not certain.

use super::state::Change;

/// What becomes of bytes and names that were not certain when the power went.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Fate {
    Lost,
    Kept,
    /// Of each write the first half arrives, of the names every second.
    Half,
    /// Of each write the second half arrives, the first reads as zeros; the other names.
    OtherHalf,
    /// Each part by lot.
    Lots(u64),
}

/// Decides for each uncertain thing, in turn.
pub(super) struct Lots {
    fate: Fate,
    drawn: u64,
}

/// What arrives or is lost as one piece.
const PIECE: usize = 8;

impl Lots {
    pub(super) fn new(fate: Fate) -> Self {
        Self { fate, drawn: 0 }
    }

    fn draw(&mut self, seed: u64) -> bool {
        self.drawn += 1;
        let mut x = (seed ^ self.drawn).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        x ^= x >> 29;
        x = x.wrapping_mul(0xbf58_476d_1ce4_e5b9);
        (x >> 40) & 1 == 1
    }

    pub(super) fn name(&mut self) -> bool {
        match self.fate {
            Fate::Lost => false,
            Fate::Kept => true,
            Fate::Half => {
                self.drawn += 1;
                self.drawn % 2 == 1
            }
            Fate::OtherHalf => {
                self.drawn += 1;
                self.drawn.is_multiple_of(2)
            }
            Fate::Lots(seed) => self.draw(seed),
        }
    }

    pub(super) fn arrive(&mut self, change: &Change, bytes: &mut Vec<u8>) {
        let Change::Write(at, new) = change else {
            if self.name() {
                change.carry_out(bytes);
            }
            return;
        };
        let middle = new.len() / 2;
        for (i, piece) in new.chunks(PIECE).enumerate() {
            let first = i * PIECE;
            let mut arrives = |from: usize, to: usize| {
                let part = new[from..to].to_vec();
                Change::Write(at + from, part).carry_out(bytes);
            };
            let end = first + piece.len();
            match self.fate {
                Fate::Kept => arrives(first, end),
                Fate::Half if first < middle => arrives(first, end.min(middle)),
                Fate::OtherHalf if end > middle => arrives(first.max(middle), end),
                Fate::Lost | Fate::Half | Fate::OtherHalf => {}
                Fate::Lots(seed) => {
                    if self.draw(seed) {
                        arrives(first, end);
                    }
                }
            }
        }
    }
}
