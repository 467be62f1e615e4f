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
    /// What its axles weigh as driven: people and fuel in, no trailer.
    pub weighed: Option<AxleLoads>,
    /// How far its axles give.
    pub springs: Option<TruckSprings>,
    /// Its centre of gravity above the ground.
    pub middle_height: Option<Given>,
}

/// The two axle loads of a truck on a scale.
#[derive(Clone, Debug, PartialEq)]
pub struct AxleLoads {
    /// Front.
    pub front: Given,
    /// Rear.
    pub rear: Given,
}

/// The rates of a truck's axles, both sides and their tires together.
#[derive(Clone, Debug, PartialEq)]
pub struct TruckSprings {
    /// Front.
    pub front: Given,
    /// Rear.
    pub rear: Given,
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
