//! A day of the barn as one seed throws it: people at the keys of their laptops, and what befalls
//! them. The same seed comes to the same bytes of every file.

mod desk;
mod end;
mod mishap;

use super::barn::{self, LAPTOPS, REAL, SMALL};
use super::dice::Dice;
use super::laptop::{Laptop, lines};
use hames::cli::clerk::Stock;
use hames::record::Digest;

/// Of so many seeds one walks the long lists of the demo barn, the others a small one.
const REAL_ONE_OF: u64 = 12;

/// What a seed came to.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Came {
    /// Over every file of every laptop, by name.
    pub(crate) files: Digest,
    /// How many trips were begun.
    pub(crate) trips: usize,
    /// How many lines were called recorded.
    pub(crate) lines: usize,
    /// How often power went, the program was killed or a disk refused.
    pub(crate) mishaps: usize,
}

/// A day under way.
struct Day {
    dice: Dice,
    stock: &'static Stock,
    laptops: Vec<Laptop>,
    mishaps: usize,
    /// What happens is printed as it happens.
    aloud: bool,
}

/// Runs the day of a seed. A broken law ends it with a panic.
pub(crate) fn run(seed: u64, aloud: bool) -> Came {
    let mut dice = Dice::new(seed);
    let real = seed.is_multiple_of(REAL_ONE_OF);
    let (stock, laptops, steps) = if real {
        (&*REAL, 1, 3)
    } else {
        (&*SMALL, 1 + dice.below(3), 8 + dice.below(8))
    };
    let laptops = LAPTOPS.into_iter().take(laptops.try_into().unwrap());
    let laptops = laptops.map(|device| Laptop::new(device, barn::disk(device), dice.throw()));
    let mut day = Day {
        laptops: laptops.collect(),
        dice,
        stock,
        mishaps: 0,
        aloud,
    };
    for _ in 0..steps {
        day.step();
    }
    day.ends();
    day.came()
}

impl Day {
    fn step(&mut self) {
        let last = self.laptops.len().try_into().unwrap();
        let at = usize::try_from(self.dice.below(last)).unwrap();
        match self.dice.below(100) {
            0..8 => self.power_goes(at),
            8..16 => self.the_disk_refuses(at),
            16..22 => self.is_killed(at),
            22..30 => self.time_goes(at),
            30..36 => self.a_second_window(at),
            36..46 => self.is_carried_over(at),
            _ => {}
        }
        self.at_the_keys(at);
        self.laptops[at].hold_to(&self.laptops[at].disk);
    }

    #[expect(clippy::print_stdout, reason = "a day is told to whoever asks for it")]
    fn tell(&self, at: usize, what: &str) {
        if self.aloud {
            println!("{}: {what}", self.laptops[at].device);
        }
    }

    fn came(&self) -> Came {
        let mut all = Vec::new();
        for laptop in &self.laptops {
            for path in laptop.disk.files() {
                all.extend(path.as_os_str().as_encoded_bytes());
                all.push(0);
                all.extend(laptop.disk.seen(&path).unwrap());
                all.push(0);
            }
        }
        let told = self.laptops.iter().flat_map(|laptop| laptop.told.values());
        let recorded = told.clone().map(|told| lines(&told.lines));
        Came {
            files: Digest::of(&all),
            trips: told.count(),
            lines: recorded.sum(),
            mishaps: self.mishaps,
        }
    }
}
