//! Every formula by name.

use crate::cli::figure::{Formula, through};
use crate::mechanics::{
    attitude, braking, chains, chance, electrics, horse, load, strength, sway, tires, trends,
    wheels,
};

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
    load::horse_weight, load::HORSE_WEIGHT;
    load::horse_weight_metric, load::HORSE_WEIGHT_METRIC;
    load::horse_weight_foal, load::HORSE_WEIGHT_FOAL;
    load::horse_weight_four, load::HORSE_WEIGHT_FOUR;
    load::horse_weight_straight, load::HORSE_WEIGHT_STRAIGHT;
    load::scale_tickets, load::SCALE_TICKETS;

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
    braking::stopping, braking::STOPPING;
    braking::stopping_required, braking::STOPPING_REQUIRED;
    braking::pull_stop_time, braking::PULL_STOP_TIME;
    braking::brakes_required, braking::BRAKES_REQUIRED;
    braking::surge_ratio, braking::SURGE_RATIO;

    sway::sway, sway::SWAY;

    chains::anchor_distance, chains::ANCHOR_DISTANCE;
    chains::max_anchor_distance, chains::MAX_ANCHOR_DISTANCE;
    chains::chain_needs, chains::CHAIN_NEEDS;
    chains::chain_longest, chains::CHAIN_LONGEST;
    chains::chain_sag, chains::CHAIN_SAG;
    chains::cradle, chains::CRADLE;
    chains::coupler_drop, chains::COUPLER_DROP;
    chains::lanyard_window, chains::LANYARD_WINDOW;
    chains::cord_needs, chains::CORD_NEEDS;

    tires::tire_capacity, tires::TIRE_CAPACITY;
    tires::tire_capacity_table, tires::TIRE_CAPACITY_TABLE;
    tires::tire_pressure_for_load, tires::TIRE_PRESSURE_FOR_LOAD;
    tires::tire_pressure_by_table, tires::TIRE_PRESSURE_BY_TABLE;
    tires::tire_pressure_shift, tires::TIRE_PRESSURE_SHIFT;
    tires::isa_pressure_psi, tires::ISA_PRESSURE_PSI;
    tires::hot_reading, tires::HOT_READING;
    tires::load_index, tires::LOAD_INDEX;
    tires::load_range_pressure, tires::LOAD_RANGE_PRESSURE;
    tires::speed_symbol, tires::SPEED_SYMBOL;
    tires::p_metric_on_trailer, tires::P_METRIC_ON_TRAILER;
    tires::dot_age, tires::DOT_AGE;

    wheels::wheel_torque_table, wheels::WHEEL_TORQUE_TABLE;
    wheels::stud_torque, wheels::STUD_TORQUE;
    wheels::clamp_from_torque, wheels::CLAMP_FROM_TORQUE;
    wheels::star_order, wheels::STAR_ORDER;
    wheels::star_ok, wheels::STAR_OK;
    wheels::wrench_ok, wheels::WRENCH_OK;
    wheels::retorque_due, wheels::RETORQUE_DUE;
    wheels::retorque_loss, wheels::RETORQUE_LOSS;

    electrics::awg, electrics::AWG;
    electrics::wire_drop, electrics::WIRE_DROP;
    electrics::magnet_volts, electrics::MAGNET_VOLTS;
    electrics::battery_hold, electrics::BATTERY_HOLD;
    electrics::battery_cold, electrics::BATTERY_COLD;
    electrics::soc_from_volts, electrics::SOC_FROM_VOLTS;

    horse::heat_sum, horse::HEAT_SUM;
    horse::rest, horse::REST;
    horse::transport_loss, horse::TRANSPORT_LOSS;
    horse::following_gap, horse::FOLLOWING_GAP;

    strength::weakest_link, strength::WEAKEST_LINK;
    strength::chain_strength, strength::CHAIN_STRENGTH;
    strength::chain_rule, strength::CHAIN_RULE;
    strength::chain_grade, strength::CHAIN_GRADE;
    strength::coupler_class, strength::COUPLER_CLASS;
    strength::hitch_test, strength::HITCH_TEST;
    strength::d_value, strength::D_VALUE;
    strength::d_value_semitrailer, strength::D_VALUE_SEMITRAILER;
    strength::d_value_trailer, strength::D_VALUE_TRAILER;
    strength::dc_value, strength::DC_VALUE;
    strength::v_value, strength::V_VALUE;

    chance::at_least, chance::AT_LEAST;

    trends::theil_sen, trends::THEIL_SEN;
    trends::limit_day, trends::LIMIT_DAY;
}
