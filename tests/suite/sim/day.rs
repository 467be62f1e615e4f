//! A day of the barn as one seed throws it: people at the keys of their laptops, a manager in the
//! office, a stick between the laptops, and what befalls them. The same seed comes to the same bytes
//! of every file.

mod backup;
mod desk;
mod end;
mod justified;
mod managers;
mod mishap;
mod office;
mod stick;

use super::barn::{self, LAPTOPS, REAL, SMALL};
use super::dice::Dice;
use super::laptop::{Laptop, lines};
use crate::store::pretend::Pretend;
use backup::Backup;
use hames::cli::clerk::Stock;
use hames::record::Digest;
use office::Office;
use stick::Stick;

/// Of so many seeds one walks the long lists of the demo barn, the others a small one.
const REAL_ONE_OF: u64 = 20;

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
    /// How many merges went through.
    pub(crate) merges: usize,
    /// How many statements were called kept.
    pub(crate) statements: usize,
    /// How many backups were put back.
    pub(crate) restored: usize,
    /// How often a fork was closed, and how often in opposite ways.
    pub(crate) closed: [usize; 2],
    /// How many rows of trips were given up.
    pub(crate) given_up: usize,
    /// How many trips were pruned.
    pub(crate) pruned: usize,
}

impl Came {
    /// How often everything came to pass.
    pub(crate) const fn counts(&self) -> [(&'static str, usize); 10] {
        let [closed, opposite] = self.closed;
        [
            ("trips", self.trips),
            ("lines", self.lines),
            ("mishaps", self.mishaps),
            ("merges", self.merges),
            ("statements", self.statements),
            ("backups put back", self.restored),
            ("forks closed", closed),
            ("closed in opposite ways", opposite),
            ("losses accepted", self.given_up),
            ("trips pruned", self.pruned),
        ]
    }
}

/// A day under way.
struct Day {
    dice: Dice,
    stock: &'static Stock,
    laptops: Vec<Laptop>,
    stick: Stick,
    office: Office,
    backups: Vec<Option<Backup>>,
    /// What was called recorded on a laptop before a backup was put back, and lies elsewhere.
    elsewhere: Vec<backup::Elsewhere>,
    mishaps: usize,
    merges: usize,
    restored: usize,
    /// What happens is printed as it happens.
    aloud: bool,
}

/// Runs the day of a seed. A broken law ends it with a panic.
pub(crate) fn run(seed: u64, aloud: bool) -> Came {
    run_on(seed, aloud, |disk| disk)
}

/// The same, on disks that were made so.
pub(crate) fn run_on(seed: u64, aloud: bool, made: impl Fn(Pretend) -> Pretend) -> Came {
    let mut dice = Dice::new(seed);
    let real = seed.is_multiple_of(REAL_ONE_OF);
    let (stock, laptops, steps) = if real {
        (&*REAL, 1, 3)
    } else {
        let laptops = *dice.of(&[1, 2, 2, 2, 3]);
        (&*SMALL, laptops, 6 + dice.below(5))
    };
    let laptops = LAPTOPS.into_iter().take(laptops);
    let laptops = laptops.map(|device| Laptop::new(device, made(barn::disk(device)), dice.throw()));
    let laptops: Vec<Laptop> = laptops.collect();
    let mut day = Day {
        backups: laptops.iter().map(|_| None).collect(),
        laptops,
        dice,
        stock,
        stick: Stick::default(),
        office: Office::default(),
        elsewhere: Vec::new(),
        mishaps: 0,
        merges: 0,
        restored: 0,
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
            36..46 => self.is_backed_up(at),
            46..58 => self.a_backup_is_put_back(at),
            _ => {}
        }
        match self.dice.below(100) {
            0..18 => self.is_carried_over(at),
            18..34 => self.in_the_office(),
            _ => self.at_the_keys(at),
        }
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
            merges: self.merges,
            statements: self.office.kept,
            restored: self.restored,
            closed: [self.office.closed, self.office.opposite],
            given_up: self.office.given_up,
            pruned: self.office.pruned,
        }
    }
}
