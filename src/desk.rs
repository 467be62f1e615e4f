//! What a screen may ask of the world, and what the world answers: effects as data.
//!
//! The screens and the line-by-line mode name no file and no clock. They hand over an
//! [`Errand`] and show the [`Reply`]; whoever holds the other side of the desk does the work.

mod answering;
mod barn;
mod consent;
mod countersigning;
mod counts;
mod defects;
mod drills;
pub mod earlier;
mod errand;
mod exceptions;
mod lookout;
mod matters;
mod not_done;
mod opened;
mod put;
mod tale;
pub mod told;
pub mod trend;
mod went;
mod why;

pub use answering::Answering;
pub use barn::{Approval, Barn, ChecklistCard, CrewCard, RigCard, TripCard};
pub use consent::{Consent, KeyLies};
pub use countersigning::Countersigning;
pub use defects::{BarnDefects, ClosedDefect, RigDefects, StandingDefect, again, stated};
pub use drills::{
    AskedDrill, DRILL, Difference, DrillRoom, DrillWanted, Learner, NOBODY_LEARNS, ScenarioCard,
    WhichDrill,
};
pub use earlier::DefectCard;
pub use errand::{Errand, NO_ODOMETER, Reply, Sealed};
pub use exceptions::{Exception, exceptions, exceptions_among};
pub use lookout::{ClosedTrip, Lookout, SeenTrip};
pub use matters::{DueCard, HaulCard, Matter, told as told_due};
pub use not_done::{not_answered_again, not_done, tell_unfinished};
pub use opened::{HeldTo, OpenedTrip, ReadingBeside};
pub use put::PutQuestion;
pub use tale::{Tale, TaleLine, Weight};
pub use went::{lasted, went};
pub use why::{Asked, Line, why, why_figure, why_link};
