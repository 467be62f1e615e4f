//! The clerk keeps drills: what was called recorded is there, a drill is taken up where it was left,
//! and what was signed counts.

use crate::clerk::copy;
use crate::store::pretend::{Fate, Pretend, Trouble};
use hames::cli::clerk::{Clerk, Place, Stock};
use hames::desk::{AskedDrill, Consent, DrillRoom, Errand, Reply, TripCard, WhichDrill};
use hames::drill::{Did, Doing, Drilled, Line, Run, Stage};
use hames::record::{Mode, Passphrase};
use hames::walk::{Act, Now, Words};
use hames::world::Machine;
use std::io::ErrorKind;
use std::path::Path;

/// More acts than any drill has.
const MOST: usize = 300;

/// A learner at one program.
struct Sitting {
    clerk: Clerk<Pretend>,
    run: Option<Run>,
    /// What was called recorded.
    kept: Vec<Did>,
}

impl Sitting {
    fn at(disk: &Pretend) -> Self {
        let place = Place {
            root: "/demo".into(),
            mode: Mode::Demo,
        };
        Self {
            clerk: Clerk::new(disk.clone(), Machine::this(), place, Stock::demo()),
            run: None,
            kept: Vec::new(),
        }
    }

    fn room(&mut self) -> DrillRoom {
        match self.clerk.perform(Errand::LookAtDrills) {
            Reply::DrillRoom(room) => *room,
            other => panic!("{other:?}"),
        }
    }

    fn begin(&mut self, id: &str, stage: Option<Stage>) -> bool {
        let asked = AskedDrill {
            which: WhichDrill::Named(id.to_owned()),
            learner: "Wren Ashdown".to_owned(),
            stage,
            seed: Some(6),
        };
        let reply = self.clerk.perform(Errand::BeginDrill(asked));
        self.drilling(reply)
    }

    fn drilling(&mut self, reply: Reply) -> bool {
        match reply {
            Reply::Drilling { run, .. } => {
                self.run = Some(*run);
                true
            }
            _ => false,
        }
    }

    /// Everybody's drills that are not ended or not signed.
    fn unfinished(&mut self) -> Vec<TripCard> {
        let learners = self.room().learners.into_iter();
        learners.flat_map(|one| one.unfinished).collect()
    }

    fn take_up(&mut self) -> bool {
        let trip = self.unfinished()[0].trip.clone();
        let reply = self.clerk.perform(Errand::TakeUp { trip });
        self.drilling(reply)
    }

    /// Does it; whether it was called recorded.
    fn does(&mut self, doing: Doing) -> bool {
        let errand = match doing {
            Doing::Walk(act) => Errand::Record(act),
            doing => Errand::Drill(doing),
        };
        let line = match self.clerk.perform(errand) {
            Reply::Drilled(line) => *line,
            Reply::Recorded(entry) => Line::of(&entry),
            _ => return false,
        };
        self.kept.push(line.did.clone());
        self.run.as_mut().unwrap().apply(&line);
        true
    }

    /// The right run, so many acts of it at most, up to where every step is done or it has ended.
    fn plays(&mut self, most: usize) -> bool {
        for _ in 0..most {
            let run = self.run.as_ref().unwrap();
            if run.walk().now() == Now::Finished {
                return true;
            }
            let Some(worked) = run.worked() else {
                return true;
            };
            if !self.does(worked.doing) {
                return false;
            }
        }
        true
    }

    fn ends_and_signs(&mut self) -> bool {
        let words = Words::read("I look from the far side first.").unwrap();
        if self.run.as_ref().unwrap().walk().now() == Now::Finished {
            assert!(self.does(Doing::Learn(words)));
        }
        self.plays(MOST);
        if let Some(worked) = self.run.as_ref().unwrap().worked() {
            assert!(self.does(worked.doing));
        }
        self.signs()
    }

    fn signs(&mut self) -> bool {
        let signer = "wren.ashdown".to_owned();
        let passphrase = Passphrase::new("demo".to_owned().into()).unwrap();
        let consent = Consent::Passphrase(passphrase);
        let reply = self.clerk.perform(Errand::Seal { signer, consent });
        matches!(reply, Reply::Sealed(_))
    }
}

/// What is in a journal of drills as text.
fn journals(disk: &Pretend) -> Vec<String> {
    let files = disk.files().into_iter();
    let journals =
        files.filter(|path| path.starts_with("/demo/drill") && path.ends_with("trip.jsonl"));
    journals
        .map(|path| String::from_utf8(disk.seen(&path).unwrap()).unwrap())
        .collect()
}

#[test]
fn a_drill_is_recorded_act_by_act_in_a_tree_of_its_own_and_counts_once_it_is_signed() {
    let disk = copy();
    let before = disk.files();
    let mut sitting = Sitting::at(&disk);
    assert!(sitting.begin("receiver-pin", Some(Stage::Guided)));
    assert!(sitting.plays(MOST));
    let sections = |room: &DrillRoom| room.learners[0].progress.sections().count();
    assert_eq!(sections(&sitting.room()), 0);
    assert!(sitting.begin("receiver-pin", Some(Stage::Guided)));
    assert!(sitting.plays(MOST));
    assert!(sitting.ends_and_signs());
    let room = sitting.room();
    assert_eq!(room.learners[0].who.name, "Wren Ashdown");
    let reached: Vec<_> = room.learners[0].progress.sections().collect();
    assert!(reached.iter().all(|(list, ..)| *list == "hitch-bumper"));
    assert!(
        reached
            .iter()
            .all(|(.., reached)| reached.stage == Stage::Faded),
        "{reached:?}"
    );
    assert_eq!(room.learners[1].progress.sections().count(), 0);
    let journal = journals(&disk).pop().unwrap();
    for kind in ["looked", "learned", "sighting", "ended"] {
        assert!(
            journal.contains(&format!("\"kind\":\"{kind}\"")),
            "{kind}: {journal}"
        );
    }
    assert!(journal.starts_with("{\"v\":3,\"i\":0,"), "{journal}");
    let real = |path: &&std::path::PathBuf| path.starts_with("/demo/dev");
    let after = disk.files();
    assert_eq!(
        before.iter().filter(real).count(),
        after.iter().filter(real).count()
    );
}

#[test]
fn the_stage_is_the_one_reached_where_none_is_named() {
    let disk = copy();
    let mut sitting = Sitting::at(&disk);
    for stage in [Stage::Watch, Stage::Guided, Stage::Faded] {
        assert!(sitting.begin("knock", None));
        assert_eq!(sitting.run.as_ref().unwrap().stage(), stage);
        sitting.plays(MOST);
        assert!(sitting.ends_and_signs(), "{stage:?}");
    }
    // Another program reads it from the disk.
    let mut later = Sitting::at(&disk);
    assert!(later.begin("knock", None));
    assert!(later.run.unwrap().stage() >= Stage::Faded);
}

#[test]
fn a_drill_that_was_left_is_taken_up_where_it_was_with_all_that_was_looked_at() {
    for id in ["receiver-pin", "pin-and-barrow", "nose-high"] {
        for most in [0, 3, 9, 14] {
            let disk = copy();
            let mut sitting = Sitting::at(&disk);
            assert!(sitting.begin(id, Some(Stage::Solo)));
            sitting.plays(most);
            let left = sitting.run.clone().unwrap();
            drop(sitting.clerk);
            let mut later = Sitting::at(&disk);
            // It is offered to whose it is, and to nobody else.
            let learners = later.room().learners.into_iter();
            let offered = learners.filter(|one| !one.unfinished.is_empty());
            let offered: Vec<String> = offered.map(|one| one.who.name).collect();
            assert_eq!(offered, ["Wren Ashdown"]);
            assert!(later.take_up(), "{id} {most}");
            let run = later.run.clone().unwrap();
            assert_eq!(run.score(), left.score());
            assert_eq!(run.drill().fault(), left.drill().fault());
            for planned in left.walk().plan().steps() {
                assert_eq!(run.looked(&planned.key), left.looked(&planned.key));
            }
            later.plays(MOST);
            assert!(later.ends_and_signs(), "{id} {most}");
            assert_eq!(later.unfinished(), []);
        }
    }
}

#[test]
fn whatever_call_the_power_fails_at_in_a_drill_what_was_called_recorded_is_there() {
    let fates = [Fate::Lost, Fate::Kept, Fate::Half, Fate::Lots(7)];
    let disk = copy();
    let calls = disk.calls();
    let changes = disk.changes();
    let mut sitting = Sitting::at(&disk);
    assert!(sitting.begin("receiver-pin", Some(Stage::Solo)));
    sitting.plays(8);
    // Each call takes its time; what a walk keeps is tried at every one.
    let writing = disk.changing_calls().into_iter().skip(changes).step_by(3);
    let writing: Vec<usize> = writing.map(|call| call - calls).collect();
    let troubles = [
        Trouble::StopsBefore,
        Trouble::StopsAfter,
        Trouble::Refuses(ErrorKind::StorageFull),
    ];
    let ways = troubles.into_iter().cycle().zip(fates.into_iter().cycle());
    for (round, (call, (trouble, fate))) in writing.into_iter().zip(ways).enumerate() {
        let disk = copy();
        let mut sitting = Sitting::at(&disk);
        disk.trouble_after(call, trouble);
        let begun = sitting.begin("receiver-pin", Some(Stage::Solo));
        if begun {
            sitting.plays(8);
        }
        let disk = disk.after_power_loss(fate);
        let mut later = Sitting::at(&disk);
        let unfinished = later.unfinished().len();
        assert!(!begun || unfinished == 1, "{call} {trouble:?} {fate:?}");
        if unfinished == 0 {
            assert!(later.begin("receiver-pin", Some(Stage::Solo)), "{call}");
            continue;
        }
        assert!(later.take_up(), "{call} {trouble:?} {fate:?}");
        let run = later.run.clone().unwrap();
        let looked = sitting.kept.iter().filter_map(|did| match did {
            Did::Drilled(Drilled::Looked(step, from)) => Some((step, from)),
            _ => None,
        });
        for (step, from) in looked {
            assert!(
                run.looked(step).contains(from),
                "{call} {trouble:?} {fate:?}"
            );
        }
        if round % 5 == 0 {
            later.plays(MOST);
            assert!(later.ends_and_signs(), "{call} {trouble:?} {fate:?}");
        }
    }
}

#[test]
fn where_nobody_learns_nothing_is_written() {
    let disk = copy();
    let before = disk.files();
    let mut sitting = Sitting::at(&disk);
    let asked = AskedDrill {
        which: WhichDrill::Any,
        learner: String::new(),
        stage: None,
        seed: None,
    };
    let reply = sitting.clerk.perform(Errand::BeginDrill(asked));
    assert!(sitting.drilling(reply));
    sitting.plays(MOST);
    assert_eq!(disk.files(), before);
    assert!(!sitting.signs());
}

#[test]
fn a_drill_that_is_called_away_is_held_and_goes_on_where_it_was() {
    let disk = copy();
    let mut sitting = Sitting::at(&disk);
    assert!(sitting.begin("pin-and-barrow", Some(Stage::Solo)));
    while sitting.run.as_ref().unwrap().calls().is_none() {
        assert!(sitting.plays(1));
    }
    // The program is closed while something calls: the drill is taken up, and it still does.
    drop(sitting.clerk);
    let mut unclear = Sitting::at(&disk.after_death());
    let mut later = Sitting::at(&disk);
    assert!(later.take_up());
    while later.run.as_ref().unwrap().walk().held().is_none() {
        assert!(later.plays(1));
    }
    // Where it was left is asked of whoever comes back, and no list says it before.
    let told = |sitting: &mut Sitting| sitting.unfinished()[0].stands.clone();
    assert_eq!(told(&mut later), "on hold; left for: called away");
    assert!(unclear.take_up());
    let words = "who opened the door".to_owned();
    assert!(unclear.does(Doing::Walk(Act::Unsure { words })));
    assert_eq!(told(&mut unclear), "stopped as unclear");
    later.plays(MOST);
    assert_eq!(later.run.as_ref().unwrap().score().resumed, Some(true));
    assert!(later.ends_and_signs());
    let key = Path::new("/demo/keys/wren.ashdown");
    assert!(disk.seen(key).is_some());
}
