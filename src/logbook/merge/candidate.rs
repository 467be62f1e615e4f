//! Histories that can be relied on: put together from a journal, a seal and the texts they name,
//! wherever each of them lies.

use crate::logbook::merge::course::SealTexts;
use crate::logbook::merge::files::{Files, History, first_lines, whole_lines};
use crate::logbook::merge::heal::of_another_seal;
use crate::logbook::merge::why::{Awaited, Why};
use crate::record::{Digest, Mode, Seal, TripFault, read_chain};

/// A history with its files. Nothing is wrong with what there is of it.
#[derive(Clone)]
pub(super) struct Candidate {
    pub(super) files: Files,
    pub(super) history: History,
}

impl Candidate {
    /// Files of a trip with their history; nothing where there is no journal.
    pub(super) fn read(files: &Files, mode: Mode) -> Result<Option<Self>, Vec<TripFault>> {
        let Some(journal) = files.journal.as_deref() else {
            return Ok(None);
        };
        // What a crash left of a line is no line, but a sealed journal has none of that.
        let journal = match files.seal {
            None => whole_lines(journal),
            Some(_) => journal,
        };
        let files = Files {
            journal: Some(journal.to_vec()),
            ..files.clone()
        };
        let faults = files.faults(mode);
        match files.history() {
            Some(history) if faults.is_empty() => Ok(Some(Self { files, history })),
            _ => Err(faults),
        }
    }

    /// What can be relied on of damaged files: the lines before the first fault, and the texts that
    /// are those the first line names. No seal is among them.
    pub(super) fn salvaged(files: &Files, mode: Mode) -> Option<Self> {
        let journal = files.journal.as_deref()?;
        let begun = files.begun()?;
        let lines = read_chain(journal).links.len();
        let named = |text: &Option<Vec<u8>>, hash: Digest| {
            text.clone().filter(|text| Digest::of(text) == hash)
        };
        let drilled = begun.drill.as_ref();
        let salvaged = Files {
            journal: Some(first_lines(journal, lines).to_vec()),
            checklist: named(&files.checklist, begun.checklist.hash),
            rig: named(&files.rig, begun.rig.hash),
            crew: named(&files.crew, begun.crew),
            scenario: drilled.and_then(|one| named(&files.scenario, one.scenario.hash)),
            sights: drilled.and_then(|one| named(&files.sights, one.sights)),
            ..Files::default()
        };
        Self::read(&salvaged, mode).ok().flatten()
    }

    /// Takes texts it lacks from where they are at hand.
    pub(super) fn add_texts(&mut self, other: &Files) {
        let files = &mut self.files;
        for (own, other) in [
            (&mut files.checklist, &other.checklist),
            (&mut files.rig, &other.rig),
            (&mut files.crew, &other.crew),
            (&mut files.scenario, &other.scenario),
            (&mut files.sights, &other.sights),
        ] {
            if own.is_none() {
                own.clone_from(other);
            }
        }
    }
}

/// The history a seal closes, with its signatures: those that came with it, and else such as lie
/// `alone` here, beside no seal.
pub(super) fn close<'a>(
    seal: &SealTexts,
    mut strands: impl Iterator<Item = &'a Candidate>,
    alone: &[&Files],
    mode: Mode,
) -> Result<Candidate, Why> {
    let (_, bytes) = &seal.seal;
    let said = Seal::read(bytes).map_err(|reason| Why::Faults(vec![reason.to_string()]))?;
    let count = usize::try_from(said.lines).unwrap_or(usize::MAX);
    let at = count.checked_sub(1);
    let closes = |one: &&Candidate| at.and_then(|at| one.history.lines.get(at)) == Some(&said.last);
    let strand = strands.find(closes).ok_or(Why::Waits(Awaited::Journal))?;
    let journal = strand.files.journal.as_deref().unwrap_or_default();
    let first =
        |signatures: &[(usize, Vec<u8>)]| signatures.first().map(|(_, bytes)| bytes.clone());
    let mut files = Files {
        journal: Some(first_lines(journal, count).to_vec()),
        seal: Some(bytes.clone()),
        by_person: first(&seal.by_person),
        by_device: first(&seal.by_device),
        ..strand.files.clone()
    };
    for held in alone {
        let strange = of_another_seal(held, &files, mode);
        let found = (*held).clone().without_signatures(&strange);
        files.by_person = files.by_person.or(found.by_person);
        files.by_device = files.by_device.or(found.by_device);
    }
    if files.by_person.is_none() && files.by_device.is_none() {
        return Err(Why::Waits(Awaited::Signatures));
    }
    if files.crew.is_none() {
        return Err(Why::Waits(Awaited::Crew));
    }
    match Candidate::read(&files, mode) {
        Ok(Some(one)) => Ok(one),
        Ok(None) => Err(Why::Waits(Awaited::Journal)),
        Err(faults) => Err(Why::Faults(
            faults.iter().map(ToString::to_string).collect(),
        )),
    }
}
