//! How truck and trailer stand, and what that puts on each axle.

mod solve;
mod stand;
mod truck_uncoupled;

pub use solve::{PAGE as SOLVE_STATIC, StaticRig, StaticSolution, Status, solve_static};
pub use truck_uncoupled::{PAGE as TRUCK_UNCOUPLED, TruckAlone, Uncoupled, truck_uncoupled};
