//! The screens with the desk of the line-by-line tests behind them, played by keys.

use crate::harness::good::{Asked, Good, whole_walk};
use crate::plain::bench::{Bench as Desk, words};
use crate::screens::drill::desk::DrillDesk;
use hames::checklist::{Checklist, Plan, StepKey, Together, shipped_by_default};
use hames::desk::{
    Approval, ChecklistCard, DefectCard, DrillWanted, DueCard, Errand, HaulCard, Lookout,
    OpenedTrip, Reply, RigCard,
};
use hames::due::due;
use hames::review::Filter;
use hames::rig::Rig;
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rules::{Carried, Carry};
use hames::tui::{Key, Look, Model, Msg, Theme, first, first_drills, first_lookout, update, view};
use hames::walk::{Event, Now, Walk};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;

/// A model and the desk that answers it.
#[derive(Clone)]
pub(crate) struct Bench {
    pub(crate) model: Model,
    pub(crate) desk: Desk,
    /// What answers errands of drills, where they are played.
    pub(crate) drills: Option<Box<DrillDesk>>,
}

pub(crate) const LOOK: Look = Look {
    theme: Theme::Own,
    colour: true,
    ascii: false,
    big: false,
};

impl Bench {
    /// The start screen of a fresh demo barn.
    pub(crate) fn new() -> Self {
        Self::with(short_plan())
    }

    pub(crate) fn with(plan: Plan) -> Self {
        Self::at(Desk::with(plan))
    }

    /// The start screen of a rig of which earlier walks left things open.
    pub(crate) fn earlier() -> Self {
        let card = |told: &str, blocks| DefectCard {
            told: told.to_owned(),
            blocks,
        };
        let open = [
            "Wheel was off, left front (2026-11-20 06:10, 48210 mi, Tobias Fenn): its nuts are \
             due at 48220 mi, 48235 mi and 48260 mi.",
            "Rig was left out of sight (2026-11-20 11:40, Tobias Fenn): coupler, pins and plug \
             are looked at again before it moves.",
        ];
        let stop = "STOP: Coupler latch: Lever stands up. Tobias Fenn, 2026-11-20 06:31, Hitch up \
                    a bumper pull";
        let note = "note: Trailer floor: Surface rust at one edge. “brushed and oiled, looked at \
                    in spring”. Tobias Fenn, 2026-11-02 16:05, Season service";
        let mut desk = Desk::with(short_plan());
        desk.earlier = (
            open.map(str::to_owned).to_vec(),
            vec![card(stop, true), card(note, false)],
        );
        Self::at(desk)
    }

    /// The start screen of a barn with two rigs and every list that comes with the program; on the
    /// first rig, on a haul, with as much open and due as there is.
    pub(crate) fn barn(open: bool) -> Self {
        let mut desk = if open {
            Self::earlier().desk
        } else {
            Desk::with(short_plan())
        };
        let day = "2026-11-25".parse().unwrap();
        let due_of = |text: &str| due(&Rig::read(text).unwrap(), day, None, &[]);
        let run_out = JUNIPER.replace("of: truck, until: 2036", "of: truck, until: 2025");
        if open {
            desk.due = DueCard::of(&due_of(&run_out));
        }
        desk.haul = open.then(|| HaulCard {
            since: "2026-11-25 06:10".to_owned(),
            walked: vec![],
        });
        let mesquite = Rig::read(MESQUITE).unwrap();
        let other = RigCard {
            id: mesquite.id.clone(),
            name: mesquite.name.clone(),
            kind: mesquite.kind(),
            open: vec![],
            defects: vec![],
            due: if open {
                DueCard::of(&due_of(MESQUITE))
            } else {
                vec![]
            },
            haul: None,
        };
        let card = |put: &Together| ChecklistCard {
            id: put.checklist.id.clone(),
            title: put.checklist.title.clone(),
            revision: put.checklist.revision,
            rigs: put.checklist.rigs.clone(),
            haul: put.checklist.haul,
            standing: Approval::Shipped,
        };
        let lists = shipped_by_default().skip(1).map(card).collect();
        desk.more = Some((vec![other], lists));
        Self::at(desk)
    }

    /// A walk begun with one key, with two things carried in.
    pub(crate) fn carried() -> Self {
        let left = |what, part: Option<&str>| Carried {
            what,
            part: part.map(str::to_owned),
        };
        let carried = vec![
            left(Carry::WheelOff, Some("left-front")),
            left(Carry::RigLeft, None),
        ];
        Self::at(Desk::with(short_plan_for(carried))).play("1")
    }

    /// A walk from paper begun with one key.
    pub(crate) fn from_paper() -> Self {
        let mut desk = Desk::with(short_plan());
        desk.paper = Some(desk.now.wall - chrono::TimeDelta::hours(26));
        Self::at(desk).play("1")
    }

    /// The start screen of a desk arranged for a case.
    pub(crate) fn arranged(arrange: impl Fn(&mut Desk)) -> Self {
        let mut desk = Desk::with(short_plan());
        arrange(&mut desk);
        Self::at(desk)
    }

    /// The start screen of a laptop on which no walk can begin, with as much to know as there is.
    pub(crate) fn troubled(no_walk: bool) -> Self {
        Self::arranged(|desk| {
            desk.notices = [
                "In the demo everybody signs with the passphrase demo.",
                "Trip 000002-4e1d88c0 cannot be relied on (altered), so what it left open and \
                 what it closed counts for nothing here. See it with: hames verify \
                 /barn/dev/laptop-7f3a/t/000002-4e1d88c0",
                "This laptop's clock stands 3 days before the newest line of another laptop. Set \
                 the right one before a walk, or say so in a note.",
                "Nobody in the crew could sign a walk on this laptop: no key of theirs lies here, \
                 and no ssh-agent here holds one. Whoever is to sign brings their key first: \
                 hames crew request ID --import FILE",
            ]
            .map(str::to_owned)
            .to_vec();
            desk.foretold[1] = vec![
                "Wren Ashdown is not signed off for Juniper, two-horse bumper pull with “Hitch up \
                 a bumper pull”. That bars nothing; the manager decides."
                    .to_owned(),
            ];
            desk.foretold[2] = vec![
                desk.foretold[1][0].clone(),
                "Neither Wren Ashdown nor Tobias Fenn could sign this walk on this laptop: no key \
                 of theirs lies here, and no ssh-agent here holds one. Whoever is to sign brings \
                 their key first: hames crew request ID --import FILE"
                    .to_owned(),
            ];
            desk.no_walk = no_walk.then(|| {
                "No trip is begun on laptop-7f3a: it has two different trips 2, so a backup was \
                 put back or its folder was copied. A manager looks into both and closes the fork \
                 with: hames logbook close-fork laptop-7f3a 2. Meanwhile walk on paper (hames \
                 checklist paper), and enter it afterwards."
                    .to_owned()
            });
        })
    }

    /// The year of a barn looked over, filtered from the start.
    pub(crate) fn over(lookout: Lookout, opened: OpenedTrip, filter: Filter) -> Self {
        let mut desk = Desk::with(short_plan());
        let mode = lookout.mode;
        desk.over = Some(Box::new((lookout, opened)));
        let (model, errands) = first_lookout(LOOK, desk.now.clone(), (mode, filter), true);
        let mut bench = Self {
            model,
            desk,
            drills: None,
        };
        bench.carry_out(errands);
        bench
    }

    /// The drill room.
    pub(crate) fn drilling(drills: DrillDesk) -> Self {
        Self::asked_for(drills, DrillWanted::default())
    }

    /// The drill room, begun with what is asked for.
    pub(crate) fn asked_for(drills: DrillDesk, wanted: DrillWanted) -> Self {
        let desk = Desk::with(short_plan());
        let (model, errands) = first_drills(LOOK, desk.now.clone(), wanted);
        let mut bench = Self {
            model,
            desk,
            drills: Some(Box::new(drills)),
        };
        bench.carry_out(errands);
        bench
    }

    fn at(desk: Desk) -> Self {
        let (model, errands) = first(LOOK, desk.now.clone());
        let mut bench = Self {
            model,
            desk,
            drills: None,
        };
        bench.carry_out(errands);
        bench
    }

    /// The same, drawn otherwise.
    pub(crate) fn clone_with(&self, look: Look) -> Self {
        Self {
            model: self.model.clone().looking(look),
            desk: self.desk.clone(),
            drills: self.drills.clone(),
        }
    }

    /// A walk begun with one key.
    pub(crate) fn walking() -> Self {
        Self::new().play("1")
    }

    /// Plays keys, one a character: `⏎ ⇥ ⎋ ⌫ ↑ ↓ ← →` are the named ones. With `⌛` a quarter of an
    /// hour goes by, with `⛔` the disk takes no more.
    pub(crate) fn play(mut self, keys: &str) -> Self {
        for sign in keys.chars() {
            match sign {
                '⌛' => self.wait(15),
                '⛔' => self.desk.disk_takes = self.desk.journal.len(),
                sign => self.press(key(sign)),
            }
        }
        self
    }

    pub(crate) fn press(&mut self, key: Key) {
        self.tell(Msg::Press { key, repeat: false });
    }

    pub(crate) fn tell(&mut self, msg: Msg) {
        update(&mut self.model, Msg::Clock(self.desk.now.clone()));
        let errands = update(&mut self.model, msg);
        self.carry_out(errands);
    }

    fn carry_out(&mut self, errands: Vec<Errand>) {
        for errand in errands {
            let reply = self.answer(errand);
            let more = update(&mut self.model, Msg::Reply(reply));
            self.carry_out(more);
        }
    }

    /// What the desk of drills answers, else the other.
    fn answer(&mut self, errand: Errand) -> Reply {
        let now = self.desk.now.clone();
        let drills = self.drills.as_mut();
        let Some(reply) = drills.and_then(|drills| drills.perform(&errand, &now)) else {
            return self.desk.perform(errand);
        };
        self.desk.now.mono_ms += 1000;
        self.desk.now.wall += chrono::TimeDelta::seconds(1);
        if let Reply::Recorded(entry) = &reply {
            self.desk.journal.push(*entry.clone());
        }
        reply
    }

    /// Lets time pass without a key.
    pub(crate) fn wait(&mut self, minutes: u32) {
        self.desk.now.mono_ms += u64::from(minutes) * 60_000;
        self.desk.now.wall += chrono::TimeDelta::minutes(i64::from(minutes));
        update(&mut self.model, Msg::Clock(self.desk.now.clone()));
    }

    /// Plays a good walk to where this step is open.
    pub(crate) fn at_step(self, step: &str) -> Self {
        let index = self.desk.plan.index(&StepKey::named(step)).unwrap();
        self.until(|bench| bench.walk().now() == Now::Open(index))
    }

    /// Plays a good walk until something is so.
    pub(crate) fn until(mut self, reached: impl Fn(&Self) -> bool) -> Self {
        for key in good_keys(&self.desk.plan).concat().chars().map(key) {
            if reached(&self) {
                return self;
            }
            self.press(key);
        }
        assert!(reached(&self), "never came there:\n{}", self.text(80, 24));
        self
    }

    pub(crate) fn walk(&self) -> &Walk {
        self.model.walk().expect("a walk on the screen")
    }

    /// How many events of the journal are of this kind.
    pub(crate) fn count(&self, which: fn(&Event) -> bool) -> usize {
        let events = self.desk.journal.iter().map(|entry| &entry.event);
        events.filter(|event| which(event)).count()
    }

    /// The frame at this size.
    pub(crate) fn frame(&self, columns: u16, rows: u16) -> Buffer {
        let mut terminal = Terminal::new(TestBackend::new(columns, rows)).unwrap();
        terminal.draw(|frame| view(&self.model, frame)).unwrap();
        terminal.backend().buffer().clone()
    }

    /// The frame as text, blanks at the ends of lines taken off.
    pub(crate) fn text(&self, columns: u16, rows: u16) -> String {
        let mut model = self.model.clone();
        update(&mut model, Msg::Resized(columns, rows));
        text(&self.frame(columns, rows))
    }
}

/// A short checklist with every kind of step, laid on the demo rig.
fn short_plan() -> Plan {
    short_plan_for(vec![])
}

fn short_plan_for(carried: Vec<Carried>) -> Plan {
    let list = include_str!("../../vectors/screens.yaml");
    Plan::lay_for(
        Checklist::read(list).unwrap(),
        Rig::read(JUNIPER).unwrap(),
        carried,
    )
    .unwrap()
}

/// The keys of a whole walk on which all is well, one text an answer, sections and end included.
pub(crate) fn good_keys(plan: &Plan) -> Vec<String> {
    let at = Desk::new().now;
    let walk = Walk::begin(
        plan.clone(),
        words("Wren Ashdown"),
        words("Tobias Fenn"),
        at,
    );
    let asked = whole_walk(walk, "Odile Marsh");
    let enter = "⏎";
    let keys = asked.iter().map(|one| {
        // After an answer, Enter begins the next step; elsewhere the step waits to be begun.
        match one {
            Asked::Step(Good::State { number, .. }) => format!("{enter}{number}"),
            // Of the others, Odile Marsh is the second listed; of those who typed nothing, the first.
            Asked::Step(Good::StateBy { number, .. }) => format!("{enter}b{number}"),
            Asked::Step(Good::Reading {
                tool, tools, typed, ..
            }) => format!("{enter}{}{typed}⏎", letter(*tool, *tools)),
            Asked::Step(Good::ReadingBy {
                tool, tools, typed, ..
            }) => format!("{enter}a{}{typed}⏎", letter(*tool, *tools)),
            Asked::SectionEnd => "⏎c".to_owned(),
            Asked::Finished => "f".to_owned(),
        }
    });
    keys.collect()
}

/// The key of an instrument, where there is a choice.
fn letter(tool: usize, tools: usize) -> String {
    let letter = ('a'..).nth(tool - 1).filter(|_| tools > 1);
    letter.map(String::from).unwrap_or_default()
}

/// A key by its sign.
pub(crate) fn key(sign: char) -> Key {
    match sign {
        '⏎' => Key::Enter,
        '⇥' => Key::Tab,
        '⎋' => Key::Esc,
        '⌫' => Key::Backspace,
        '↑' => Key::Up,
        '↓' => Key::Down,
        '←' => Key::Left,
        '→' => Key::Right,
        '⇞' => Key::PageUp,
        '⇟' => Key::PageDown,
        '⇱' => Key::Home,
        '⇲' => Key::End,
        letter => Key::Char(letter),
    }
}

/// The frame as runs of cells drawn alike: what no plain text of it shows.
pub(crate) fn runs(buffer: &Buffer) -> String {
    let mut lines = Vec::new();
    for row in buffer.area.rows() {
        let cells: Vec<_> = row
            .columns()
            .filter_map(|at| buffer.cell((at.x, at.y)))
            .collect();
        let mut start = 0;
        for run in cells.chunk_by(|one, other| one.style() == other.style()) {
            let text: String = run.iter().map(|cell| cell.symbol()).collect();
            let (end, style) = (start + run.len(), run[0].style());
            if !text.trim().is_empty() {
                let (ink, shape) = (style.fg.unwrap_or_default(), style.add_modifier);
                lines.push(format!(
                    "y{} x{start}-{} {ink:?} {shape:?} {}",
                    row.y,
                    end - 1,
                    text.trim()
                ));
            }
            start = end;
        }
    }
    lines.join("\n")
}

pub(crate) fn text(buffer: &Buffer) -> String {
    let rows = buffer.area.rows().map(|row| {
        let cells = row
            .columns()
            .filter_map(|place| buffer.cell((place.x, place.y)));
        let line: String = cells.map(ratatui::buffer::Cell::symbol).collect();
        line.trim_end().to_owned()
    });
    rows.collect::<Vec<_>>().join("\n")
}
