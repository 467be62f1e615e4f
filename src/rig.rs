//! The rig: one truck, one trailer, the hitch parts between and the load, as plates, stamps and
//! tape describe them.
//!
//! A [`Rig`] in hand is a described rig: every value has a unit and the place it was read.

mod backups;
pub mod demo;
pub mod describe;
mod given;
mod hitch;
mod instrument;
mod load;
mod place;
mod service;
mod trailer;
mod truck;
mod wheel;
mod yaml;

pub use backups::{
    Anchor, AnchorKind, Battery, BatteryKind, BrakeWire, Breakaway, Jack, Plug, Pulls,
};
pub use given::{Evidence, Given, Source};
pub use hitch::{
    Ball, Chain, Coupler, Drawbar, Grade, Hitch, HitchKind, Joint, Pin, Position, Ratings,
    Receiver, SpringBars,
};
pub use instrument::{ErrorRule, GaugeGrade, Instrument, InstrumentKind};
pub use load::{HorseKind, HorseTape, Load};
pub use place::Place;
pub use service::{Interval, Paper, Served, Service, ServiceKind, Span};
pub use trailer::{Axle, Brake, Equalizer, Spring, Stall, Suspension, Trailer, Wheel};
pub use truck::{AxleLoads, Truck, TruckSprings, TruckTires};
pub use wheel::{DateCode, LoadTable, Seat, TableRow, Tire, TireSet, WheelFit};

/// A described rig.
#[derive(Clone, Debug, PartialEq)]
pub struct Rig {
    /// Short name in records, such as `juniper`.
    pub id: String,
    /// Name people call it by.
    pub name: String,
    /// The truck.
    pub truck: Truck,
    /// Everything between truck and trailer.
    pub hitch: Hitch,
    /// The trailer.
    pub trailer: Trailer,
    /// What is carried in the trailer.
    pub load: Vec<Load>,
    /// The instruments kept with this rig.
    pub instruments: Vec<Instrument>,
    /// What is serviced by date or distance, as far as the file says.
    pub services: Vec<Service>,
    /// The papers that run out.
    pub papers: Vec<Paper>,
}

impl Rig {
    /// The instrument with this id.
    pub fn instrument(&self, id: &str) -> Option<&Instrument> {
        self.instruments
            .iter()
            .find(|instrument| instrument.id == id)
    }

    /// What the file says of a service.
    pub fn service(&self, what: ServiceKind) -> Option<&Service> {
        self.services.iter().find(|service| service.what == what)
    }

    /// Whether this is a bumper pull or a gooseneck.
    pub fn kind(&self) -> HitchKind {
        self.hitch.kind()
    }
}
