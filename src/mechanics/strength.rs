//! How strong chains, hitches and couplings are, and what is asked of them.
//!
//! What a rule compares is kept exact: strengths are [`Quantity`](crate::units::Quantity), and only
//! formulas of force are reckoned in `f64`.

mod chain_grade;
mod chain_rule;
mod chain_strength;
mod coupler_class;
mod d_value;
mod d_value_semitrailer;
mod d_value_trailer;
mod dc_value;
mod hitch_test;
mod v_value;
mod weakest_link;

pub use chain_grade::{ChainBreaking, ChainGrade, PAGE as CHAIN_GRADE, chain_grade};
pub use chain_rule::{ChainRule, HeldTo, PAGE as CHAIN_RULE, RuleInputs, RuleOutcome, chain_rule};
pub use chain_strength::{
    ChainOfGrade, ChainStrength, GRADES, PAGE as CHAIN_STRENGTH, breaking_by_table,
    breaking_factor, chain_strength, lowest, working_load_limit,
};
pub use coupler_class::{CouplerClass, CouplerForces, PAGE as COUPLER_CLASS, coupler_class};
pub use d_value::{DValue, PAGE as D_VALUE, TruckAndTrailer, d_value};
pub use d_value_semitrailer::{PAGE as D_VALUE_SEMITRAILER, Semitrailer, d_value_semitrailer};
pub use d_value_trailer::{DValueTrailer, MostTrailer, PAGE as D_VALUE_TRAILER, d_value_trailer};
pub use dc_value::{CentreAxle, DcValue, PAGE as DC_VALUE, dc_value};
pub use hitch_test::{HitchForces, HitchTest, Kind, PAGE as HITCH_TEST, hitch_test};
pub use v_value::{CentreAxleTrailer, PAGE as V_VALUE, VValue, v_value};
pub use weakest_link::{
    LinkMargin, LinkedRig, PAGE as WEAKEST_LINK, RatedLoad, WeakestFirst, weakest_link,
};
