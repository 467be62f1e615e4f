//! What is done with the files of one trip: a plan, as data. Of two histories neither is chosen, and
//! what gives way to something whole is kept aside.

use crate::logbook::merge::candidate::{Candidate, close};
use crate::logbook::merge::files::{Files, History};
use crate::logbook::merge::here::{Here, Known};
use crate::logbook::merge::piece::{Damage, TripKey};
use crate::logbook::merge::why::Why;
use crate::record::{Mode, NotClosed, TripFault};

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

impl SealTexts {
    /// The seal that lies in a folder here, which is no piece of what was brought.
    fn of(held: &Files) -> Option<Self> {
        let piece = |bytes: Vec<u8>| (usize::MAX, bytes);
        let pieces = |bytes: &Option<Vec<u8>>| bytes.clone().into_iter().map(piece).collect();
        Some(Self {
            seal: piece(held.seal.clone()?),
            by_person: pieces(&held.by_person),
            by_device: pieces(&held.by_device),
        })
    }

    const fn is_unsigned(&self) -> bool {
        self.by_person.is_empty() && self.by_device.is_empty()
    }
}

/// What is done with a trip, and what is wrong with it here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Course {
    /// What is done, in this order.
    pub steps: Vec<Step>,
    /// The folders here whose files cannot be relied on, and why. Those that are healed or give way
    /// are among them.
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
    /// Signatures in a folder give way to the seal that comes, which they do not sign.
    Clear {
        /// Which of the folders here.
        ours: usize,
        /// The signatures.
        files: Files,
    },
    /// A damaged folder gets these files: its own give way to them, and are kept aside.
    Heal {
        /// Which of the folders here.
        ours: usize,
        /// The files that it has otherwise, or not at all.
        files: Files,
        /// The history it then has.
        history: History,
    },
    /// A folder that has nothing which another has not is moved aside.
    Dissolve {
        /// Which of the folders here.
        ours: usize,
        /// The one that has it whole.
        into: usize,
    },
    /// A file that cannot be used is kept aside.
    Aside {
        /// Its place in the pile.
        piece: usize,
        /// Why.
        why: Why,
    },
}

/// What is done with one trip, given the folders of the same number here; `named` says which of
/// them have its name, so that it may be completed there where a crash left one without a journal.
pub fn course(
    key: &TripKey,
    theirs: &Theirs,
    ours: &[Files],
    named: &[usize],
    mode: Mode,
) -> Course {
    let mut steps = Vec::new();
    let mut damaged = Vec::new();
    let mut sound = Vec::new();
    for (at, files) in ours.iter().enumerate() {
        match Candidate::read(files, mode) {
            Ok(one) => sound.push(one.filter(|one| one.history.key == *key)),
            Err(faults) => {
                damaged.push((at, faults));
                sound.push(None);
            }
        }
    }
    let empty = |at: &&usize| ours.get(**at).is_some_and(|held| held.journal.is_none());
    let mut here = Here::of(key, ours, mode, &damaged);
    here.free = named.iter().filter(empty).copied().collect();
    here.keep_damaged_of(key, named);
    let (mut candidates, broken) = strands(key, theirs, ours, mode, &mut steps);
    let salvaged = here.salvaged.iter().map(|(_, one)| one);
    let strands = pool(
        candidates.iter().chain(sound.iter().flatten()),
        salvaged.chain(&broken),
    );
    for strand in &mut candidates {
        add_texts(strand, &strands);
    }
    let is_sealed = sound.iter().flatten().any(|one| one.history.seal.is_some());
    let alone: Vec<&Files> = ours.iter().filter(|held| held.seal.is_none()).collect();
    let mut closed = Vec::new();
    for seal in &theirs.seals {
        match close(seal, strands.iter(), &alone, mode) {
            Ok(candidate) => closed.push(candidate),
            // Whoever alters a seal leaves it without a signature. It is not waited for.
            Err(Why::Waits(_)) if is_sealed && seal.is_unsigned() => {
                steps.extend(aside(seal, &Why::NoOnesSeal, ours));
            }
            Err(why) => steps.extend(aside(seal, &why, ours)),
        }
        let seconds = seal.by_person.iter().skip(1);
        let seconds = seconds.chain(seal.by_device.iter().skip(1));
        steps.extend(seconds.map(|(piece, _)| Step::Aside {
            piece: *piece,
            why: Why::SecondSignature,
        }));
    }
    let lacks = |at: &usize| ours.get(*at).is_some_and(Files::lacks_a_signature);
    for at in (0..ours.len()).filter(|at| here.is_in_parts(*at) || lacks(at)) {
        let seal = ours.get(at).and_then(SealTexts::of);
        closed.extend(seal.and_then(|seal| close(&seal, strands.iter(), &alone, mode).ok()));
    }
    candidates.extend(closed.into_iter().filter(|one| one.history.key == *key));
    let spoilt = spoilt(&candidates, &sound);
    steps.extend(spoilt_pieces(theirs, ours, &spoilt));
    candidates.retain(|one| !spoilt.contains(&one.history));
    for (at, one) in (0..).zip(&mut sound) {
        if one.take_if(|one| spoilt.contains(&one.history)).is_some() {
            damaged.push((at, vec![TripFault::NotClosed(NotClosed::Last)]));
            here.damaged.insert(at);
        }
    }
    here.known = known(&sound);
    let whole: Vec<&Candidate> = candidates.iter().chain(sound.iter().flatten()).collect();
    let parted = here.part(&whole);
    candidates.extend(parted);
    // Sealed and long ones first, so that the order in which files are met decides nothing.
    candidates.sort_by_key(|one| {
        let History { lines, seal, .. } = &one.history;
        (seal.is_none(), usize::MAX - lines.len(), one.history.ends())
    });
    for candidate in candidates.clone() {
        here.place(candidate, &mut steps);
    }
    complete(&candidates, ours, &here.known, &mut steps);
    candidates.extend(sound.into_iter().flatten());
    here.dissolve(&candidates, &mut steps);
    Course { steps, damaged }
}

/// The histories that nobody sealed, and that end otherwise than the one that somebody did.
fn spoilt(candidates: &[Candidate], sound: &[Option<Candidate>]) -> Vec<History> {
    let all = candidates.iter().chain(sound.iter().flatten());
    let all: Vec<&History> = all.map(|one| &one.history).collect();
    let (sealed, open): (Vec<&History>, Vec<&History>) =
        all.into_iter().partition(|one| one.seal.is_some());
    let is_spoilt = |one: &&History| {
        sealed.iter().any(|whole| whole.was_sealed_otherwise(one))
            && !sealed.iter().any(|whole| whole.holds(one))
    };
    open.into_iter().filter(is_spoilt).cloned().collect()
}

/// The journals brought that have one of these histories, and do not lie here as they are.
fn spoilt_pieces(theirs: &Theirs, ours: &[Files], spoilt: &[History]) -> Vec<Step> {
    let journals = theirs.journals.iter().filter(|journal| {
        let history = journal.files.history();
        let is_here = ours
            .iter()
            .any(|held| held.journal == journal.files.journal);
        !is_here && history.is_some_and(|history| spoilt.contains(&history))
    });
    let aside = journals.map(|journal| Step::Aside {
        piece: journal.piece,
        why: Why::SealedOtherwise,
    });
    aside.collect()
}

/// The journals a seal may close: what can be relied on before the beginnings of what cannot, each
/// with every text that is at hand for it.
fn pool<'a>(
    sound: impl Iterator<Item = &'a Candidate>,
    broken: impl Iterator<Item = &'a Candidate>,
) -> Vec<Candidate> {
    let all: Vec<Candidate> = sound.chain(broken).cloned().collect();
    let mut pool = all.clone();
    for strand in &mut pool {
        add_texts(strand, &all);
    }
    pool
}

fn add_texts(strand: &mut Candidate, all: &[Candidate]) {
    let first = strand.history.lines.first().copied();
    let same = |one: &&Candidate| one.history.lines.first().copied() == first;
    for one in all.iter().filter(same) {
        strand.add_texts(&one.files);
    }
}

fn known(sound: &[Option<Candidate>]) -> Vec<Known> {
    let known = sound.iter().enumerate().filter_map(|(at, one)| {
        let history = one.as_ref()?.history.clone();
        let ours = Some(at);
        Some(Known { history, ours })
    });
    known.collect()
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
                scenario: candidate.files.scenario.clone(),
                sights: candidate.files.sights.clone(),
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

/// The journals that can be relied on, without a seal; and of the others the lines before their
/// first fault, which a seal may close.
fn strands(
    key: &TripKey,
    theirs: &Theirs,
    ours: &[Files],
    mode: Mode,
    steps: &mut Vec<Step>,
) -> (Vec<Candidate>, Vec<Candidate>) {
    let (mut strands, mut broken) = (Vec::new(), Vec::new());
    for journal in &theirs.journals {
        let why = match Candidate::read(&journal.files, mode) {
            Ok(Some(one)) if one.history.key == *key => {
                strands.push(one);
                continue;
            }
            Ok(_) => Why::Damaged(Damage::NoBeginning),
            Err(faults) => Why::Faults(faults.iter().map(ToString::to_string).collect()),
        };
        broken.extend(Candidate::salvaged(&journal.files, mode));
        // What lies here as it is, is told as damaged here.
        let is_here = |held: &Files| held.journal == journal.files.journal;
        if !ours.iter().any(is_here) {
            let piece = journal.piece;
            steps.push(Step::Aside { piece, why });
        }
    }
    (strands, broken)
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
