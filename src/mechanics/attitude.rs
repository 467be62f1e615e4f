//! How truck and trailer stand, and what that puts on each axle.

mod ball_height_sensitivity;
mod drawbar_drop;
mod frame_pitch;
mod lateral_tire_loads;
#[cfg(test)]
pub(in crate::mechanics) mod laws;
mod level_drawbar;
mod level_tolerance;
mod solve;
mod split_from_frame_heights;
mod stand;
mod statics;
mod status;
mod tilt;
mod tongue_from_truck_heights;
mod torsion_axle_rates;
mod truck_uncoupled;

pub use ball_height_sensitivity::{
    BallHeight, PAGE as BALL_HEIGHT_SENSITIVITY, Sensitivity, ball_height_sensitivity,
};
pub use drawbar_drop::{DrawbarByTape, DrawbarDrop, PAGE as DRAWBAR_DROP, drawbar_drop};
pub use frame_pitch::{FrameMarks, FramePitch, PAGE as FRAME_PITCH, frame_pitch};
pub use lateral_tire_loads::{Lean, PAGE as LATERAL_TIRE_LOADS, TireLoads, lateral_tire_loads};
pub use level_drawbar::{LevelDrawbar, PAGE as LEVEL_DRAWBAR, level_drawbar};
pub use level_tolerance::{
    LevelInputs, LevelStatus, LevelTolerance, PAGE as LEVEL_TOLERANCE, Tolerance, level_tolerance,
    tolerance_of,
};
pub use solve::{PAGE as SOLVE_STATIC, StaticRig, StaticSolution, solve_static};
pub use split_from_frame_heights::{
    FrameHeights, FrameSplit, PAGE as SPLIT_FROM_FRAME_HEIGHTS, split_from_frame_heights,
};
pub(crate) use stand::{Footing, Rest, Stand};
pub(crate) use statics::{Statics, on_its_stop, sprung, stood};
pub use status::{Status, axle_name};
pub use tilt::AtLimit;
pub(crate) use tilt::Spring;
pub use tongue_from_truck_heights::{
    PAGE as TONGUE_FROM_TRUCK_HEIGHTS, TongueByTape, TruckHeights, tongue_from_truck_heights,
};
pub use torsion_axle_rates::{
    PAGE as TORSION_AXLE_RATES, TorsionAxle, TorsionRates, in_series, torsion_axle_rates,
};
pub use truck_uncoupled::{PAGE as TRUCK_UNCOUPLED, TruckAlone, Uncoupled, truck_uncoupled};
