//! The clerk on a disk that fails or loses power at any call: what was called recorded is there.

use crate::harness::good;
use crate::plain::bench::{plan, words};
use crate::sim::keys;
use crate::store::pretend::{Fate, Image, Pretend, Trouble};
use hames::cli::clerk::{Clerk, Place, Stock};
use hames::desk::{Barn, Consent, Errand, Reply};
use hames::record::{Mode, Passphrase};
use hames::walk::{Act, Ended, Entry, Now, Walk};
use hames::world::Machine;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::LazyLock;

/// A walk as one person at one program sees it: what was answered, and what was called recorded.
struct Sitting {
    clerk: Clerk<Pretend>,
    recorded: Vec<Entry>,
    /// What stopped it.
    stopped: Option<String>,
}

impl Sitting {
    fn at(disk: &Pretend) -> Self {
        let place = Place {
            root: "/demo".into(),
            mode: Mode::Demo,
        };
        Self {
            clerk: Clerk::new(disk.clone(), Machine::this(), place, Stock::demo()),
            recorded: Vec::new(),
            stopped: None,
        }
    }

    fn ask(&mut self, errand: Errand) -> Option<Reply> {
        if self.stopped.is_some() {
            return None;
        }
        match self.clerk.perform(errand) {
            Reply::Cannot(sentence) | Reply::ReadOnly(sentence) => {
                self.stopped = Some(sentence);
                None
            }
            Reply::Refused(refusal) => panic!("{refusal}"),
            other => Some(other),
        }
    }

    fn begin(&mut self) -> Option<Walk> {
        let reply = self.ask(Errand::Begin {
            rig: "juniper".into(),
            checklist: "hitch-bumper".into(),
            reader: "Wren Ashdown".into(),
            doer: "Tobias Fenn".into(),
            odometer: "48210 mi".into(),
            walked: String::new(),
            answers: Vec::new(),
        })?;
        Some(walking(reply))
    }

    fn record(&mut self, act: Act) -> Option<Entry> {
        match self.ask(Errand::Record(act))? {
            Reply::Recorded(entry) => {
                self.recorded.push((*entry).clone());
                Some(*entry)
            }
            other => panic!("{other:?}"),
        }
    }

    /// Good answers to this many questions, each recorded before the next.
    fn walk(&mut self, walk: &mut Walk, questions: usize) -> Option<()> {
        for _ in 0..questions {
            if matches!(walk.now(), Now::Next(_)) {
                walk.apply(&self.record(Act::Open)?);
            }
            let Now::Open(index) = walk.now() else {
                panic!("{:?}", walk.now());
            };
            let good = good::good(walk.plan(), &walk.asked(index).unwrap(), "Odile Marsh");
            walk.apply(&self.record(good.act().clone())?);
        }
        Some(())
    }

    fn end(&mut self) -> Option<()> {
        let words = "rain".to_owned();
        self.record(Act::End {
            outcome: Ended::Incomplete,
            words,
        })
        .map(drop)
    }

    fn seal(&mut self) -> Option<()> {
        let passphrase = Passphrase::new("demo".to_owned().into()).unwrap();
        let consent = Consent::Passphrase(passphrase);
        let signer = "wren.ashdown".to_owned();
        self.ask(Errand::Seal { signer, consent }).map(drop)
    }

    fn barn(&mut self) -> Barn {
        match self.clerk.perform(Errand::LookAround) {
            Reply::Barn(barn) => barn,
            other => panic!("{other:?}"),
        }
    }

    fn take_up(&mut self) -> Walk {
        let barn = self.barn();
        assert_eq!(barn.unfinished.len(), 1, "{barn:?}");
        let trip = barn.unfinished[0].trip.clone();
        walking(self.clerk.perform(Errand::TakeUp { trip }))
    }
}

fn walking(reply: Reply) -> Walk {
    match reply {
        Reply::Walking { walk, .. } => *walk,
        other => panic!("{other:?}"),
    }
}

/// What lies on a disk with the demo barn founded, one trip of it begun and three questions
/// answered. Its keys open sooner than real ones.
fn founded() -> Image {
    let disk = Pretend::empty();
    let mut sitting = Sitting::at(&disk);
    let mut walk = sitting.begin().unwrap();
    sitting.walk(&mut walk, 1).unwrap();
    sitting.end().unwrap();
    sitting.seal().unwrap();
    for person in ["wren.ashdown", "tobias.fenn", "odile.marsh"] {
        let path = Path::new("/demo/keys").join(person);
        let file = String::from_utf8(disk.seen(&path).unwrap()).unwrap();
        disk.place(&path, keys::sooner(&file, "demo").as_bytes());
    }
    disk.image()
}

/// Keys are slow to make, so it is done once.
static FOUNDED: LazyLock<Image> = LazyLock::new(founded);

/// A disk on which that lies.
pub(crate) fn copy() -> Pretend {
    Pretend::with(FOUNDED.clone())
}

/// Whether a walk has every answer that was called recorded.
fn holds(walk: &Walk, recorded: &[Entry]) -> bool {
    let people = (words("Wren Ashdown"), words("Tobias Fenn"));
    let mut told = Walk::begin(plan(), people.0, people.1, walk.began().clone());
    for entry in recorded {
        told.apply(entry);
    }
    let steps = walk.steps().iter().zip(told.steps());
    steps.clone().count() > 0
        && steps
            .into_iter()
            .all(|(kept, told)| kept.answers.starts_with(&told.answers))
}

/// The calls of this that write, by their number from its beginning.
fn writing(disk: &Pretend, does: impl FnOnce()) -> Vec<usize> {
    let (calls, changes) = (disk.calls(), disk.changes());
    does();
    let writing = disk.changing_calls().into_iter().skip(changes);
    writing.map(|call| call - calls).collect()
}

#[test]
fn whatever_call_the_power_fails_at_what_was_called_recorded_is_there() {
    let fates = [
        Fate::Lost,
        Fate::Kept,
        Fate::Half,
        Fate::OtherHalf,
        Fate::Lots(7),
    ];
    let disk = copy();
    let calls = writing(&disk, || {
        let mut sitting = Sitting::at(&disk);
        let mut walk = sitting.begin().unwrap();
        sitting.walk(&mut walk, 2).unwrap();
    });
    let troubles = [Trouble::StopsBefore, Trouble::StopsAfter];
    let troubles = troubles.into_iter().cycle();
    for ((call, trouble), fate) in calls
        .into_iter()
        .zip(troubles)
        .zip(fates.into_iter().cycle())
    {
        let disk = copy();
        let mut sitting = Sitting::at(&disk);
        disk.trouble_after(call, trouble);
        let begun = sitting.begin();
        if let Some(mut walk) = begun.clone() {
            sitting.walk(&mut walk, 2);
        }
        let mut later = Sitting::at(&disk.after_power_loss(fate));
        let unfinished = later.barn().unfinished.len();
        assert!(
            begun.is_none() || unfinished == 1,
            "{call} {fate:?} {:?}",
            later.barn()
        );
        if unfinished == 0 {
            assert!(later.begin().is_some(), "{:?}", later.stopped);
            continue;
        }
        let mut walk = later.take_up();
        assert!(holds(&walk, &sitting.recorded), "{call} {fate:?}");
        later.walk(&mut walk, 1).unwrap();
    }
}

#[test]
fn after_a_refused_line_nothing_is_called_recorded_and_the_rest_is_for_paper() {
    let refusals = [
        Trouble::Refuses(ErrorKind::StorageFull),
        Trouble::WritesHalf,
    ];
    for trouble in refusals {
        let mut failed = 0;
        for call in 0.. {
            let disk = copy();
            let mut sitting = Sitting::at(&disk);
            let mut walk = sitting.begin().unwrap();
            disk.trouble_after(call, trouble);
            if sitting.walk(&mut walk, 2).is_some() {
                break;
            }
            failed += 1;
            let sentence = sitting.stopped.take().unwrap();
            assert!(sentence.contains("Finish on paper"), "{sentence}");
            assert!(
                sitting
                    .record(Act::Note {
                        words: "later".into()
                    })
                    .is_none()
            );
            let mut later = Sitting::at(&disk.after_death());
            assert!(
                holds(&later.take_up(), &sitting.recorded),
                "{call} {trouble:?}"
            );
        }
        assert!(failed > 3, "{trouble:?} stopped nothing");
    }
}

#[test]
fn a_seal_that_fails_at_any_call_is_made_good_later() {
    let ended = || {
        let disk = copy();
        let mut sitting = Sitting::at(&disk);
        let mut walk = sitting.begin().unwrap();
        sitting.walk(&mut walk, 1).unwrap();
        sitting.end().unwrap();
        (disk, sitting)
    };
    let (disk, mut sitting) = ended();
    let calls = writing(&disk, || sitting.seal().unwrap());
    let troubles = [
        Trouble::StopsAfter,
        Trouble::Refuses(ErrorKind::StorageFull),
    ];
    for (call, trouble) in calls.into_iter().zip(troubles.into_iter().cycle()) {
        let (disk, mut sitting) = ended();
        disk.trouble_after(call, trouble);
        sitting.seal();
        let mut later = Sitting::at(&disk.after_power_loss(Fate::Lots(11)));
        let barn = later.barn();
        if let Some(card) = barn.unfinished.first() {
            let trip = card.trip.clone();
            walking(later.clerk.perform(Errand::TakeUp { trip }));
            later.seal();
            assert_eq!(later.stopped, None, "{call} {trouble:?}");
        }
        let barn = later.barn();
        assert_eq!(
            (barn.unfinished.len(), barn.finished.len()),
            (0, 2),
            "{call} {trouble:?}"
        );
        assert!(
            barn.finished
                .iter()
                .all(|card| card.stands == "incomplete, sealed")
        );
    }
}

#[test]
fn a_founding_cut_off_anywhere_is_finished_by_the_next_one() {
    let disk = Pretend::empty();
    disk.film();
    Sitting::at(&disk).begin().unwrap();
    let film = disk.filmed();
    let calls = film.len();
    for (call, left) in film.iter().enumerate().step_by(5) {
        let left = Pretend::with(left.after_power_loss(Fate::Lots(3)));
        let mut later = Sitting::at(&left);
        if later.barn().unfinished.is_empty() {
            later.begin();
            assert_eq!(later.stopped, None, "{call} of {calls}");
        } else {
            later.take_up();
        }
    }
}
