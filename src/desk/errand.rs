//! Errands and replies.

use crate::barn::ForWalk;
use crate::desk::{
    Approval, AskedDrill, Barn, Consent, Countersigning, CrewCard, DrillRoom, KeyLies, Lookout,
    OpenedTrip, PutQuestion, SeenTrip, Tale,
};
use crate::drill::{Doing, Line, Run};
use crate::figures::Facts;
use crate::record::{Answered, Mode, Opinion, Receipt};
use crate::review::trend::RigTrends;
use crate::rig::Rig;
use crate::walk::{Act, Entry, Moment, Refusal, Walk};

/// What is said to what was typed for the truck's odometer and is no reading of one. The example of a
/// length in general would be one of a hitch, in inches.
pub const NO_ODOMETER: &str = "This is no reading of an odometer. Type one such as 48210 mi or \
                               77586 km, or leave it empty.";

/// What a screen asks of the world.
#[derive(Clone, Debug)]
pub enum Errand {
    /// Look at the logbook.
    LookAround,
    /// Say whether a walk may begin, as far as it has been asked for. Nothing is recorded.
    MayBegin {
        /// The rig's id.
        rig: String,
        /// The checklist's id.
        checklist: String,
        /// Who reads and types, then who does the work, as far as they are named.
        people: Vec<String>,
    },
    /// Begin a walk.
    Begin {
        /// The rig's id.
        rig: String,
        /// The checklist's id.
        checklist: String,
        /// Who reads and types.
        reader: String,
        /// Who does the work.
        doer: String,
        /// The odometer as typed, or nothing.
        odometer: String,
        /// Day and time the walk was walked on paper, as typed, such as `2026-11-20 06:10` by the
        /// clock of this laptop's place; empty where it is walked now. A walk from paper is
        /// entered act by act like any other, with what the paper says: it is held to what stood
        /// open then, open defects do not keep it from being entered, and nothing is looked at
        /// again when the typing is left for a while.
        walked: String,
        /// What they answer to questions of managers that were put to them.
        answers: Vec<Answered>,
    },
    /// Take up a trip that was begun and not ended.
    TakeUp {
        /// The trip.
        trip: String,
    },
    /// Judge an act and write its event to disk.
    Record(Act),
    /// Say what can be drilled, and how far each learner is.
    LookAtDrills,
    /// Begin a drill. One that was begun and not ended is taken up like a trip.
    BeginDrill(AskedDrill),
    /// Look, measure, call or come back, in the drill under way. What is an act of the walk is
    /// recorded as on any walk.
    Drill(Doing),
    /// Say where the key of a person lies who is to sign the ended trip.
    FindKey {
        /// The person's id in the crew file.
        signer: String,
    },
    /// Sign the ended trip.
    Seal {
        /// The person's id in the crew file.
        signer: String,
        /// The person's yes, as their key wants it.
        consent: Consent,
    },
    /// Hand out a rig to look at.
    LookAtRig {
        /// The rig's id.
        rig: String,
    },
    /// Read a trip's record back, verified.
    Show {
        /// The trip.
        trip: String,
    },
    /// Look a whole logbook over, trip by trip.
    LookOver,
    /// Read some more of a long one, of which the newest trips are here.
    ReadOn,
    /// Tell how the readings of each rig move over its trips.
    LookAtTrends,
    /// Open one trip of it.
    OpenTrip {
        /// The name of its folder.
        trip: String,
    },
    /// Say whether a manager may say this of a trip of it, and where their key lies.
    MayCountersign {
        /// The name of its folder.
        trip: String,
        /// The manager's id in the crew file.
        manager: String,
        /// What they think of it.
        opinion: Opinion,
    },
    /// Sign what a manager says to a trip of it.
    Countersign {
        /// What they say.
        what: Box<Countersigning>,
        /// The manager's yes, as their key wants it.
        consent: Consent,
    },
}

/// What the world answers.
#[derive(Clone, Debug)]
pub enum Reply {
    /// The logbook.
    Barn(Barn),
    /// A walk may begin, as far as it has been asked for.
    MayBegin {
        /// What to know before it does.
        notices: Vec<String>,
        /// What managers asked whoever is named, once both are.
        questions: Vec<PutQuestion>,
    },
    /// A walk, begun or taken up, with its trip id and who stands behind its checklist.
    Walking {
        /// The walk as its journal tells it.
        walk: Box<Walk>,
        /// The trip.
        trip: String,
        /// Real, demo or drill.
        mode: Mode,
        /// Who stands behind the checklist.
        standing: Approval,
        /// Things to know before the first step.
        notices: Vec<String>,
        /// What the barn has set for its walks.
        barn: ForWalk,
        /// The clock now.
        now: Moment,
    },
    /// The event is on disk.
    Recorded(Box<Entry>),
    /// What there is to drill with.
    DrillRoom(Box<DrillRoom>),
    /// A drill, begun or taken up.
    Drilling {
        /// The drill as its journal tells it.
        run: Box<Run>,
        /// The id of its record; nothing where it is not recorded.
        trip: Option<String>,
        /// Whether whoever rode a check ride has signed it, so that the examiner is next.
        is_signed: bool,
        /// Things to know before the first step.
        notices: Vec<String>,
        /// What the barn has set for its walks.
        barn: ForWalk,
        /// The clock now.
        now: Moment,
    },
    /// It was done in the drill under way.
    Drilled(Box<Line>),
    /// The act was refused; nothing was written.
    Refused(Refusal),
    /// Where the key of a person lies who is to sign.
    Key {
        /// The person's id in the crew file.
        signer: String,
        /// Where their key lies.
        lies: KeyLies,
    },
    /// The trip is signed.
    Sealed(Sealed),
    /// A rig to look at.
    Rig {
        /// The rig.
        rig: Box<Rig>,
        /// What was read today.
        facts: Facts,
        /// Real, demo or drill.
        mode: Mode,
    },
    /// A record read back.
    Record(Box<Tale>),
    /// A logbook to look over.
    Lookout(Box<Lookout>),
    /// More of its trips were read; so many are left.
    StillToRead(usize),
    /// How the readings of each rig move.
    Trends(Vec<RigTrends>),
    /// A trip of it, opened.
    Opened {
        /// The trip.
        trip: Box<OpenedTrip>,
        /// What can be done about it, with the command.
        next: String,
        /// The managers who can countersign it here.
        managers: Vec<CrewCard>,
    },
    /// A manager may say so of a trip.
    MayCountersign {
        /// The manager's id in the crew file.
        manager: String,
        /// Where their key lies.
        lies: KeyLies,
        /// What they sign before it, where that has to be.
        first: Option<String>,
    },
    /// It is signed and on the disk.
    Countersigned {
        /// The trip as it stands now.
        seen: Box<SeenTrip>,
        /// Where the statement lies.
        folder: String,
    },
    /// Something could not be done; the walk goes on as it was.
    Cannot(String),
    /// The disk failed: from now on nothing can be recorded, and the screens say so.
    ReadOnly(String),
}

/// A sealed trip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sealed {
    /// Short code for the phone or the cab book.
    pub receipt: Receipt,
    /// As what the trip ended.
    pub outcome: String,
    /// Who signed, printed, and as what.
    pub signed_by: String,
    /// The folder that holds the record.
    pub folder: String,
    /// The same, as it is typed behind a command.
    pub typed: String,
}
