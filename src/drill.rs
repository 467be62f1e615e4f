//! The drill: a new driver learns on faults that cannot hurt anyone.
//!
//! A scenario is a rig as it truly is, which the learner does not see; what can be looked at from
//! where; and what each instrument then shows, reckoned from that truth by the same formulas the
//! checklists use. The learner walks a passage of a real checklist by the same machine and the same
//! rules as any walk. The same seed is the same drill on every machine.

mod check;
mod currency;
mod debrief;
mod difference;
mod doing;
mod family;
mod format;
mod grading;
mod measured;
mod offered;
mod pinned;
mod progress;
mod ride;
mod run;
mod scenario;
mod score;
mod shipped;
mod sights;
mod sketch;
mod stage;
mod truth;
mod vantage;
mod worked;
mod yaml;

pub use check::{Finding, Known, Rule, check, check_sights};
pub use currency::{Currency, LAPSED_DAYS, REFRESHER_DAYS};
pub use debrief::WELCOME;
pub use difference::{Different, different};
pub use doing::{Did, Doing, Drilled, Line, NotInDrill};
pub use family::Family;
pub use format::{SCENARIOS_FILE, SIGHTS_FILE};
pub use grading::Grading;
pub use offered::Offered;
pub use pinned::{DrillTexts, scenario_of, sights_of};
pub use progress::{
    AGAIN_AFTER_DAYS, HINT_GOES_AFTER, Played, Progress, Resumed, Ridden, Tally, Weak,
};
pub use ride::{CHECK_RIDE, LEAST_HIDDEN, NoRide, Ride, is_ridden, ride};
pub use run::Run;
pub use scenario::{Between, Call, Differs, Fault, Good, Hint, Patch, Scenario, Slip};
pub use score::{Score, StepScore};
pub use shipped::{LIST_FILES, SCENARIO_FILES, SIGHT_FILES, list, scenarios};
pub use sights::{Sight, Sights};
pub use sketch::sketch;
pub use stage::{FAULTS_IN_A_ROW, Reached, SOLO_IN_A_ROW, Stage};
pub use truth::{Drill, Passage, There, Unplayable};
pub use vantage::Vantage;
pub use worked::Worked;
