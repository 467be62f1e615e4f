//! Every formula by name.

use crate::cli::figure::{Formula, through};
use crate::mechanics::{attitude, braking, chains, load};

macro_rules! formulas {
    ($( $function:path, $page:path; )*) => {
        /// Every formula, grouped as `mechanics` is.
        pub(super) static FORMULAS: &[Formula] = &[
            $( Formula {
                page: &$page,
                reckon: |inputs| through(inputs, $function),
            }, )*
        ];
    };
}

formulas! {
    load::mass_properties, load::MASS_PROPERTIES;

    attitude::truck_uncoupled, attitude::TRUCK_UNCOUPLED;
    attitude::solve_static, attitude::SOLVE_STATIC;
    attitude::level_drawbar, attitude::LEVEL_DRAWBAR;
    attitude::ball_height_sensitivity, attitude::BALL_HEIGHT_SENSITIVITY;
    attitude::level_tolerance, attitude::LEVEL_TOLERANCE;
    attitude::split_from_frame_heights, attitude::SPLIT_FROM_FRAME_HEIGHTS;
    attitude::lateral_tire_loads, attitude::LATERAL_TIRE_LOADS;
    attitude::tongue_from_truck_heights, attitude::TONGUE_FROM_TRUCK_HEIGHTS;
    attitude::torsion_axle_rates, attitude::TORSION_AXLE_RATES;
    attitude::frame_pitch, attitude::FRAME_PITCH;
    attitude::drawbar_drop, attitude::DRAWBAR_DROP;

    braking::brake_state, braking::BRAKE_STATE;
    braking::first_lock, braking::FIRST_LOCK;
    braking::breakaway_decel, braking::BREAKAWAY_DECEL;
    braking::pull_test, braking::PULL_TEST;
    braking::grade_hold, braking::GRADE_HOLD;
    braking::brake_force_from_torque, braking::BRAKE_FORCE_FROM_TORQUE;

    chains::anchor_distance, chains::ANCHOR_DISTANCE;
    chains::max_anchor_distance, chains::MAX_ANCHOR_DISTANCE;
    chains::chain_needs, chains::CHAIN_NEEDS;
    chains::chain_longest, chains::CHAIN_LONGEST;
    chains::chain_sag, chains::CHAIN_SAG;
    chains::cradle, chains::CRADLE;
    chains::coupler_drop, chains::COUPLER_DROP;
    chains::lanyard_window, chains::LANYARD_WINDOW;
    chains::cord_needs, chains::CORD_NEEDS;
}
