//! The truck, as its label, manual and a tape describe it.

use crate::rig::Given;

/// A pickup truck.
#[derive(Clone, Debug, PartialEq)]
pub struct Truck {
    /// What people call it.
    pub name: String,
    /// Most it may weigh, loaded.
    pub gvwr: Given,
    /// Most its front axle may carry.
    pub gawr_front: Given,
    /// Most its rear axle may carry.
    pub gawr_rear: Given,
    /// Most truck and trailer together may weigh.
    pub gcwr: Given,
    /// Most people, goods and tongue weight it may carry, from the tire label.
    pub payload: Given,
    /// Front axle to rear axle.
    pub wheelbase: Given,
    /// Ball behind the rear axle; negative when ahead of it, as a gooseneck ball may be.
    pub ball_behind_rear_axle: Given,
    /// Cold pressures asked for when towing.
    pub tires: TruckTires,
}

/// The cold pressures of the truck's tires when towing.
#[derive(Clone, Debug, PartialEq)]
pub struct TruckTires {
    /// Size as written on the sidewall.
    pub size: String,
    /// Front.
    pub front_cold: Given,
    /// Rear.
    pub rear_cold: Given,
}
