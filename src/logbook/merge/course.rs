//! What is done with the files of one trip: a plan, as data. Nothing that is there is replaced, and
//! of two histories neither is chosen.

use crate::logbook::merge::files::{Files, History, first_lines, whole_lines};
use crate::logbook::merge::piece::{Damage, TripKey};
use crate::logbook::merge::why::{Awaited, Why};
use crate::record::{Mode, Seal, TripFault};

/// What a folder has of one trip. Numbers are places in the pile.
#[derive(Clone, Debug, Default)]
pub struct Theirs {
    /// Its journals.
    pub journals: Vec<JournalTexts>,
    /// Its seals.
    pub seals: Vec<SealTexts>,
}

/// A journal and the texts it names, where they are at hand.
#[derive(Clone, Debug, Default)]
pub struct JournalTexts {
    /// Its place in the pile.
    pub piece: usize,
    /// Journal, checklist, rig and crew file; the rest is nothing.
    pub files: Files,
}

/// A seal and its signatures.
#[derive(Clone, Debug, Default)]
pub struct SealTexts {
    /// The seal.
    pub seal: (usize, Vec<u8>),
    /// The person's signatures: one, or none.
    pub by_person: Vec<(usize, Vec<u8>)>,
    /// The device's.
    pub by_device: Vec<(usize, Vec<u8>)>,
}

/// What is done with a trip, and what is wrong with it here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Course {
    /// What is done, in this order.
    pub steps: Vec<Step>,
    /// The folders here whose files cannot be relied on, and why.
    pub damaged: Vec<(usize, Vec<TripFault>)>,
}

/// One thing that is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// A folder is made for a history that is nowhere here.
    Keep {
        /// Its files.
        files: Files,
        /// The history.
        history: History,
        /// Whether another history of the same trip is here.
        beside: bool,
    },
    /// A history that is here goes on by these lines.
    Extend {
        /// Which of the folders here.
        ours: usize,
        /// The lines, each without its line end.
        lines: Vec<Vec<u8>>,
    },
    /// What a folder lacks is put there.
    Add {
        /// Which of the folders here.
        ours: usize,
        /// The files.
        files: Files,
    },
    /// A file that cannot be used is kept aside.
    Aside {
        /// Its place in the pile.
        piece: usize,
        /// Why.
        why: Why,
    },
}

/// A history here, and in which folder it lies; in none yet where this merge makes the folder.
struct Known {
    history: History,
    ours: Option<usize>,
}

/// A history of theirs that may be kept.
#[derive(Clone)]
struct Candidate {
    files: Files,
    history: History,
}

/// What is done with one trip, given the folders of the same number here; `free` says which of
/// them a crash left without a journal, so that this trip may be completed there.
pub fn course(
    key: &TripKey,
    theirs: &Theirs,
    ours: &[Files],
    free: &[usize],
    mode: Mode,
) -> Course {
    let mut steps = Vec::new();
    let mut damaged = Vec::new();
    let mut sound = Vec::new();
    for (at, files) in ours.iter().enumerate() {
        match candidate(files, mode) {
            Ok(one) => sound.push(one),
            Err(faults) => {
                damaged.push((at, faults));
                sound.push(None);
            }
        }
    }
    let here = sound.iter().flatten();
    let here: Vec<&Candidate> = here.filter(|one| one.history.key == *key).collect();
    let mut strands = strands(key, theirs, ours, mode, &mut steps);
    for strand in &mut strands {
        let first = strand.history.lines.first();
        for one in here.iter().filter(|one| one.history.lines.first() == first) {
            strand.files = texts(&strand.files, &one.files);
        }
    }
    let mut candidates = Vec::new();
    for seal in &theirs.seals {
        let closed = close(seal, strands.iter().chain(here.iter().copied()), mode);
        match closed {
            Ok(candidate) => candidates.push(candidate),
            Err(why) => steps.extend(aside(seal, &why, ours)),
        }
        let seconds = seal.by_person.iter().skip(1);
        let seconds = seconds.chain(seal.by_device.iter().skip(1));
        steps.extend(seconds.map(|(piece, _)| Step::Aside {
            piece: *piece,
            why: Why::SecondSignature,
        }));
    }
    candidates.extend(strands);
    // Sealed and long ones first, so that the order in which files are met decides nothing.
    candidates.sort_by_key(|one| {
        let History { lines, seal, .. } = &one.history;
        (seal.is_none(), usize::MAX - lines.len(), one.history.ends())
    });
    let mut known: Vec<Known> = sound
        .into_iter()
        .enumerate()
        .filter_map(|(at, one)| {
            let history = one?.history;
            let ours = Some(at);
            (history.key == *key).then_some(Known { history, ours })
        })
        .collect();
    let mut free = free.iter().copied();
    let all = candidates.clone();
    for candidate in candidates {
        place(candidate, ours, &mut known, &mut free, &mut steps);
    }
    complete(&all, ours, &known, &mut steps);
    Course { steps, damaged }
}

/// Puts texts beside every history that names them, not only beside the one they came with.
fn complete(all: &[Candidate], ours: &[Files], known: &[Known], steps: &mut Vec<Step>) {
    for one in known {
        let held = one.ours.and_then(|at| Some((at, ours.get(at)?)));
        let Some((at, held)) = held else { continue };
        let same =
            |candidate: &&Candidate| candidate.history.lines.first() == one.history.lines.first();
        for candidate in all.iter().filter(same) {
            let wanted = Files {
                checklist: candidate.files.checklist.clone(),
                rig: candidate.files.rig.clone(),
                crew: candidate.files.crew.clone(),
                ..Files::default()
            };
            let step = Step::Add {
                ours: at,
                files: held.lacks(&wanted),
            };
            let covers = |other: &Step| match (other, &step) {
                (Step::Add { ours, files }, Step::Add { files: new, .. }) => {
                    *ours == at && files.lacks(new).is_empty()
                }
                _ => false,
            };
            if !held.lacks(&wanted).is_empty() && !steps.iter().any(covers) {
                steps.push(step);
            }
        }
    }
}

/// The files, with texts from where they are at hand.
fn texts(one: &Files, other: &Files) -> Files {
    let either = |one: &Option<Vec<u8>>, other: &Option<Vec<u8>>| one.clone().or(other.clone());
    Files {
        checklist: either(&one.checklist, &other.checklist),
        rig: either(&one.rig, &other.rig),
        crew: either(&one.crew, &other.crew),
        ..one.clone()
    }
}

/// The journals that can be relied on, without a seal.
fn strands(
    key: &TripKey,
    theirs: &Theirs,
    ours: &[Files],
    mode: Mode,
    steps: &mut Vec<Step>,
) -> Vec<Candidate> {
    let mut strands = Vec::new();
    for journal in &theirs.journals {
        let why = match candidate(&journal.files, mode) {
            Ok(Some(one)) if one.history.key == *key => {
                strands.push(one);
                continue;
            }
            Ok(_) => Why::Damaged(Damage::NoBeginning),
            Err(faults) => Why::Faults(faults.iter().map(ToString::to_string).collect()),
        };
        // What lies here as it is, is told as damaged here.
        let is_here = |held: &Files| held.journal == journal.files.journal;
        if !ours.iter().any(is_here) {
            let piece = journal.piece;
            steps.push(Step::Aside { piece, why });
        }
    }
    strands
}

/// Files of a trip with their history; nothing where there is no journal.
fn candidate(files: &Files, mode: Mode) -> Result<Option<Candidate>, Vec<TripFault>> {
    let Some(journal) = files.journal.as_deref() else {
        return Ok(None);
    };
    let files = Files {
        journal: Some(whole_lines(journal).to_vec()),
        ..files.clone()
    };
    let faults = files.faults(mode);
    match files.history() {
        Some(history) if faults.is_empty() => Ok(Some(Candidate { files, history })),
        _ => Err(faults),
    }
}

/// The history a seal closes, with its signatures.
fn close<'a>(
    seal: &SealTexts,
    mut strands: impl Iterator<Item = &'a Candidate>,
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
    let files = Files {
        journal: Some(first_lines(journal, count).to_vec()),
        seal: Some(bytes.clone()),
        by_person: first(&seal.by_person),
        by_device: first(&seal.by_device),
        ..strand.files.clone()
    };
    if files.by_person.is_none() && files.by_device.is_none() {
        return Err(Why::Waits(Awaited::Signatures));
    }
    if files.crew.is_none() {
        return Err(Why::Waits(Awaited::Crew));
    }
    match candidate(&files, mode) {
        Ok(Some(one)) => Ok(one),
        Ok(None) => Err(Why::Waits(Awaited::Journal)),
        Err(faults) => Err(Why::Faults(
            faults.iter().map(ToString::to_string).collect(),
        )),
    }
}

fn aside(seal: &SealTexts, why: &Why, ours: &[Files]) -> Vec<Step> {
    let (_, bytes) = &seal.seal;
    if ours.iter().any(|held| held.seal.as_ref() == Some(bytes)) {
        return Vec::new();
    }
    let signatures = seal.by_person.iter().chain(&seal.by_device);
    let pieces = signatures.map(|(piece, _)| *piece).chain([seal.seal.0]);
    pieces
        .map(|piece| Step::Aside {
            piece,
            why: why.clone(),
        })
        .collect()
}

/// Decides where one history goes.
fn place(
    candidate: Candidate,
    ours: &[Files],
    known: &mut Vec<Known>,
    free: &mut impl Iterator<Item = usize>,
    steps: &mut Vec<Step>,
) {
    let Candidate { files, history } = candidate;
    let held = |at: Option<usize>| at.and_then(|at| ours.get(at).map(|held| (at, held)));
    if let Some(one) = known.iter().find(|one| one.history.holds(&history)) {
        if let Some((at, held)) = held(one.ours) {
            add(at, held, &files, steps);
        }
        return;
    }
    let beginnings = known.iter_mut();
    let beginnings = beginnings.filter(|one| one.ours.is_some() && one.history.begins(&history));
    if let Some(one) = beginnings.max_by_key(|one| one.history.lines.len()) {
        if let Some((at, held)) = held(one.ours) {
            let journal = files.journal.as_deref().unwrap_or_default();
            let lines = journal.split(|byte| *byte == b'\n');
            let lines: Vec<Vec<u8>> = lines
                .filter(|line| !line.is_empty())
                .skip(one.history.lines.len())
                .map(<[u8]>::to_vec)
                .collect();
            if !lines.is_empty() {
                steps.push(Step::Extend { ours: at, lines });
            }
            add(at, held, &files, steps);
        }
        one.history = history;
        return;
    }
    let fits = |at: &usize| {
        let held = ours.get(*at).cloned().unwrap_or_default();
        let same = |held: &Option<Vec<u8>>, new: &Option<Vec<u8>>| held.is_none() || held == new;
        same(&held.checklist, &files.checklist)
            && same(&held.rig, &files.rig)
            && same(&held.crew, &files.crew)
            && same(&held.seal, &files.seal)
    };
    let beside = !known.is_empty();
    let at = if beside { None } else { free.find(fits) };
    match held(at) {
        Some((at, held)) => add(at, held, &files, steps),
        None => steps.push(Step::Keep {
            files,
            history: history.clone(),
            beside,
        }),
    }
    let ours = at;
    known.push(Known { history, ours });
}

fn add(at: usize, held: &Files, files: &Files, steps: &mut Vec<Step>) {
    let files = held.lacks(files);
    if !files.is_empty() {
        steps.push(Step::Add { ours: at, files });
    }
}
