//! How truck and trailer stand, and what that puts on each axle.

mod level_drawbar;
mod solve;
mod stand;
mod statics;
mod status;
mod tilt;
mod truck_uncoupled;

pub use level_drawbar::{LevelDrawbar, PAGE as LEVEL_DRAWBAR, level_drawbar};
pub use solve::{PAGE as SOLVE_STATIC, StaticRig, StaticSolution, solve_static};
pub use status::Status;
pub use truck_uncoupled::{PAGE as TRUCK_UNCOUPLED, TruckAlone, Uncoupled, truck_uncoupled};
