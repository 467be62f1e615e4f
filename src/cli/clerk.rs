//! The other side of the desk: errands are done here, with the disk, the world and the keys.

mod able;
mod acting;
mod approving;
mod around;
mod asked;
mod barred;
mod before;
mod begin;
mod books;
mod branches;
pub(in crate::cli) mod choosing;
mod clocks;
mod countersigning;
mod crewing;
mod drill_room;
mod drilled;
mod drilling;
mod ends;
mod forking;
mod founding;
mod history;
pub(in crate::cli) mod in_force;
mod joining;
mod keeping;
mod listed;
mod losing;
mod naming;
mod open;
mod owning;
mod paper;
mod pen;
mod pruned;
mod pruning;
mod ready;
mod remembered;
mod sealing;
mod second;
mod signed_off;
mod stating;
mod stock;
mod taking_up;
mod telling;
mod trip;
mod trouble;
mod trust;
mod walked;
mod witnessed;

pub use approving::{Before, one_manager};
pub(in crate::cli) use around::barn_name;
pub use barred::DueToday;
pub(in crate::cli) use begin::PROGRAM;
pub use books::Books;
pub(in crate::cli) use books::mode_of;
pub use countersigning::{Already, LaidOut, Said};
pub use crewing::PutInForce;
pub(in crate::cli) use drilled::Drilled;
pub use forking::{History as ForkHistory, one_called};
pub(in crate::cli) use founding::{DEMO_BARN, name_file};
pub use founding::{Person, found, is_founded};
pub(in crate::cli) use history::Left;
pub(in crate::cli) use in_force::NotInForce;
pub use keeping::NewKey;
pub use listed::Listed;
pub(in crate::cli) use listed::is_shipped;
pub use losing::Missing;
pub use naming::mistyped;
pub use owning::{Given as GivenOwner, Meant as MeantDefect};
pub(in crate::cli) use pruned::{PrunedTrip, PrunedTrips};
pub use pruning::{Going, Pruning, Which};
pub use stock::{Offer, Stock};
pub(in crate::cli) use telling::tale;
pub use trip::{Misplaced, Plans, TripRead, read_trip};
pub use trouble::Trouble;
pub use trust::Trust;

use crate::cli::Status;
use crate::cli::clerk::begin::Asked;
use crate::cli::clerk::history::History;
use crate::cli::clerk::open::Open;
use crate::desk::{Errand, Reply};
use crate::drill::{Doing, Offered, Run};
use crate::record::Mode;
use crate::store::Disk;
use crate::world::{Agent, World};
use std::path::PathBuf;

/// Does the errands of the screens and of the line-by-line mode, in one logbook.
#[derive(Debug)]
pub struct Clerk<D: Disk> {
    disk: D,
    world: Box<dyn World>,
    place: Place,
    stock: Stock,
    /// The trip in hand; it is locked against other programs as long as it is here.
    open: Option<Open<D>>,
    /// The drill in hand that is not recorded.
    alone: Option<Box<Run>>,
    /// The scenarios to choose from.
    offered: Offered,
    /// What was read of drills.
    drilled: Drilled,
    /// What was read of earlier walks.
    history: History,
    /// What came up on the way and is told with the next look around.
    notices: Vec<String>,
    /// When what is begun here was walked on paper, as typed; nothing where it is walked now.
    from_paper: String,
    /// Whether the disk refused a line.
    failed: bool,
    stands: Stands,
    /// How long the laptop had slept when it was last asked.
    slept_ms: u64,
    /// The ssh-agent, where one runs.
    agent: Option<Agent>,
}

/// How a sitting stands: by it the program ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// Nothing was refused.
    Well,
    /// The last walk that was asked for was refused, or none can begin here.
    Refused,
    /// The disk or the logbook failed.
    Failed,
}

/// Which logbook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Its folder.
    pub root: PathBuf,
    /// The mode a logbook made here gets. One that is there says its own mode by its crew file.
    pub mode: Mode,
}

impl<D: Disk> Clerk<D> {
    /// A clerk for the logbook at `place`, offering `stock`. Nothing is written yet.
    ///
    /// The world is a value, so that a test can run the same day twice; the program gives its own
    /// machine.
    pub fn new(disk: D, world: impl World + 'static, place: Place, stock: Stock) -> Self {
        Self {
            disk,
            slept_ms: world.slept_ms(),
            world: Box::new(world),
            place,
            open: None,
            alone: None,
            offered: Offered::default(),
            drilled: Drilled::default(),
            history: History::by(Plans::of_stock(&stock)),
            stock,
            notices: Vec::new(),
            from_paper: String::new(),
            failed: false,
            stands: Stands::Well,
            agent: None,
        }
    }

    /// The same, with an ssh-agent within reach.
    #[must_use]
    pub fn with_agent(self, agent: Option<Agent>) -> Self {
        Self { agent, ..self }
    }

    /// The same, playing these scenarios in the place of those that come with the program.
    #[must_use]
    pub fn with_scenarios(self, offered: Offered) -> Self {
        Self { offered, ..self }
    }

    /// The same, entering what was walked on paper at this day and time, as typed.
    ///
    /// # Errors
    /// A sentence, when that is no day and time, or has not come yet.
    pub fn entering(self, walked: &str) -> Result<Self, Trouble> {
        paper::walked(walked, &self.world.now())?;
        let notices = vec![format!(
            "What is begun now is entered from paper, walked {}.",
            walked.escape_debug()
        )];
        Ok(Self {
            from_paper: walked.to_owned(),
            notices,
            ..self
        })
    }

    /// Does an errand.
    pub fn perform(&mut self, errand: Errand) -> Reply {
        let looks = matches!(errand, Errand::LookAround);
        let begins = matches!(errand, Errand::Begin { .. } | Errand::MayBegin { .. });
        let has_answers = matches!(&errand, Errand::Begin { answers, .. } if !answers.is_empty());
        let done = match errand {
            Errand::LookAround => self.look_around(),
            Errand::MayBegin {
                rig,
                checklist,
                people,
            } => self.may_begin(&rig, &checklist, &people),
            Errand::Begin {
                rig,
                checklist,
                reader,
                doer,
                odometer,
                walked,
                answers,
            } => {
                let walked = if walked.is_empty() {
                    self.from_paper.clone()
                } else {
                    walked
                };
                self.begin(Asked {
                    rig: &rig,
                    checklist: &checklist,
                    reader: &reader,
                    doer: &doer,
                    odometer: &odometer,
                    walked: &walked,
                    answers,
                })
            }
            Errand::TakeUp { trip } => self.take_up(&trip),
            Errand::LookAtDrills => self.look_at_drills(),
            Errand::BeginDrill(asked) => self.begin_drill(&asked),
            Errand::Drill(doing) => self.drill(&doing),
            Errand::Record(act) if self.is_drilling() => self.drill(&Doing::Walk(act)),
            Errand::Record(act) => self.record(&act),
            Errand::FindKey { signer } => self.find_key(&signer),
            Errand::Seal { signer, consent } => self.seal(&signer, &consent),
            Errand::LookAtRig { rig } => self.look_at_rig(&rig),
            Errand::Show { trip } => self.show(&trip),
            Errand::LookOver
            | Errand::ReadOn
            | Errand::LookAtTrends
            | Errand::OpenTrip { .. }
            | Errand::MayCountersign { .. }
            | Errand::Countersign { .. } => Err(Trouble::NotHere(
                "A whole logbook is looked over with: hames logbook".to_owned(),
            )),
        };
        let trouble = done.as_ref().err();
        let store = trouble.is_some_and(|trouble| trouble.status() == Status::Store);
        let reply = match done.unwrap_or_else(Trouble::reply) {
            // The walk they would have stood in is not there.
            Reply::Cannot(sentence) if has_answers => Reply::Cannot(format!(
                "{sentence}\nWhat was answered to a manager's question is not recorded; it is put \
                 again as the next walk begins."
            )),
            reply => reply,
        };
        self.failed |= matches!(reply, Reply::ReadOnly(_));
        self.stands = match &reply {
            Reply::Cannot(_) if looks || begins && store => Stands::Failed,
            Reply::Cannot(_) if begins => Stands::Refused,
            Reply::Barn(barn) if barn.no_walk.is_some() => Stands::Refused,
            Reply::Barn(_) if self.stands == Stands::Failed => Stands::Well,
            Reply::MayBegin { .. } | Reply::Walking { .. } => Stands::Well,
            _ => self.stands,
        };
        reply
    }

    /// Whether the disk refused a line, so that a trip is finished on paper.
    pub fn failed(&self) -> bool {
        self.failed
    }

    /// How the sitting stands.
    pub fn stands(&self) -> Stands {
        self.stands
    }

    /// Whether what is in hand is a drill.
    fn is_drilling(&self) -> bool {
        let recorded = self.open.as_ref().is_some_and(|open| open.drill.is_some());
        recorded || self.alone.is_some()
    }

    fn books(&self) -> Result<Books<D>, Trouble> {
        Books::open(&self.disk, &self.place.root)
    }
}
