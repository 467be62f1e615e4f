//! The seal against the journal, and its two signatures against the crew in force.

use crate::record::{
    Chain, Counts, Crew, Deed, Id, Mode, Namespace, NotClosed, Role, Seal, SealFiles, Sealed,
    Signer, TripFault, Unreadable, Verified,
};
use crate::rules::{Outcome, Verdict};
use crate::walk::{Ended, Entry, Event, Words};

/// A seal as read, and whether it closes the journal.
pub(super) struct Read<'a> {
    files: SealFiles<'a>,
    seal: Result<(Seal, Result<(), NotClosed>), Unreadable>,
}

/// Reads the seal against the journal. Nothing of it can be relied on before it is examined.
pub(super) fn read<'a>(files: SealFiles<'a>, chain: &Chain) -> Read<'a> {
    let seal = Seal::read(files.seal).map(|seal| {
        let closes = seal.closes(chain);
        (seal, closes)
    });
    Read { files, seal }
}

/// The seal with its signers, where all of it holds; every fault where not.
pub(super) fn examine(
    (read, by_examiner): (Read<'_>, Option<&[u8]>),
    told: &Verified,
    crews: &[Crew],
    faults: &mut Vec<TripFault>,
) -> Option<Sealed> {
    let files = read.files;
    let (seal, closes) = match read.seal {
        Ok(read) => read,
        Err(reason) => {
            faults.push(TripFault::Seal(reason));
            return None;
        }
    };
    let begun = told.begun();
    faults.extend(disagreements(&[
        ("trip", seal.trip == begun.trip),
        ("mode", seal.mode == begun.mode),
        ("device", seal.device == begun.device),
        ("number", seal.seq == begun.seq),
    ]));
    match closes {
        Ok(()) => faults.extend(disagreements(&[
            ("outcome", Some(seal.outcome) == outcome(told.entries())),
            ("counts", seal.counts == Counts::of(told.entries())),
        ])),
        // What is wrong with the journal itself has been told.
        Err(NotClosed::NotIntact) => {}
        Err(reason) => faults.push(TripFault::NotClosed(reason)),
    }
    let revision = begun.crew;
    let Some(crew) = crews.iter().find(|crew| crew.revision() == revision) else {
        faults.push(TripFault::Crew(revision));
        return None;
    };
    let person = signer(
        crew,
        (&seal.person, seal.role),
        (Deed::Performed, seal.mode),
        files.seal,
        files.by_person.ok_or(TripFault::NoPerson),
    );
    let device = signer(
        crew,
        (&seal.device, Role::Device),
        (Deed::Witnessed, seal.mode),
        files.seal,
        files.by_device.ok_or(TripFault::NoDevice),
    );
    let (person, device) = (keep(person, faults), keep(device, faults));
    let (person, device) = (person?, device?);
    if person.name != seal.name {
        faults.push(TripFault::Name {
            sealed: seal.name.to_string(),
            crew: person.name.to_string(),
        });
    }
    let examiner = match begun
        .drill
        .as_ref()
        .and_then(|drill| drill.examiner.as_ref())
    {
        Some(name) => {
            let signed = examined(crew, (name, &person), files.seal, by_examiner);
            Some(keep(signed, faults)?)
        }
        None => None,
    };
    Some(Sealed {
        hash: Seal::hash(files.seal),
        seal,
        person,
        device,
        examiner,
    })
}

/// Who examined: one of the crew by that name who may, who is not the person, and who signed.
fn examined(
    crew: &Crew,
    (name, person): (&Words, &Signer),
    seal: &[u8],
    armor: Option<&[u8]>,
) -> Result<Signer, TripFault> {
    let who = crew.examiner(name.as_str(), person);
    let (who, role) = who.ok_or_else(|| TripFault::Examiner(name.to_string()))?;
    signer(
        crew,
        (&who.id, role),
        (Deed::Performed, Mode::Drill),
        seal,
        armor.ok_or(TripFault::NoExaminer),
    )
}

fn signer(
    crew: &Crew,
    who: (&Id, Role),
    (deed, mode): (Deed, Mode),
    seal: &[u8],
    armor: Result<&[u8], TripFault>,
) -> Result<Signer, TripFault> {
    let armor = std::str::from_utf8(armor?).map_err(|_| TripFault::NotText)?;
    crew.verify(who, Namespace::new(deed, mode), seal, armor)
        .cloned()
        .map_err(TripFault::Signature)
}

fn keep<T>(read: Result<T, TripFault>, faults: &mut Vec<TripFault>) -> Option<T> {
    read.map_err(|fault| faults.push(fault)).ok()
}

/// Points on which the seal says something else than the journal.
fn disagreements(points: &[(&'static str, bool)]) -> Vec<TripFault> {
    let differ = points.iter().filter(|(_, agree)| !agree);
    differ
        .map(|(point, _)| TripFault::OtherSeal(point))
        .collect()
}

/// As what the walk ended: its last event says so, and no other.
fn outcome(entries: &[Entry]) -> Option<Ended> {
    match entries.split_last()? {
        (
            Entry {
                event: Event::Ended { outcome, .. },
                ..
            },
            before,
        ) if !before
            .iter()
            .any(|entry| matches!(entry.event, Event::Ended { .. })) =>
        {
            Some(*outcome)
        }
        _ => None,
    }
}

impl Counts {
    /// How many answers of a walk came to each verdict.
    pub fn of(entries: &[Entry]) -> Self {
        let mut counts = Self::default();
        for entry in entries {
            if let Event::Answered { given, .. } = &entry.event {
                match given.outcome() {
                    Outcome::Judged(Verdict::Ok) => counts.ok += 1,
                    Outcome::Judged(Verdict::Note) => counts.note += 1,
                    Outcome::Judged(Verdict::Fix) => counts.fix += 1,
                    Outcome::Judged(Verdict::Stop) => counts.stop += 1,
                    Outcome::Again => {}
                }
            }
        }
        counts
    }
}
