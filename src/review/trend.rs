//! Trends: how the readings of a rig move over its trips.
//!
//! Trips come in one after the other and are brought down to their readings, so that ten thousand
//! of them fit in memory; then each tire, hub and battery is one [`Series`] with its points, its
//! limit and its slope. A slope is told with its interval or not at all, and what somebody should
//! look at is a question.

mod assemble;
mod course;
mod fit;
mod gather;
mod grid;
mod kind;
mod line;
mod normal;
mod plot;
mod question;
mod series;
mod stretch;
mod table;

pub use gather::Trends;
pub use grid::{Grid, Mark};
pub use kind::{Kind, Per};
pub use line::LimitLine;
pub use plot::{Ahead, Dot, Frame, Plot, Segment};
pub use question::{Ask, BEYOND_OTHERS_PSI, WITHIN_DAYS};
pub use series::{Comes, Crossing, NoTrend, NotCompared, Point, RigTrends, Said, Series, Trend};
