//! Drills of the barn: a scenario that comes with the program, played by who looks and measures, and
//! kept as a drill is.

use crate::barn50::making::{Barn, Files, LAPTOPS, Walked, key};
use crate::drill::bench::{Learner, drill, rig, scenarios};
use crate::record_trip::{id, words};
use hames::checklist::Checklist;
use hames::drill::{Did, Doing, Drill, Line, SCENARIO_FILES, SIGHT_FILES, Stage};
use hames::drill::{scenario_of, sights_of};
use hames::record::{
    Begun, BegunDrill, Counts, Crew, Deed, Digest, Left, Mode, Namespace, Pinned, Previous,
    PrintedName, Role, Said, Seal, Signer, Tip, Wall, append, meaning,
};
use hames::walk::{Entry, Moment, Now};

/// A scenario in which somebody is called away, and that has every kind of line there is.
pub(crate) const CALLED_AWAY: &str = "chocks-counted";
const WREN: &str = "Wren Ashdown";
pub(super) const SEED: u64 = 4711;

/// A drill that was played, and not kept yet.
pub(crate) struct Played {
    pub(crate) drill: Drill,
    pub(crate) lines: Vec<Line>,
    /// The scenario, as a file to keep.
    pub(super) scenario: String,
    /// Who examines, by id and name, where it is a check ride.
    pub(crate) examiner: Option<(&'static str, &'static str)>,
    pub(super) began: Moment,
}

/// The texts it rests on, by their names.
pub(crate) type Texts = [(&'static str, Vec<u8>); 5];

/// Plays a scenario with its dice thrown, to its end, and says what to do otherwise next time.
pub(crate) fn played(scenario: &str) -> Played {
    let text = scenario_of(SCENARIO_FILES, scenario).unwrap();
    let scenario = scenarios().iter().find(|one| one.id == scenario).unwrap();
    let drill = drill(scenario, scenario.thrown(SEED), SEED);
    let mut learner = Learner::new(drill.clone(), Stage::Solo, None);
    let mut has_said = false;
    while learner.run.walk().ended().is_none() {
        if learner.run.walk().now() == Now::Finished && !has_said {
            let what = words("I look from the far side first.");
            learner.does(&Doing::Learn(what));
            has_said = true;
        }
        learner.goes_on();
    }
    let began = learner.run.walk().began().clone();
    Played {
        drill,
        lines: learner.lines,
        scenario: text,
        examiner: None,
        began,
    }
}

impl Played {
    pub(crate) fn texts(&self, crew: &Crew) -> Texts {
        let sights = sights_of(SIGHT_FILES, &self.drill.plan);
        let own = |text: &str| text.as_bytes().to_vec();
        [
            ("checklist.yaml", own(&self.drill.passage)),
            ("rig.yaml", own(rig(&self.drill.scenario.rig))),
            ("crew.allowed_signers", own(crew.text())),
            ("scenario.yaml", own(&self.scenario)),
            ("sights.yaml", sights.into_bytes()),
        ]
    }

    /// Line 0 on a laptop.
    pub(crate) fn begun(
        &self,
        (device, seq): (&str, u64),
        previous: Option<Previous>,
        crew: &Crew,
    ) -> Begun {
        let trip = id(&format!("d-{device}{seq:04}").replace("d-laptop-", "d-"));
        let [checklist, described, _, scenario, sights] = self.texts(crew);
        let pinned = |id: &str, bytes: &[u8]| Pinned {
            id: id.to_owned(),
            hash: Digest::of(bytes),
        };
        let list = Checklist::read(&self.drill.passage).unwrap();
        let since = trip.clone();
        let carries = self.drill.scenario.carries.iter().cloned();
        Begun {
            trip,
            mode: Mode::Drill,
            device: id(device),
            seq,
            previous,
            checklist: pinned(&list.id, &checklist.1),
            rig: pinned(&self.drill.scenario.rig, &described.1),
            crew: crew.revision(),
            manager: None,
            program: "0.1.0".to_owned(),
            odometer: None,
            reader: words(WREN),
            doer: words(WREN),
            haul: None,
            carried: carries
                .map(|carried| Left {
                    carried,
                    since: since.clone(),
                })
                .collect(),
            paper: None,
            answers: Vec::new(),
            drill: Some(BegunDrill {
                scenario: pinned(&self.drill.scenario.id, &scenario.1),
                sights: Digest::of(&sights.1),
                seed: self.drill.seed,
                stage: self.examiner.map_or(Stage::Solo, |_| Stage::CheckRide),
                examiner: self.examiner.map(|(_, name)| words(name)),
            }),
        }
    }

    /// The lines, each as it is kept, and where the next would go.
    pub(crate) fn journal(&self, begun: &Begun) -> (Vec<Vec<u8>>, Tip) {
        let said = Said::Begun(Box::new(begun.clone()));
        let (first, mut tip) = append(Tip::START, &self.began, &words(WREN), &said).unwrap();
        let mut lines = vec![first];
        for line in &self.lines {
            let said = match line.did.clone() {
                Did::Walked(event) => Said::Happened(event),
                Did::Drilled(drilled) => Said::Drilled(Box::new(drilled)),
            };
            let (line, next) = append(tip, &line.at, &words(WREN), &said).unwrap();
            lines.push(line);
            tip = next;
        }
        (lines, tip)
    }

    /// What Wren and the laptop sign, and their signatures.
    pub(crate) fn seal(&self, begun: &Begun, tip: Tip) -> [(&'static str, Vec<u8>); 3] {
        let entries: Vec<Entry> = self.lines.iter().filter_map(entry).collect();
        let last = entries.last().unwrap();
        let hames::walk::Event::Ended { outcome, .. } = last.event else {
            panic!("it has not ended")
        };
        let seal = Seal {
            trip: begun.trip.clone(),
            mode: begun.mode,
            device: begun.device.clone(),
            seq: begun.seq,
            lines: tip.lines,
            last: tip.last,
            outcome,
            counts: Counts::of(&entries),
            meaning: meaning(outcome).to_owned(),
            name: PrintedName::read(WREN).unwrap(),
            role: Role::Driver,
            person: id("wren.ashdown"),
            wall: Wall::new(last.at.wall).unwrap(),
        };
        let bytes = seal.write().unwrap();
        let sign = |who: &str, deed| {
            let namespace = Namespace::new(deed, begun.mode);
            key(who).sign(namespace, &bytes).unwrap().into_bytes()
        };
        let by_person = sign("wren.ashdown", Deed::Performed);
        let by_device = sign(begun.device.as_str(), Deed::Witnessed);
        [
            ("seal.json", bytes),
            ("seal.person.sig", by_person),
            ("seal.device.sig", by_device),
        ]
    }
}

fn entry(line: &Line) -> Option<Entry> {
    match &line.did {
        Did::Walked(event) => Some(Entry {
            at: line.at.clone(),
            actor: words(WREN),
            event: (**event).clone(),
        }),
        Did::Drilled(_) => None,
    }
}

/// Everyone of the barn, as a logbook of this mode has them; each may sign drills.
pub(crate) fn people_of(mode: Mode) -> Crew {
    let one = |who: &str, role, name: &str| {
        let name = PrintedName::read(name).unwrap();
        Signer::enrolled(&id(who), vec![role], key(who).public(), name, mode)
    };
    let mut all = vec![
        one("odile.marsh", Role::Manager, "Odile Marsh"),
        one("wren.ashdown", Role::Driver, WREN),
    ];
    all.extend(LAPTOPS.map(|laptop| one(laptop, Role::Device, laptop)));
    let empty = Crew::read(b"").unwrap();
    all.iter().fold(empty, |crew, one| crew.add(one).unwrap())
}

impl Barn {
    /// An empty barn whose people may sign drills.
    pub(crate) fn with_drills() -> Self {
        let mut barn = Self::founded();
        barn.files.clear();
        barn.office.said.clear();
        barn.office.crew = people_of(Mode::Real);
        barn.change_crew(people_of(Mode::Real), &[]);
        barn
    }

    /// The same of this mode, with a crew file that no manager has stated.
    pub(crate) fn with_drills_of(mode: Mode) -> Self {
        let mut barn = Self::with_drills();
        let crew = people_of(mode);
        let text = crew.text().as_bytes().to_vec();
        barn.files = Files::from([("crew/allowed_signers".to_owned(), text)]);
        barn.office.said.clear();
        barn.office.crew = crew;
        barn.mode = mode;
        barn
    }

    /// The files of the next drill on this laptop, by their names, and how it ends.
    pub(crate) fn next_drill(&self, laptop: usize, scenario: &str) -> (Walked, Files) {
        self.next_of(laptop, &played(scenario))
    }

    pub(crate) fn next_of(&self, laptop: usize, played: &Played) -> (Walked, Files) {
        let device = LAPTOPS[laptop];
        let before = self.drills.iter().filter(|drill| drill.device == device);
        let before = before.max_by_key(|drill| drill.seq);
        let seq = before.map_or(1, |drill| drill.seq + 1);
        let crew = &self.office.crew;
        let begun = played.begun((device, seq), before.map(|drill| drill.ends), crew);
        let (lines, tip) = played.journal(&begun);
        let seal = played.seal(&begun, tip);
        let ends = Previous::Sealed(Seal::hash(&seal[0].1));
        let letters = begun
            .trip
            .as_str()
            .chars()
            .filter(char::is_ascii_alphanumeric);
        let letters: String = letters.take(8).collect();
        let third = played.examined(&seal[0].1);
        let files = played.texts(crew).into_iter().chain(seal).chain(third);
        let journal = ("trip.jsonl", lines.concat());
        let files = files.chain([journal]);
        let walked = Walked {
            folder: format!("drill/dev/{device}/t/{seq:06}-{letters}"),
            id: begun.trip.to_string(),
            device,
            seq,
            ends,
            sealed: true,
        };
        let named = files.map(|(name, bytes)| (name.to_owned(), bytes));
        (walked, named.collect())
    }

    /// A drill on this laptop, played and signed by Wren.
    pub(crate) fn drill(&mut self, laptop: usize, scenario: &str) -> Walked {
        let (drill, files) = self.next_drill(laptop, scenario);
        self.keep_drill(drill, files)
    }

    pub(crate) fn keep_drill(&mut self, drill: Walked, files: Files) -> Walked {
        for (name, bytes) in files {
            self.files.insert(format!("{}/{name}", drill.folder), bytes);
        }
        self.drills.push(drill.clone());
        drill
    }
}

#[test]
fn a_drill_that_was_kept_is_the_drill_that_was_played() {
    let played = played(CALLED_AWAY);
    let crew = people_of(Mode::Real);
    let texts = played.texts(&crew);
    let [checklist, rig, _, scenario, sights] = texts
        .each_ref()
        .map(|(_, text)| std::str::from_utf8(text).unwrap());
    let texts = hames::drill::DrillTexts {
        checklist,
        rig,
        scenario,
        sights,
    };
    let again = Drill::again(texts, (SEED, Stage::Solo)).unwrap();
    assert_eq!(again.fault(), played.drill.fault());
    assert_eq!(again.passage, played.drill.passage);
    let began = played.began.clone();
    let mut run = hames::drill::Run::begin(again.into(), Stage::Solo, &words(WREN), began);
    for line in &played.lines {
        run.apply(line);
    }
    assert!(run.score().is_clean(), "{:#?}", run.score());
    let kinds = played.lines.iter().filter_map(|line| match &line.did {
        Did::Drilled(drilled) => Some(std::mem::discriminant(drilled)),
        Did::Walked(_) => None,
    });
    let kinds: std::collections::HashSet<_> = kinds.collect();
    assert_eq!(kinds.len(), 5, "looked, used, called, returned, learned");
}
