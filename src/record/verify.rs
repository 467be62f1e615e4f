//! Verification: one function judges a trip, bytes before content, and tells every fault.

mod finding;
mod repeat;
mod seal;
mod trip_fault;

pub use finding::Finding;
pub use trip_fault::TripFault;

use crate::drill::{Did, Line};
use crate::record::{
    Answered, Begun, Chain, Crew, Digest, Hashed, Mode, Receipt, Said, Seal, Signer, Tail, Tip,
    read_chain,
};
use crate::walk::{Entry, Moment, Words};

/// The files of one trip, as stored.
#[derive(Clone, Copy, Debug)]
pub struct TripFiles<'a> {
    /// The journal.
    pub journal: &'a [u8],
    /// The checklist as it was walked.
    pub checklist: &'a [u8],
    /// The rig as it was described.
    pub rig: &'a [u8],
    /// What a drill rests on besides; nothing of any other trip.
    pub drill: DrillFiles<'a>,
    /// What closed the trip, where something did.
    pub seal: Option<SealFiles<'a>>,
}

/// The files a drill rests on besides those of a walk, as stored; empty where there are none.
#[derive(Clone, Copy, Debug, Default)]
pub struct DrillFiles<'a> {
    /// The scenario.
    pub scenario: &'a [u8],
    /// What is seen from where.
    pub sights: &'a [u8],
    /// The examiner's signature over the seal of a check ride.
    pub by_examiner: Option<&'a [u8]>,
}

/// The files that close a trip.
#[derive(Clone, Copy, Debug)]
pub struct SealFiles<'a> {
    /// The seal.
    pub seal: &'a [u8],
    /// The person's signature over it.
    pub by_person: Option<&'a [u8]>,
    /// The device's.
    pub by_device: Option<&'a [u8]>,
}

/// What became of a verification.
#[derive(Clone, Debug, PartialEq)]
pub struct Examined {
    /// Everything wrong or missing, in the order found.
    pub faults: Vec<TripFault>,
    /// The trip, where its bytes can be relied on: intact, or intact so far and not sealed.
    pub trip: Option<Verified>,
    /// What line 0 answers, as far as it can be read, whatever else is found of the trip.
    pub answers: Vec<Answered>,
}

/// A trip whose every byte was verified. Only [`verify`] makes one.
#[derive(Clone, Debug, PartialEq)]
pub struct Verified {
    begun: Begun,
    at: Moment,
    actor: Words,
    entries: Vec<Entry>,
    /// Of a drill every line behind line 0, in order; nothing of any other trip.
    drilled: Vec<Line>,
    lines: Vec<Digest>,
    sealed: Option<Sealed>,
}

/// The seal of a verified trip, and who signed it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sealed {
    /// What it says.
    pub seal: Seal,
    /// Its hash.
    pub hash: Digest,
    /// The person, as the crew knows them.
    pub person: Signer,
    /// The device.
    pub device: Signer,
    /// The examiner, where it is a check ride.
    pub examiner: Option<Signer>,
}

/// Verifies a trip found in a logbook of `mode`, by the crews the verifier trusts.
///
/// Line 0 names the crew file in force; signatures count by that revision alone, whatever time
/// anyone claims, and only when it is among `crews`.
pub fn verify(files: &TripFiles<'_>, mode: Mode, crews: &[Crew]) -> Examined {
    verify_by(Digest::of, files, mode, crews)
}

/// The same, for who verifies one trip after the other: most of them rest on the same files.
pub fn verify_next(
    hashed: &mut Hashed,
    files: &TripFiles<'_>,
    mode: Mode,
    crews: &[Crew],
) -> Examined {
    verify_by(|file| hashed.of(file), files, mode, crews)
}

fn verify_by(
    hash: impl FnMut(&[u8]) -> Digest,
    files: &TripFiles<'_>,
    mode: Mode,
    crews: &[Crew],
) -> Examined {
    let chain = read_chain(files.journal);
    let mut faults = chain_faults(&chain, files.seal.is_some());
    let seal = files.seal.map(|files| seal::read(files, &chain));
    let told = tell(chain, &mut faults);
    if let Some(told) = &told {
        faults.extend(bound(&told.begun, files, mode, hash));
    }
    let sealed = match (seal, &told) {
        (None, _) => {
            faults.push(TripFault::NoSeal);
            None
        }
        (Some(_), None) => None,
        (Some(seal), Some(told)) => {
            let by_examiner = files.drill.by_examiner;
            seal::examine((seal, by_examiner), told, crews, &mut faults)
        }
    };
    let examined = Examined {
        faults,
        trip: None,
        answers: told
            .as_ref()
            .map_or_else(Vec::new, |told| told.begun.answers.clone()),
    };
    let reliable = examined.is_reliable();
    Examined {
        trip: told
            .filter(|_| reliable)
            .map(|told| Verified { sealed, ..told }),
        ..examined
    }
}

fn chain_faults(chain: &Chain, sealed: bool) -> Vec<TripFault> {
    let mut faults: Vec<_> = chain
        .faults
        .iter()
        .cloned()
        .map(TripFault::Journal)
        .collect();
    if let Tail::Torn(bytes) = &chain.tail {
        let bytes = bytes.len();
        faults.push(if sealed {
            TripFault::CutShort { bytes }
        } else {
            TripFault::Torn { bytes }
        });
    }
    faults
}

/// What the lines that can be relied on say. The sealed part is filled in later.
fn tell(chain: Chain, faults: &mut Vec<TripFault>) -> Option<Verified> {
    let lines = chain.links.iter().map(|link| link.hash).collect();
    let broken = !chain.faults.is_empty();
    let mut entries = Vec::with_capacity(chain.links.len());
    let mut drilled = Vec::new();
    let mut rest = chain.links.into_iter();
    let Some(first) = rest.next() else {
        faults.extend((!broken).then_some(TripFault::Nothing));
        return None;
    };
    let begun = match first.said {
        Ok(Said::Begun(begun)) => Some(*begun),
        Ok(Said::Happened(_) | Said::Drilled(_)) => {
            faults.push(TripFault::NotBegun);
            None
        }
        Err(reason) => {
            faults.push(TripFault::Body { line: 1, reason });
            None
        }
    };
    let is_drill = begun.as_ref().is_some_and(|begun| begun.drill.is_some());
    for (line, link) in (2..).zip(rest) {
        match link.said {
            Ok(Said::Happened(event)) => {
                let entry = event.at(link.heading);
                drilled.extend(is_drill.then(|| Line::of(&entry)));
                entries.push(entry);
            }
            Ok(Said::Drilled(said)) if is_drill => {
                let (at, _) = link.heading.at_by();
                let did = Did::Drilled(*said);
                drilled.push(Line { at, did });
            }
            Ok(Said::Drilled(_)) => faults.push(TripFault::DrilledOutside { line }),
            Ok(Said::Begun(_)) => faults.push(TripFault::BegunAgain { line }),
            Err(reason) => faults.push(TripFault::Body { line, reason }),
        }
    }
    let (at, actor) = first.heading.at_by();
    Some(Verified {
        begun: begun?,
        at,
        actor,
        entries,
        drilled,
        lines,
        sealed: None,
    })
}

/// Whether the trip stands where it belongs, with the files it names.
fn bound(
    begun: &Begun,
    files: &TripFiles<'_>,
    mode: Mode,
    mut hash: impl FnMut(&[u8]) -> Digest,
) -> Vec<TripFault> {
    let mut faults = Vec::new();
    if begun.mode != mode {
        let found = begun.mode;
        faults.push(TripFault::OtherMode { found, mode });
    }
    let texts = [
        (
            files.checklist,
            begun.checklist.hash,
            TripFault::Checklist,
            TripFault::NoChecklist,
        ),
        (files.rig, begun.rig.hash, TripFault::Rig, TripFault::NoRig),
    ];
    let drill = begun.drill.iter().flat_map(|drill| {
        let scenario = TripFault::Beside("scenario.yaml");
        let sights = TripFault::Beside("sights.yaml");
        [
            (
                files.drill.scenario,
                drill.scenario.hash,
                scenario,
                TripFault::NotBeside("scenario.yaml"),
            ),
            (
                files.drill.sights,
                drill.sights,
                sights,
                TripFault::NotBeside("sights.yaml"),
            ),
        ]
    });
    for (text, named, another, none) in texts.into_iter().chain(drill) {
        if hash(text) != named {
            faults.push(if text.is_empty() { none } else { another });
        }
    }
    faults
}

impl Examined {
    /// The one finding: that of the gravest fault.
    pub fn finding(&self) -> Finding {
        let gravest = self.faults.iter().map(TripFault::finding).max();
        gravest.unwrap_or(Finding::Intact)
    }
}

impl Verified {
    /// What line 0 says.
    pub const fn begun(&self) -> &Begun {
        &self.begun
    }

    /// When the walk began.
    pub const fn at(&self) -> &Moment {
        &self.at
    }

    /// Who began it.
    pub const fn actor(&self) -> &Words {
        &self.actor
    }

    /// What happened, in order.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// Of a drill every line behind line 0, in order: what was looked at, measured and called, and
    /// what happened on its walk. Nothing of any other trip.
    pub fn drilled(&self) -> &[Line] {
        &self.drilled
    }

    /// The hash of each line, line 0 first.
    pub fn lines(&self) -> &[Digest] {
        &self.lines
    }

    /// Where the next line goes.
    pub fn tip(&self) -> Tip {
        self.lines
            .iter()
            .fold(Tip::START, |tip, hash| tip.after(*hash))
    }

    /// The seal and its signers; nothing when the trip is not sealed.
    pub const fn sealed(&self) -> Option<&Sealed> {
        self.sealed.as_ref()
    }
}

impl Sealed {
    /// The short code of the seal.
    pub fn receipt(&self) -> Receipt {
        Receipt::of(&self.hash)
    }
}
