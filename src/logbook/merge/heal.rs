//! What is damaged, or a second copy, held against what is whole: whether it has anything that the
//! whole one has not. Only what has nothing of its own gives way.

use crate::logbook::merge::candidate::Candidate;
use crate::logbook::merge::files::{Files, History, whole_lines};
use crate::logbook::merge::piece::untouched;
use crate::record::{
    Crew, Deed, Digest, Envelope, Mode, Namespace, Seal, Statement, Tag, Unreadable,
};
use std::collections::HashSet;

/// The files of a damaged folder with those of a whole history in the place of what is damaged;
/// nothing where it would not be whole by that, or has a seal of its own.
pub(super) fn healed(held: &Files, whole: &Candidate, mode: Mode) -> Option<Files> {
    let files = &whole.files;
    let crew = files.crew.as_deref().map(Crew::read)?.ok()?;
    let seal = match (&held.seal, &files.seal) {
        (None, seal) => seal.clone(),
        (Some(own), Some(seal)) if own != seal && is_signed(held, &crew, mode) => return None,
        (Some(_), Some(seal)) => Some(seal.clone()),
        (Some(own), None) => Some(own.clone()),
    };
    let begun = files.begun()?;
    let text = |own: &Option<Vec<u8>>, other: &Option<Vec<u8>>, hash| match own {
        Some(own) if Digest::of(own) == hash => Some(own.clone()),
        own => other.clone().or_else(|| own.clone()),
    };
    let signature = |own: &Option<Vec<u8>>, other: &Option<Vec<u8>>, deed| match (own, &seal) {
        (Some(own), Some(seal)) if holds(seal, own, &crew, Namespace::new(deed, mode)) => {
            Some(own.clone())
        }
        (own, _) => other.clone().or_else(|| own.clone()),
    };
    let healed = Files {
        journal: files.journal.clone(),
        checklist: text(&held.checklist, &files.checklist, begun.checklist.hash),
        rig: text(&held.rig, &files.rig, begun.rig.hash),
        crew: text(&held.crew, &files.crew, begun.crew),
        scenario: match &begun.drill {
            Some(drill) => text(&held.scenario, &files.scenario, drill.scenario.hash),
            None => held.scenario.clone(),
        },
        sights: match &begun.drill {
            Some(drill) => text(&held.sights, &files.sights, drill.sights),
            None => held.sights.clone(),
        },
        by_person: signature(&held.by_person, &files.by_person, Deed::Performed),
        by_device: signature(&held.by_device, &files.by_device, Deed::Witnessed),
        by_examiner: signature(&held.by_examiner, &files.by_examiner, Deed::Performed),
        seal,
    };
    // A signature that never lay beside its seal is no evidence about the one that came.
    let strange = match held.seal {
        None => of_another_seal(&healed, &healed, mode),
        Some(_) => Files::default(),
    };
    let healed = healed.without_signatures(&strange);
    let is_whole = Candidate::read(&healed, mode).is_ok_and(|one| one.is_some());
    is_whole.then_some(healed)
}

/// Whether the journal of a damaged folder has nothing but what this history has.
pub(super) fn has_nothing_but(held: &Files, whole: &History) -> bool {
    let journal = held.journal.as_deref().unwrap_or_default();
    is_within(journal, whole)
}

/// The files of a whole history with what a second folder of it, or of its beginning, has beside;
/// nothing where that one has a history of its own. Of two alike the `first` stays.
pub(super) fn absorbed(
    held: &Files,
    own: &History,
    whole: &Candidate,
    first: bool,
) -> Option<Files> {
    let gives_way = whole.history.holds(own) && (first || !own.holds(&whole.history));
    let with = |lacks: Files| Files {
        journal: whole.files.journal.clone(),
        ..lacks
    };
    gives_way.then(|| with(whole.files.lacks(held)))
}

/// Whether what lies under a name of its own beside a whole trip is held by it, or by another folder
/// of the same number: the same bytes, a beginning, what a copying tool made of them, or damage.
pub fn is_held(bytes: &[u8], whole: &Files, others: &[Files], mode: Mode) -> bool {
    let written = untouched(bytes).unwrap_or_else(|| bytes.to_vec());
    let mut known = [whole].into_iter().chain(others).flat_map(Files::all);
    if bytes.is_empty() || known.any(|file| file.starts_with(&written)) {
        return !bytes.is_empty();
    }
    let Some((seal, crew)) = whole.seal.as_deref().zip(whole.crew.as_deref()) else {
        return false;
    };
    if bytes.starts_with(b"-----BEGIN SSH SIGNATURE-----\n") {
        let Ok(crew) = Crew::read(crew) else {
            return false;
        };
        let deeds = [Deed::Performed, Deed::Witnessed];
        let mut spaces = deeds.into_iter().map(|deed| Namespace::new(deed, mode));
        return spaces.any(|space| holds(seal, bytes, &crew, space));
    }
    let is_another = Seal::read(&written).is_ok() || Statement::read(&written).is_ok();
    let is_record = written.starts_with(b"{\"v\":") && !is_another;
    let history = whole.history().filter(|_| is_record);
    history.is_some_and(|history| is_within(bytes, &history))
}

/// So many bytes at most tell a bad copy of a small file from one that says something else.
const FLIPPED: usize = 4;

/// Whether these bytes are those, but for what a copying tool or a bad disk does: other line ends, a
/// mark in front, an end that is missing, a byte or two that were changed.
pub fn is_damaged_copy(bytes: &[u8], whole: &[u8]) -> bool {
    bytes != whole
        && (whole.starts_with(bytes)
            || untouched(bytes).is_some_and(|written| written == whole)
            || is_nearly(bytes, whole))
}

/// Whether only a byte or two of them are others.
pub fn is_nearly(bytes: &[u8], whole: &[u8]) -> bool {
    let others = bytes.iter().zip(whole).filter(|(one, other)| one != other);
    bytes.len() == whole.len() && others.count() <= FLIPPED
}

/// Whether a journal, damaged or not, has no line of its own that somebody may have written. A line
/// that can be read and is another one than there counts as such, unless the next is again one of
/// those there: who goes on in another way does not come back. Nor is the last one of a sealed
/// journal anybody's own where all before it is there: another was sealed in its place.
fn is_within(journal: &[u8], whole: &History) -> bool {
    let written = untouched(journal).unwrap_or_else(|| journal.to_vec());
    let known: HashSet<&Digest> = whole.lines.iter().collect();
    let is_known = |line: &[u8]| known.contains(&Digest::tagged(Tag::Line, line));
    let lines = whole_lines(&written).split_inclusive(|byte| *byte == b'\n');
    let lines = lines.map(|line| line.strip_suffix(b"\n").unwrap_or(line));
    let mut lines = lines.peekable();
    let (mut count, mut follows) = (0, false);
    while let Some(line) = lines.next() {
        count += 1;
        let comes_back = lines.peek().is_some_and(|next| is_known(next));
        let is_last = count == whole.lines.len() && lines.peek().is_none();
        let was_sealed_otherwise = whole.seal.is_some() && follows && is_last;
        follows = is_known(line);
        if !follows && is_written(line) && !comes_back && !was_sealed_otherwise {
            return false;
        }
    }
    // What was never sealed may have gone on, and the damage may be over just those lines.
    whole.seal.is_some() || count <= whole.lines.len()
}

/// Whether somebody's program wrote this line, as far as can be told from it alone.
fn is_written(line: &[u8]) -> bool {
    match Envelope::read(line) {
        Ok(_) | Err(Unreadable::Version { .. }) => true,
        Err(_) => false,
    }
}

/// Whether anybody's signature here holds for the seal here.
fn is_signed(held: &Files, crew: &Crew, mode: Mode) -> bool {
    let seal = held.seal.as_deref().unwrap_or_default();
    let space = |deed| Namespace::new(deed, mode);
    let is_seal = matches!(Seal::read(seal), Ok(_) | Err(Unreadable::Version { .. }));
    // A signature that is missing may still come, where this is a seal.
    let by = |armor: &Option<Vec<u8>>, deed| match armor {
        None => is_seal,
        Some(armor) => holds(seal, armor, crew, space(deed)),
    };
    by(&held.by_person, Deed::Performed) || by(&held.by_device, Deed::Witnessed)
}

/// The signatures among these files that are not of the seal which `other` brings for them.
pub(super) fn of_another_seal(files: &Files, other: &Files, mode: Mode) -> Files {
    let crew = other.crew.as_ref().or(files.crew.as_ref());
    let crew = crew.and_then(|crew| Crew::read(crew).ok());
    let Some((seal, crew)) = other.seal.as_deref().zip(crew) else {
        return Files::default();
    };
    let is_other = |deed| {
        let (crew, space) = (&crew, Namespace::new(deed, mode));
        move |armor: &Vec<u8>| !holds(seal, armor, crew, space)
    };
    Files {
        by_person: files.by_person.clone().filter(is_other(Deed::Performed)),
        by_device: files.by_device.clone().filter(is_other(Deed::Witnessed)),
        ..Files::default()
    }
}

/// Whether it is the signature of somebody of that crew over these bytes.
fn holds(bytes: &[u8], armor: &[u8], crew: &Crew, space: Namespace) -> bool {
    let Ok(armor) = std::str::from_utf8(armor) else {
        return false;
    };
    let mut signers = crew.signers().iter();
    signers.any(|signer| signer.key.verify(space, bytes, armor).is_ok())
}
