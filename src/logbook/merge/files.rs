//! The files of one trip as they lie in a folder, and how its history stands to another one.

use crate::logbook::merge::piece::TripKey;
use crate::record::{
    Begun, Crew, Digest, DrillFiles, Mode, Said, Seal, SealFiles, TripFault, TripFiles, read_chain,
    split_torn, verify,
};

/// The files of a trip. What is not there has not arrived, or was never made.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Files {
    /// The journal.
    pub journal: Option<Vec<u8>>,
    /// The checklist as it was walked.
    pub checklist: Option<Vec<u8>>,
    /// The rig as it was described.
    pub rig: Option<Vec<u8>>,
    /// The scenario of a drill.
    pub scenario: Option<Vec<u8>>,
    /// What is seen from where in a drill.
    pub sights: Option<Vec<u8>>,
    /// The crew file in force when it began.
    pub crew: Option<Vec<u8>>,
    /// The seal.
    pub seal: Option<Vec<u8>>,
    /// The person's signature of it.
    pub by_person: Option<Vec<u8>>,
    /// The device's.
    pub by_device: Option<Vec<u8>>,
    /// The examiner's, of a check ride.
    pub by_examiner: Option<Vec<u8>>,
}

/// What happened in a trip, told by hashes: two histories with the same hashes are the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct History {
    /// The trip.
    pub key: TripKey,
    /// The hash of each line.
    pub lines: Vec<Digest>,
    /// The hash of the seal.
    pub seal: Option<Digest>,
}

impl Files {
    /// Everything wrong with what is there, by the crew file the trip itself names. Whether that
    /// crew file counts is another question, and its answer changes as a logbook grows.
    pub fn faults(&self, mode: Mode) -> Vec<TripFault> {
        let crew = self.crew.as_deref().map(Crew::read);
        let crew = crew.and_then(Result::ok);
        let files = TripFiles {
            journal: self.journal.as_deref().unwrap_or_default(),
            checklist: self.checklist.as_deref().unwrap_or_default(),
            rig: self.rig.as_deref().unwrap_or_default(),
            drill: DrillFiles {
                scenario: self.scenario.as_deref().unwrap_or_default(),
                sights: self.sights.as_deref().unwrap_or_default(),
                by_examiner: self.by_examiner.as_deref(),
            },
            seal: self.seal.as_ref().map(|seal| SealFiles {
                seal,
                by_person: self.by_person.as_deref(),
                by_device: self.by_device.as_deref(),
            }),
        };
        let mut faults = verify(&files, mode, crew.as_slice()).faults;
        faults.retain(|fault| !self.has_not_arrived(fault));
        faults
    }

    fn has_not_arrived(&self, fault: &TripFault) -> bool {
        match fault {
            TripFault::NoSeal
            | TripFault::NoPerson
            | TripFault::NoDevice
            | TripFault::NoExaminer
            | TripFault::Torn { .. } => true,
            TripFault::NoChecklist => self.checklist.is_none(),
            TripFault::NoRig => self.rig.is_none(),
            TripFault::NotBeside("scenario.yaml") => self.scenario.is_none(),
            TripFault::NotBeside(_) => self.sights.is_none(),
            TripFault::Crew(_) => self.crew.is_none(),
            _ => false,
        }
    }

    /// Line 0.
    pub fn begun(&self) -> Option<Begun> {
        let journal = self.journal.as_deref()?;
        let chain = read_chain(first_line(journal));
        match &chain.links.first()?.said {
            Ok(Said::Begun(begun)) => Some((**begun).clone()),
            _ => None,
        }
    }

    /// The trips that its first line and its seal say it is; where nothing is damaged, one.
    pub fn keys(&self) -> Vec<TripKey> {
        let seal = self.seal.as_deref().and_then(|seal| Seal::read(seal).ok());
        let begun = self.begun().map(|begun| TripKey::of(&begun));
        let sealed = seal.as_ref().map(TripKey::sealed);
        begun.into_iter().chain(sealed).collect()
    }

    /// Its history, as far as the lines go that can be relied on.
    pub fn history(&self) -> Option<History> {
        let chain = read_chain(self.journal.as_deref()?);
        Some(History {
            key: TripKey::of(&self.begun()?),
            lines: chain.links.iter().map(|link| link.hash).collect(),
            seal: self.seal.as_deref().map(Seal::hash),
        })
    }

    /// What `other` has and this has not.
    #[must_use]
    pub fn lacks(&self, other: &Self) -> Self {
        let lacks = |ours: &Option<Vec<u8>>, theirs: &Option<Vec<u8>>| match ours {
            None => theirs.clone(),
            Some(_) => None,
        };
        Self {
            journal: lacks(&self.journal, &other.journal),
            checklist: lacks(&self.checklist, &other.checklist),
            rig: lacks(&self.rig, &other.rig),
            scenario: lacks(&self.scenario, &other.scenario),
            sights: lacks(&self.sights, &other.sights),
            crew: lacks(&self.crew, &other.crew),
            seal: lacks(&self.seal, &other.seal),
            by_person: lacks(&self.by_person, &other.by_person),
            by_device: lacks(&self.by_device, &other.by_device),
            by_examiner: lacks(&self.by_examiner, &other.by_examiner),
        }
    }

    /// What `other` has otherwise than this, or this has not at all.
    #[must_use]
    pub fn differs(&self, other: &Self) -> Self {
        let differs = |ours: &Option<Vec<u8>>, theirs: &Option<Vec<u8>>| {
            theirs.clone().filter(|_| ours != theirs)
        };
        Self {
            journal: differs(&self.journal, &other.journal),
            checklist: differs(&self.checklist, &other.checklist),
            rig: differs(&self.rig, &other.rig),
            scenario: differs(&self.scenario, &other.scenario),
            sights: differs(&self.sights, &other.sights),
            crew: differs(&self.crew, &other.crew),
            seal: differs(&self.seal, &other.seal),
            by_person: differs(&self.by_person, &other.by_person),
            by_device: differs(&self.by_device, &other.by_device),
            by_examiner: differs(&self.by_examiner, &other.by_examiner),
        }
    }

    /// Whether a seal is there, and not both of its signatures.
    pub(super) const fn lacks_a_signature(&self) -> bool {
        self.seal.is_some() && (self.by_person.is_none() || self.by_device.is_none())
    }

    /// The same without the signatures that `other` has.
    #[must_use]
    pub(super) fn without_signatures(self, other: &Self) -> Self {
        Self {
            by_person: self.by_person.filter(|_| other.by_person.is_none()),
            by_device: self.by_device.filter(|_| other.by_device.is_none()),
            ..self
        }
    }

    /// The lines of the journal behind the first so many, each without its line end.
    pub(super) fn lines_from(&self, count: usize) -> Vec<Vec<u8>> {
        let journal = self.journal.as_deref().unwrap_or_default();
        let lines = journal.split(|byte| *byte == b'\n');
        let lines = lines.filter(|line| !line.is_empty()).skip(count);
        lines.map(<[u8]>::to_vec).collect()
    }

    /// The texts: checklist, rig and crew file, and of a drill scenario and sights.
    pub fn texts(&self) -> impl Iterator<Item = &Vec<u8>> {
        let texts = [&self.checklist, &self.rig, &self.crew];
        let drill = [&self.scenario, &self.sights];
        texts.into_iter().chain(drill).flatten()
    }

    /// Every file that is there.
    pub fn all(&self) -> impl Iterator<Item = &Vec<u8>> {
        let signatures = [&self.by_person, &self.by_device, &self.by_examiner];
        let records = [&self.journal, &self.seal].into_iter().chain(signatures);
        records.flatten().chain(self.texts())
    }

    /// Whether there is nothing at all.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl History {
    /// Whether the other one is this, or its beginning.
    pub fn holds(&self, other: &Self) -> bool {
        self.key == other.key
            && self.lines.starts_with(&other.lines)
            && (other.seal.is_none() || other.seal == self.seal)
    }

    /// Whether this one, not sealed, is the beginning of the other.
    pub fn begins(&self, other: &Self) -> bool {
        self.key == other.key && self.seal.is_none() && other.lines.starts_with(&self.lines)
    }

    /// Whether this one, sealed, is the other but for the last line. Nobody sealed that one and
    /// nothing stands on it: it is damage, whatever it says, and no history of its own.
    pub(super) fn was_sealed_otherwise(&self, other: &Self) -> bool {
        let same = self.key == other.key && self.lines.len() == other.lines.len();
        let before = |history: &Self| history.lines.split_last().map(|(_, lines)| lines.to_vec());
        let is_sealed = self.seal.is_some() && other.seal.is_none();
        same && is_sealed && before(self) == before(other) && self.lines != other.lines
    }

    /// How it ends: its seal, or its last line.
    pub fn ends(&self) -> Digest {
        let last = self.lines.last().copied().unwrap_or(Digest::ZERO);
        self.seal.unwrap_or(last)
    }
}

/// The whole lines of a journal. What a power loss left behind them was never called recorded.
pub(super) fn whole_lines(journal: &[u8]) -> &[u8] {
    split_torn(journal).0
}

/// The first so many lines.
pub(super) fn first_lines(journal: &[u8], count: usize) -> &[u8] {
    let mut ends = (1..).zip(journal).filter(|(_, byte)| **byte == b'\n');
    let end = ends.nth(count.saturating_sub(1)).map_or(0, |(end, _)| end);
    journal
        .split_at_checked(end)
        .map_or(journal, |(lines, _)| lines)
}

fn first_line(journal: &[u8]) -> &[u8] {
    first_lines(journal, 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_counted_from_the_first_and_a_torn_end_is_none() {
        assert_eq!(whole_lines(b"a\nb\nc"), b"a\nb\n");
        assert_eq!(first_lines(b"a\nb\nc\n", 2), b"a\nb\n");
        assert_eq!(first_lines(b"a\n", 1), b"a\n");
    }
}
