//! How wheels are fastened: studs, torque, order, the wrench, and looking again.

mod clamp_from_torque;
#[cfg(test)]
mod laws;
mod retorque_due;
mod retorque_loss;
mod star_ok;
mod star_order;
mod stud_torque;
mod wheel_torque_table;
mod wrench_ok;

pub use clamp_from_torque::{Clamp, PAGE as CLAMP_FROM_TORQUE, Tightened, clamp_from_torque};
pub use retorque_due::{DueStatus, PAGE as RETORQUE_DUE, RetorqueDue, WheelOff, retorque_due};
pub use retorque_loss::{
    HELD_PCT, LossMeans, PAGE as RETORQUE_LOSS, Recheck, TorqueLoss, retorque_loss,
};
pub use star_ok::{OrderTaken, OrderTold, PAGE as STAR_OK, star_ok};
pub use star_order::{PAGE as STAR_ORDER, StarOrder, Studs, star_order};
pub use stud_torque::{NUT_FACTOR, PAGE as STUD_TORQUE, Stud, StudTorque, stud_torque};
pub use wheel_torque_table::{
    ManualRow, PAGE as WHEEL_TORQUE_TABLE, Seat, TorqueBand, TorqueFrom, WheelAndStud,
    wheel_torque_table,
};
pub use wrench_ok::{PAGE as WRENCH_OK, WrenchAsked, WrenchTold, wrench_ok};
