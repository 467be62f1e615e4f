//! The year of an invented barn, written as a demo logbook: the files are what the program itself
//! would have written on each of those days, to the byte.

mod crew;
mod manager;
mod written;

use crate::cli::clerk::{DEMO_BARN, Stock, Trouble, name_file};
use crate::record::{Digest, Previous, Tip};
use crate::rig::Rig;
use crate::shown::Dice;
use crate::store::{Device, Disk, Logbook, Mode as For, Unsynced, keep};
use crate::year::{Barn, SUMAC, TRIPS, Trip, first_walked};
use crew::Keys;
use manager::Office;
use std::path::{Path, PathBuf};
use written::{Texts, keep_trip};

/// The year that is shown. Another number is another year.
pub const SEED: u64 = 7;

/// The folder of the year, beside the demo logbook's.
pub const FOLDER: &str = "demo-year";

/// Most names tried for a year in the making.
const MOST_TRIES: u32 = 100;

/// Where a trip stands in its device's sequence, and how that ends so far.
#[derive(Clone, Copy, Debug, Default)]
struct Sequence {
    seq: u64,
    ends: Option<Previous>,
}

/// The logbook of the year below this folder for data of programs, made where it is not there.
///
/// It is made under another name and renamed once it is whole, so that a half made one never
/// stands in its place; what a crash left is passed by, and harms nobody.
///
/// # Errors
/// What the disk refused, or why a key could not be made.
pub fn at_hand(data: &Path) -> Result<PathBuf, Trouble> {
    put_in_place(data, |draft| made(draft, SEED, TRIPS))
}

/// The same of what `make` makes in the folder it is given.
///
/// # Errors
/// As [`at_hand`], and what `make` says.
pub fn put_in_place(
    data: &Path,
    make: impl FnOnce(&Path) -> Result<(), Trouble>,
) -> Result<PathBuf, Trouble> {
    let root = data.join(FOLDER);
    if is_whole(&root) {
        return Ok(root);
    }
    let draft = free_name(data)?;
    make(&draft)?;
    match Unsynced.rename(&draft, &root) {
        // Another program may have been faster; the year is the same.
        Err(_) if is_whole(&root) => Ok(root),
        Err(error) => Err(Trouble::Unusable(format!(
            "The year of the demo barn is made in {}, and cannot be put in its place {}: {error}. \
             Move what lies there out of the way, then try again.",
            draft.display(),
            root.display()
        ))),
        Ok(()) => Ok(root),
    }
}

/// Whether the year has been made below this folder for data of programs.
pub fn is_made(data: &Path) -> bool {
    is_whole(&data.join(FOLDER))
}

fn is_whole(root: &Path) -> bool {
    let crew = root.join("crew").join("allowed_signers");
    Unsynced.exists(&crew).unwrap_or(false)
}

fn free_name(data: &Path) -> Result<PathBuf, Trouble> {
    let mut names = (1..=MOST_TRIES).map(|number| data.join(format!("{FOLDER}.draft-{number}")));
    let free = names.find(|name| !Unsynced.exists(name).unwrap_or(true));
    free.ok_or_else(|| {
        Trouble::Unusable(format!(
            "In {} lie {MOST_TRIES} drafts of the year of the demo barn. Delete them, then try \
             again.",
            data.display()
        ))
    })
}

/// Makes a year in a folder that is not there yet, or so many trips from its first on.
///
/// Nothing waits for the disk: all of it is invented and can be made again.
///
/// # Errors
/// As [`at_hand`].
pub fn made(root: &Path, seed: u64, trips: usize) -> Result<(), Trouble> {
    let (barn, texts) = barn();
    let mut dice = Dice::new(seed.wrapping_add(1));
    let keys = Keys::made(&mut dice)?;
    let logbook = Logbook::make(Unsynced, root)?;
    let name = format!("{DEMO_BARN}\n");
    keep(&Unsynced, &name_file(root), name.as_bytes(), For::Shared)?;
    keys.keep(&logbook)?;
    let mut office = Office::opens(&logbook, &keys)?;
    let devices: Result<Vec<_>, _> = keys
        .laptops
        .iter()
        .map(|laptop| Device::take(&logbook, &laptop.id))
        .collect();
    let devices = devices?;
    let mut sequences = vec![Sequence::default(); devices.len()];
    for trip in first_walked(&barn, seed, trips) {
        office.evening_before(&logbook, &keys, &trip)?;
        let at = trip.laptop;
        let (Some(device), Some(laptop), Some(sequence)) =
            (devices.get(at), keys.laptops.get(at), sequences.get_mut(at))
        else {
            continue;
        };
        let after = Sequence {
            seq: sequence.seq + 1,
            ends: sequence.ends,
        };
        let kept = keep_trip(&trip, &texts, &keys, (device, laptop), after, office.newest)?;
        *sequence = Sequence {
            seq: after.seq,
            ends: Some(kept.ends),
        };
        office.hears_of(trip, &laptop.id, after.seq, kept);
    }
    office.evening(&logbook, &keys)?;
    Ok(logbook.replace_crew(keys.crew.text().as_bytes())?)
}

/// The barn that the year is of.
pub fn invented() -> Barn {
    barn().0
}

/// The demo barn and the year's own rig, with the texts that records bind themselves to.
fn barn() -> (Barn, Texts) {
    let stock = Stock::demo();
    let mut rigs: Vec<(Rig, String)> = Vec::new();
    rigs.extend(
        stock
            .rigs
            .iter()
            .map(|one| (one.read.clone(), one.text.clone())),
    );
    rigs.extend(Rig::read(SUMAC).map(|rig| (rig, SUMAC.to_owned())));
    let lists = stock.checklists.iter();
    let lists = lists.filter_map(|listed| stock.whole(listed));
    let (lists, list_texts) = lists.map(|list| (list.read, list.text)).unzip();
    let (rigs, rig_texts) = rigs.into_iter().unzip();
    let texts = Texts {
        lists: list_texts,
        rigs: rig_texts,
    };
    (Barn { rigs, lists }, texts)
}

/// What is left of a trip once it is kept.
#[derive(Clone, Copy, Debug)]
struct Kept {
    ends: Previous,
    seal: Option<Digest>,
}

impl Kept {
    /// A trip that nobody signed.
    const fn unsigned(tip: &Tip) -> Self {
        Self {
            ends: Previous::Unsealed(tip.last),
            seal: None,
        }
    }

    /// A trip with this seal.
    const fn sealed(seal: Digest) -> Self {
        Self {
            ends: Previous::Sealed(seal),
            seal: Some(seal),
        }
    }
}

/// Whether both trips began on the same day.
fn is_same_day(one: &Trip, other: &Trip) -> bool {
    one.began.wall.date_naive() == other.began.wall.date_naive()
}
