//! Brakes: what they do to a rig, and what they are asked to do.

mod brake_force_from_torque;
mod brake_state;
mod braked;
mod brakes_required;
mod breakaway_decel;
mod first_lock;
mod grade_hold;
#[cfg(test)]
mod laws;
mod per_axle;
mod pull_stop_time;
mod pull_test;
mod rig;
mod stopping;
mod stopping_required;
mod surge_ratio;

pub use brake_force_from_torque::{
    AxleBrake, PAGE as BRAKE_FORCE_FROM_TORQUE, WheelTorque, brake_force_from_torque,
};
pub use brake_state::{BrakeState, PAGE as BRAKE_STATE, SlowingRig, brake_state};
pub use brakes_required::{BrakesAsked, LightTrailer, PAGE as BRAKES_REQUIRED, brakes_required};
pub use breakaway_decel::{Breakaway, LooseTrailer, PAGE as BREAKAWAY_DECEL, breakaway_decel};
pub use first_lock::{FirstLock, PAGE as FIRST_LOCK, RigOnRoad, first_lock};
pub use grade_hold::{GradeHold, PAGE as GRADE_HOLD, TrailerOnSlope, grade_hold};
pub use per_axle::PerAxle;
pub use pull_stop_time::{LeverPull, PAGE as PULL_STOP_TIME, PULL_MPH, Pulled, pull_stop_time};
pub use pull_test::{HeldBy, PAGE as PULL_TEST, Pull, PulledTrailer, pull_test};
pub use rig::Brakes;
pub use stopping::{PAGE as STOPPING, Stop, Stopped, stopping};
pub use stopping_required::{
    Class, PAGE as STOPPING_REQUIRED, StoppingAsked, StoppingClass, stopping_required,
};
pub use surge_ratio::{PAGE as SURGE_RATIO, SurgeAllowed, SurgeRig, surge_ratio};
