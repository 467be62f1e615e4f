//! The services a rig needs in the course of a year, by name.

/// One kind of service.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ServiceKind {
    /// Bearings cleaned, looked at and packed.
    WheelBearings,
    /// Brake shoes adjusted.
    BrakeAdjustment,
    /// Linings, drums and magnets looked at.
    BrakeInspection,
    /// Floor looked at from both sides, mats out.
    Floor,
    /// Frame, cross-members and welds looked at.
    Frame,
    /// Tires looked at by date, tread and wall.
    Tires,
    /// Breakaway battery charged and tried under load.
    BreakawayBattery,
    /// Lamps, ground and connector tried.
    Wiring,
    /// Coupler, latch and jack looked at.
    Coupler,
    /// Doors, ramp, bars and partitions tried.
    Doors,
    /// Chains and hooks measured.
    Chains,
    /// Kit and extinguisher looked through.
    EmergencyKit,
    /// Torque wrench calibrated.
    TorqueWrench,
    /// Pressure gauge calibrated.
    PressureGauge,
    /// Cold pressures read.
    TirePressure,
    /// Rig weighed as loaded.
    Weighing,
}

impl ServiceKind {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 16] = [
        ("wheel-bearings", Self::WheelBearings),
        ("brake-adjustment", Self::BrakeAdjustment),
        ("brake-inspection", Self::BrakeInspection),
        ("floor", Self::Floor),
        ("frame", Self::Frame),
        ("tires", Self::Tires),
        ("breakaway-battery", Self::BreakawayBattery),
        ("wiring", Self::Wiring),
        ("coupler", Self::Coupler),
        ("doors", Self::Doors),
        ("chains", Self::Chains),
        ("emergency-kit", Self::EmergencyKit),
        ("torque-wrench", Self::TorqueWrench),
        ("pressure-gauge", Self::PressureGauge),
        ("tire-pressure", Self::TirePressure),
        ("weighing", Self::Weighing),
    ];

    /// The word used in rig files and checklists.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, kind)| *kind == self)
            .map_or("", |(word, _)| word)
    }
}
