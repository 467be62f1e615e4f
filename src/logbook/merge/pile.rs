//! Every file of a folder, once each, and what belongs to what: by hashes and signatures, not by
//! names. Lying in the same folder is a hint where to look first, and nothing more.

use crate::logbook::merge::piece::{TripKey, What, untouched, what};
use crate::record::{Approved, Crew, Deed, Digest, Id, Mode, Namespace, PublicKey, Statement};
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

/// Files by content. The same bytes in two places are one piece.
#[derive(Clone, Debug, Default)]
pub struct Pile {
    pieces: Vec<Piece>,
    by_hash: HashMap<Digest, usize>,
    /// What has a name that no record has: a photo, a letter.
    strange: BTreeSet<usize>,
    /// Folders that have a place in a logbook: what lies there is likely to be of one.
    of_a_logbook: BTreeSet<usize>,
}

/// One file.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its plain hash.
    pub hash: Digest,
    /// What it is.
    pub what: What,
    /// The folders it lies in, by number.
    pub folders: Vec<usize>,
    /// The bytes, where they are small and looked at more than once: seals, signatures,
    /// statements, approvals. Many journals do not fit into memory together.
    pub bytes: Vec<u8>,
    /// The hash it would have had before a tool changed its line endings.
    before: Option<Digest>,
}

/// What a folder comes to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Assembled {
    /// The files of each trip.
    pub trips: BTreeMap<TripKey, Bundle>,
    /// Statements, with their signatures.
    pub statements: Vec<Signed>,
    /// Approvals, with their signatures.
    pub approvals: Vec<Signed>,
    /// Checklists and rigs that records here name.
    pub texts: Vec<usize>,
    /// Records and what lies beside records, that belong to nothing here.
    pub loose: Vec<usize>,
    /// Texts whose line endings were changed on the way.
    pub in_transit: Vec<usize>,
    /// What is no record and lies beside none: it is left alone.
    pub foreign: Vec<usize>,
}

/// The files of one trip, by their place in the pile.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Bundle {
    /// Its journals: one, or several that went on in different ways or arrived in part.
    pub journals: Vec<usize>,
    /// Its seals.
    pub seals: Vec<SealPieces>,
}

/// A seal and who signed it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SealPieces {
    /// The seal.
    pub seal: usize,
    /// The person's signatures: one, or none.
    pub by_person: Vec<usize>,
    /// The device's.
    pub by_device: Vec<usize>,
}

/// A file that somebody signed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Signed {
    /// The file.
    pub file: usize,
    /// The signatures that hold for it.
    pub signatures: Vec<usize>,
}

/// Which of the two signatures of a seal, or the only one of another file.
#[derive(Clone, Copy, PartialEq, Eq)]
enum By {
    Person,
    Device,
}

/// The keys that ids stand for, by every crew file there is.
type Keys<'a> = HashMap<&'a Id, Vec<&'a PublicKey>>;

impl Pile {
    /// Adds a file that lies in this folder; answers where in the pile it is, and whether it is new.
    pub fn add(&mut self, folder: usize, bytes: Vec<u8>) -> (usize, bool) {
        let hash = Digest::of(&bytes);
        if let Some(at) = self.by_hash.get(&hash).copied() {
            if let Some(piece) = self.pieces.get_mut(at) {
                piece.folders.push(folder);
            }
            return (at, false);
        }
        let at = self.pieces.len();
        let what = what(&bytes);
        let kept = matches!(
            what,
            What::Seal(_) | What::Statement(_) | What::Approval(_) | What::Signature
        );
        let before = matches!(what, What::Other)
            .then(|| untouched(&bytes))
            .flatten();
        self.pieces.push(Piece {
            hash,
            what,
            folders: vec![folder],
            bytes: if kept { bytes } else { Vec::new() },
            before: before.map(|bytes| Digest::of(&bytes)),
        });
        self.by_hash.insert(hash, at);
        (at, true)
    }

    /// Says that a piece has a name that no record and no copy of one has. It is left alone, unless
    /// what is in it is a record.
    pub fn leave(&mut self, at: usize) {
        self.strange.insert(at);
    }

    /// Says that this folder has a place in a logbook. A text may lie there alone, before the record
    /// that names it has arrived.
    pub fn mark(&mut self, folder: usize) {
        self.of_a_logbook.insert(folder);
    }

    /// A piece, by its place.
    pub fn get(&self, at: usize) -> Option<&Piece> {
        self.pieces.get(at)
    }

    /// Where the file with this plain hash is.
    pub fn find(&self, hash: &Digest) -> Option<usize> {
        self.by_hash.get(hash).copied()
    }

    /// The crew files in it.
    pub fn crews(&self) -> impl Iterator<Item = &Crew> {
        self.pieces.iter().filter_map(|piece| match &piece.what {
            What::Crew(crew) => Some(&**crew),
            _ => None,
        })
    }

    /// Puts together what belongs together. Signatures are held against the keys of the crew files
    /// here and of those given.
    pub fn assemble(&self, known: &[Crew]) -> Assembled {
        let mut all = Assembled::default();
        let mut wanted: HashSet<Digest> = HashSet::new();
        let mut signable = Vec::new();
        for (at, piece) in self.pieces.iter().enumerate() {
            match &piece.what {
                What::Journal(beginning) => {
                    wanted.extend(beginning.texts);
                    all.bundle(&beginning.key).journals.push(at);
                }
                What::Seal(seal) => {
                    let pieces = SealPieces {
                        seal: at,
                        ..SealPieces::default()
                    };
                    all.bundle(&TripKey::sealed(seal)).seals.push(pieces);
                    signable.push(at);
                }
                What::Statement(_) => {
                    all.statements.push(Signed::unsigned(at));
                    signable.push(at);
                }
                What::Approval(approval) => {
                    wanted.insert(approval.hash);
                    all.approvals.push(Signed::unsigned(at));
                    signable.push(at);
                }
                _ => {}
            }
        }
        self.give_signatures(&mut all, &signable, known);
        self.put_the_rest(&mut all, &wanted);
        all
    }

    fn give_signatures(&self, all: &mut Assembled, signable: &[usize], known: &[Crew]) {
        let keys = keys(self.crews().chain(known));
        let mut by_folder: HashMap<usize, Vec<usize>> = HashMap::new();
        for at in signable {
            for folder in self.get(*at).into_iter().flat_map(|piece| &piece.folders) {
                by_folder.entry(*folder).or_default().push(*at);
            }
        }
        for (at, piece) in self.pieces.iter().enumerate() {
            if piece.what != What::Signature {
                continue;
            }
            let Ok(armor) = std::str::from_utf8(&piece.bytes) else {
                all.loose.push(at);
                continue;
            };
            let near = piece.folders.iter().filter_map(|one| by_folder.get(one));
            let mut tried = near.flatten().chain(signable);
            let found = tried.find_map(|file| {
                let by = signs(armor, self.get(*file)?, &keys)?;
                Some((*file, by))
            });
            match found {
                Some((file, by)) => self.give(all, file, by, at),
                None => all.loose.push(at),
            }
        }
    }

    fn give(&self, all: &mut Assembled, file: usize, by: By, signature: usize) {
        let piece = self.get(file);
        if let Some(What::Seal(seal)) = piece.map(|piece| &piece.what) {
            let mut seals = all.bundle(&TripKey::sealed(seal)).seals.iter_mut();
            if let Some(pieces) = seals.find(|pieces| pieces.seal == file) {
                match by {
                    By::Person => pieces.by_person.push(signature),
                    By::Device => pieces.by_device.push(signature),
                }
            }
            return;
        }
        let mut others = all.statements.iter_mut().chain(&mut all.approvals);
        if let Some(signed) = others.find(|signed| signed.file == file) {
            signed.signatures.push(signature);
        }
    }

    /// What is left when records have taken what they name.
    fn put_the_rest(&self, all: &mut Assembled, wanted: &HashSet<Digest>) {
        let mut records: BTreeSet<usize> = self
            .pieces
            .iter()
            .filter(|piece| piece.what.is_record())
            .flat_map(|piece| piece.folders.iter().copied())
            .collect();
        records.extend(&self.of_a_logbook);
        for (at, piece) in self.pieces.iter().enumerate() {
            let beside = piece.folders.iter().any(|one| records.contains(one));
            match &piece.what {
                What::Other if wanted.contains(&piece.hash) => all.texts.push(at),
                What::Other if piece.before.is_some_and(|hash| wanted.contains(&hash)) => {
                    all.in_transit.push(at);
                }
                What::Other if beside && !self.strange.contains(&at) => all.loose.push(at),
                What::Other => all.foreign.push(at),
                What::Damaged(_) => all.loose.push(at),
                _ => {}
            }
        }
    }
}

impl Assembled {
    fn bundle(&mut self, key: &TripKey) -> &mut Bundle {
        self.trips.entry(key.clone()).or_default()
    }
}

impl Signed {
    fn unsigned(file: usize) -> Self {
        Self {
            file,
            signatures: Vec::new(),
        }
    }
}

fn keys<'a>(crews: impl Iterator<Item = &'a Crew>) -> Keys<'a> {
    let mut keys = Keys::new();
    for signer in crews.flat_map(Crew::signers) {
        let of_id = keys.entry(&signer.id).or_default();
        if !of_id.contains(&&signer.key) {
            of_id.push(&signer.key);
        }
    }
    keys
}

/// As whose signature it holds for this file.
fn signs(armor: &str, file: &Piece, keys: &Keys<'_>) -> Option<By> {
    let holds = |id: &Id, deed: Deed, mode: Mode| {
        let mut of_id = keys.get(id).into_iter().flatten();
        let namespace = Namespace::new(deed, mode);
        of_id.any(|key| key.verify(namespace, &file.bytes, armor).is_ok())
    };
    match &file.what {
        What::Seal(seal) if holds(&seal.person, Deed::Performed, seal.mode) => Some(By::Person),
        What::Seal(seal) if holds(&seal.device, Deed::Witnessed, seal.mode) => Some(By::Device),
        What::Statement(said) => {
            let Statement { manager, mode, .. } = &**said;
            holds(manager, Deed::Stated, *mode).then_some(By::Person)
        }
        What::Approval(approval) => {
            let Approved { person, mode, .. } = &**approval;
            holds(person, Deed::Approved, *mode).then_some(By::Person)
        }
        _ => None,
    }
}
