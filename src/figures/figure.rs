//! The closed list of figures a checklist can name.

use crate::figures::attitude_level::Nose;
use crate::figures::{
    Each, Fact, Item, Today, Working, attitude, attitude_level, battery, battery_rest, brakes,
    braking, braking_loose, chain_cradle, chain_length, chain_strength, cord, heat, kept, lanyard,
    level, lift, magnets, ratings, ratings_hitch, tickets, tire_capacity, tire_pressure, weights,
    wheels,
};
use crate::mechanics::NoNumber;
use crate::mechanics::horse::{HARDLY_COOLS_ABOVE, IMPAIRED_ABOVE};
use crate::rig::{Given, HitchKind, InstrumentKind, Rig};
use crate::units::{Dimension, Quantity, Unit};
use std::fmt;

/// A figure with the place it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The value.
    pub quantity: Quantity,
    /// Where it comes from, in words a person can follow: `plate, left wall`.
    pub from: String,
    /// Whether the maker's word stands behind it, by plate, stamp or manual.
    pub by_maker: bool,
    /// How it was computed, where it was.
    pub working: Option<Working>,
}

/// Why a rig has no such figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotKnown {
    /// The rig is built otherwise: a gooseneck has no receiver.
    NotOnThisRig(Figure),
    /// The figure belongs to one wheel, axle, chain or horse and none was named.
    NeedsItem(Figure, Each),
    /// The rig file does not say all that the formula needs.
    Undescribed(Figure, Vec<Lack>),
    /// It depends on something not read yet on this walk.
    Unread(Figure, Fact),
    /// The formula gives no number for this rig, and says why.
    NoNumber(Figure, String),
    /// It rests on what a step of this walk reads, and no reading of that step stands.
    NotAnswered(String),
}

/// A field the rig file does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lack {
    /// Its path: `truck.springs.front`.
    pub field: &'static str,
    /// What it is, in words.
    pub what: String,
}

/// Why one figure is not known, before it is said which.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Lacking {
    /// The rig is built otherwise.
    Absent,
    /// The rig file does not say all that the formula needs.
    Undescribed(Vec<Lack>),
    /// Something was not read yet.
    Unread(Fact),
    /// The formula gives no number.
    NoNumber(String),
}

impl From<NoNumber> for Lacking {
    fn from(no: NoNumber) -> Self {
        Self::NoNumber(no.to_string())
    }
}

impl From<NotKnown> for Lacking {
    /// What another figure lacks, this one lacks too.
    fn from(not: NotKnown) -> Self {
        match not {
            NotKnown::NotOnThisRig(_) | NotKnown::NeedsItem(..) => Self::Absent,
            NotKnown::Undescribed(_, lacks) => Self::Undescribed(lacks),
            NotKnown::Unread(_, fact) => Self::Unread(fact),
            NotKnown::NoNumber(_, why) => Self::NoNumber(why),
            NotKnown::NotAnswered(step) => Self::NoNumber(format!("{step} was not read")),
        }
    }
}

impl Lacking {
    fn of(self, figure: Figure) -> NotKnown {
        match self {
            Self::Absent => NotKnown::NotOnThisRig(figure),
            Self::Undescribed(lacks) => NotKnown::Undescribed(figure, lacks),
            Self::Unread(fact) => NotKnown::Unread(figure, fact),
            Self::NoNumber(why) => NotKnown::NoNumber(figure, why),
        }
    }
}

macro_rules! figures {
    ($( $name:ident, $word:literal, $dimension:ident, $each:expr, $label:literal; )*) => {
        /// A figure of a rig, by name.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Figure { $( #[doc = $label] $name, )* }

        impl Figure {
            /// Every figure.
            pub const ALL: [Self; [$($word),*].len()] = [$( Self::$name ),*];

            /// The name used in checklists and records.
            pub fn word(self) -> &'static str {
                match self { $( Self::$name => $word, )* }
            }

            /// What it measures.
            pub fn dimension(self) -> Dimension {
                match self { $( Self::$name => Dimension::$dimension, )* }
            }

            /// What it belongs to one of, where it does.
            pub fn each(self) -> Option<Each> {
                match self { $( Self::$name => $each, )* }
            }

            /// What it is, in a few words.
            pub fn label(self) -> &'static str {
                match self { $( Self::$name => $label, )* }
            }
        }
    };
}

figures! {
    AirTemperature, "air.temperature", Temperature, None, "air temperature read today";
    AttitudeBallHeight, "attitude.ball-height", Length, None, "height of the ball, coupled";
    AttitudeBallHeightLevel, "attitude.ball-height-level", Length, None, "ball height at which the trailer is level";
    AttitudeDrawbarChange, "attitude.drawbar-change", Length, None, "rise of the drawbar that makes the trailer level";
    AttitudeLoadPerInch, "attitude.load-per-inch", SpringRate, Some(Each::TrailerAxle), "what an inch of ball height adds to the axle";
    AttitudePitch, "attitude.pitch", Angle, None, "pitch of the trailer, nose up";
    AxleCount, "trailer.axles", Count, None, "number of trailer axles";
    AxleGawr, "axle.gawr", Mass, Some(Each::TrailerAxle), "most the axle may carry";
    AxleLoad, "axle.load", Mass, Some(Each::TrailerAxle), "load of the axle";
    BallDiameter, "ball.diameter", Length, None, "ball diameter as stamped";
    BallTotal, "ball.total", Mass, None, "ball rating";
    BatteryCapacity, "battery.capacity", Charge, None, "breakaway battery capacity";
    BatteryHalf, "battery.half", Voltage, None, "resting volts at half charge";
    BatteryMinutes, "battery.minutes", Time, None, "minutes the breakaway battery holds the brakes";
    BatteryNeededCapacity, "battery.needed-capacity", Charge, None, "battery capacity for fifteen minutes";
    BatteryRestLeast, "battery.rest-least", Voltage, None, "least volts at rest for fifteen minutes of brakes";
    BatteryThreeQuarters, "battery.three-quarters", Voltage, None, "resting volts at three quarters charge";
    BrakesAsked, "brakes.deceleration-asked", Deceleration, None, "deceleration the law asks of all brakes together";
    BrakesFirstLock, "brakes.first-lock-deceleration", Deceleration, None, "deceleration at which a first trailer axle slides";
    BreakawayDeceleration, "breakaway.deceleration", Deceleration, None, "deceleration of the trailer broken loose";
    BreakawayGrade, "breakaway.grade", Share, None, "grade on which its brakes hold the loose trailer";
    ChainLength, "chain.length", Length, Some(Each::Chain), "length of the chain as described";
    ChainLongest, "chain.longest", Length, Some(Each::Chain), "most length of the chain";
    ChainLowPoint, "chain.low-point", Length, Some(Each::Chain), "lowest point of the chain above the road";
    ChainNeededLength, "chain.needed-length", Length, Some(Each::Chain), "least length of the chain";
    ChainsBoth, "chains.both", Force, None, "breaking strength of both chains together";
    ChainsEach, "chains.each", Force, None, "breaking strength of the weaker chain";
    ChainsNeeded, "chains.needed", Force, None, "force the heaviest allowed trailer pulls with";
    CombinedGross, "combined.gross", Mass, None, "weight of truck and trailer";
    CordLeast, "cord.least", Length, None, "least length of the cord";
    CordLength, "cord.length", Length, None, "length of the cord as described";
    CouplerDiameter, "coupler.diameter", Length, None, "ball size stamped on the coupler";
    CouplerTotal, "coupler.total", Mass, None, "coupler rating";
    CradleClearance, "cradle.clearance", Length, None, "height at which the chains hold a dropped coupler";
    DialIndicatorCount, "dial-indicators.count", Count, None, "number of dial indicators";
    DrawbarTotal, "drawbar.total", Mass, None, "drawbar rating";
    HeatHumidityCare, "heat.humidity-care", Share, None, "humidity at which air in F and humidity in % come to 150";
    HeatHumidityDanger, "heat.humidity-danger", Share, None, "humidity at which air in F and humidity in % come to 180";
    HitchIsGooseneck, "hitch.is-gooseneck", Count, None, "number of gooseneck hitches";
    HorseCount, "horses.count", Count, None, "number of horses in stalls";
    HorseWeight, "horse.weight", Mass, Some(Each::Horse), "weight of the horse";
    HygrometerCount, "hygrometers.count", Count, None, "number of hygrometers";
    JackClearance, "jack.clearance", Length, None, "least jack foot clearance";
    LanyardLeast, "lanyard.least", Length, None, "least length of the lanyard";
    LanyardLength, "lanyard.length", Length, None, "length of the lanyard as described";
    LanyardMost, "lanyard.most", Length, None, "most length of the lanyard";
    LanyardMostAfterChains, "lanyard.most-after-chains", Length, None, "most length of a lanyard that pulls only when the chains have gone";
    LevelFirst, "level.first", Length, None, "frame gap at which something gives way first";
    LevelGap, "level.gap", Length, None, "most height gap of a level frame";
    LevelLeftNoseHigh, "level.left-nose-high", Length, None, "how much higher the front frame mark may still stand";
    LevelLeftNoseLow, "level.left-nose-low", Length, None, "how much lower the front frame mark may still stand";
    LevelMostNoseHigh, "level.most-nose-high", Length, None, "most the front frame mark may stand higher";
    LevelMostNoseLow, "level.most-nose-low", Length, None, "most the front frame mark may stand lower";
    LevelRearHigh, "level.rear-high", Length, None, "rear mark at half a degree nose low";
    LevelRearHighest, "level.rear-highest", Length, None, "highest the rear mark may stand";
    LevelRearLow, "level.rear-low", Length, None, "rear mark at half a degree nose high";
    LevelRearLowest, "level.rear-lowest", Length, None, "lowest the rear mark may stand";
    LiftBySprings, "lift.by-springs", Length, None, "what the truck's springs alone lift the ball by, the tongue taken off";
    MagnetCount, "magnets.count", Count, None, "number of brake magnets";
    MagnetCurrent, "magnets.current", Current, None, "current of all brake magnets";
    MagnetsMetered, "magnets.metered", Count, None, "brake magnets a clamp meter can read";
    MagnetCurrentExpected, "magnets.current-expected", Current, None, "current the breakaway battery drives through the magnets";
    MagnetVolts, "magnets.volts", Voltage, None, "volts the breakaway battery leaves at the magnets";
    MarginDownward, "ratings.margin-downward", Mass, None, "what the hitch has left above the tongue weight";
    MarginTotal, "ratings.margin-total", Mass, None, "what the hitch has left above the trailer weight";
    PullDeceleration, "pull.deceleration", Deceleration, None, "deceleration by the trailer's brakes alone";
    PullStopTime, "pull.stop-time", Time, None, "longest lever pull that shows the brakes expected";
    ReceiverCarryingDownward, "receiver.carrying-downward", Mass, None, "downward rating of the receiver or bed hitch, without spring bars";
    ReceiverCarryingTotal, "receiver.carrying-total", Mass, None, "rating of the receiver or bed hitch, without spring bars";
    SpareCold, "spare.cold", Pressure, None, "cold pressure asked of the spare";
    SpareCount, "spare.count", Count, None, "number of spare tires";
    ThermometerCount, "thermometers.count", Count, None, "number of thermometers";
    TireCapacity, "tire.capacity", Mass, Some(Each::TrailerWheel), "most the tire may carry at its cold pressure";
    TireCold, "tire.cold", Pressure, Some(Each::TrailerWheel), "cold pressure asked for";
    TireLoad, "tire.load", Mass, Some(Each::TrailerWheel), "load of the tire";
    TireColdToday, "tire.cold-today", Pressure, Some(Each::TrailerWheel), "what a cold gauge should show today";
    TireMaxPressure, "tire.max-pressure", Pressure, Some(Each::TrailerWheel), "sidewall pressure";
    TireNeededPressure, "tire.needed-pressure", Pressure, Some(Each::TrailerWheel), "least cold pressure for the load";
    TongueLeast, "tongue.least", Mass, None, "least tongue weight by the ticket";
    TongueMost, "tongue.most", Mass, None, "most tongue weight by the ticket";
    TongueShare, "tongue.share", Share, None, "tongue weight as a share of the trailer";
    TongueShareRead, "tongue.share-read", Share, None, "tongue weight read today as a share of the trailer";
    TongueWeight, "tongue.weight", Mass, None, "tongue weight";
    TrailerGross, "trailer.gross", Mass, None, "trailer weight as loaded";
    TrailerGvwr, "trailer.gvwr", Mass, None, "most the trailer may weigh";
    TrailerRead, "trailer.read", Mass, None, "trailer weight by the scale";
    TreadGaugeCount, "tread-gauges.count", Count, None, "number of tread gauges";
    TruckFrontLoad, "truck.front-load", Mass, None, "load of the truck's front axle, coupled";
    TruckFrontShareLost, "truck.front-share-lost", Share, None, "share of its load that coupling takes off the front axle";
    TruckGawrFront, "truck.gawr-front", Mass, None, "most the truck's front axle may carry";
    TruckGawrRear, "truck.gawr-rear", Mass, None, "most the truck's rear axle may carry";
    TruckGcwr, "truck.gcwr", Mass, None, "most truck and trailer may weigh together";
    TruckGross, "truck.gross", Mass, None, "weight of the truck, coupled";
    TruckGvwr, "truck.gvwr", Mass, None, "most the truck may weigh";
    TruckPayload, "truck.payload", Mass, None, "most the truck may carry";
    TruckPayloadLeft, "truck.payload-left", Mass, None, "what the truck may still take on, coupled";
    TruckRearLoad, "truck.rear-load", Mass, None, "load of the truck's rear axle, coupled";
    TruckTireCold, "truck.tire-cold", Pressure, Some(Each::TruckAxle), "cold pressure for towing";
    WeakestDownward, "ratings.weakest-downward", Mass, None, "lowest downward rating of the hitch";
    WeakestTotal, "ratings.weakest-total", Mass, None, "lowest total rating of the hitch";
    WheelClamp, "wheel.clamp", Force, Some(Each::TrailerWheel), "clamp of one stud";
    WheelRecheckAt, "wheel.recheck-at", Length, Some(Each::TrailerWheel), "odometer of the next look at the nuts";
    WheelStuds, "wheel.studs", Count, Some(Each::TrailerWheel), "number of studs";
    WheelTorque, "wheel.torque", Torque, Some(Each::TrailerWheel), "wheel torque to aim at";
    WheelTorqueHigh, "wheel.torque-high", Torque, Some(Each::TrailerWheel), "most wheel torque";
    WheelTorqueLow, "wheel.torque-low", Torque, Some(Each::TrailerWheel), "least wheel torque";
}

impl Figure {
    /// The figure a checklist names by its word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|figure| figure.word() == word)
    }

    /// The figure of this rig, today; for figures of a wheel, axle, chain or horse, of that item.
    ///
    /// # Errors
    /// [`NotKnown`] when the rig has no such part, its file does not say enough, or the item is
    /// missing.
    pub fn of<'r>(
        self,
        today: impl Into<Today<'r>>,
        item: Option<&Item>,
    ) -> Result<Found, NotKnown> {
        let today = today.into();
        match self.each() {
            None => self.of_today(&today).map_err(|lacking| lacking.of(self)),
            Some(each) => {
                let item = item
                    .filter(|item| item.each == each)
                    .ok_or(NotKnown::NeedsItem(self, each))?;
                self.of_item(&today, item)
                    .map_err(|lacking| lacking.of(self))
            }
        }
    }

    fn of_today(self, today: &Today<'_>) -> Result<Found, Lacking> {
        let rig = today.rig;
        match self {
            Self::AirTemperature => tickets::air(today),
            Self::AttitudeBallHeight => attitude::ball_height(rig),
            Self::AttitudeBallHeightLevel => attitude::ball_height_level(rig),
            Self::AttitudeDrawbarChange => attitude::drawbar_change(rig),
            Self::AttitudePitch => attitude::pitch(rig),
            Self::BatteryMinutes => battery::minutes(today),
            Self::BatteryNeededCapacity => battery::needed_capacity(today),
            Self::BatteryRestLeast => battery_rest::least(today),
            Self::BrakesAsked => braking::asked(),
            Self::BrakesFirstLock => braking::first_to_slide(rig),
            Self::BreakawayDeceleration => braking_loose::deceleration(rig),
            Self::BreakawayGrade => braking_loose::grade(rig),
            Self::CombinedGross => attitude::combined_gross(rig),
            Self::HeatHumidityCare => heat::humidity_at(today, IMPAIRED_ABOVE),
            Self::HeatHumidityDanger => heat::humidity_at(today, HARDLY_COOLS_ABOVE),
            Self::LevelFirst => attitude_level::first(rig),
            Self::LevelLeftNoseHigh => attitude_level::left(rig, Nose::High),
            Self::LevelLeftNoseLow => attitude_level::left(rig, Nose::Low),
            Self::LevelMostNoseHigh => attitude_level::most(rig, Nose::High),
            Self::LevelMostNoseLow => attitude_level::most(rig, Nose::Low),
            Self::CordLeast => cord::least(today),
            Self::CradleClearance => chain_cradle::clearance(today),
            Self::LanyardLeast => lanyard::least(today),
            Self::LanyardMost => lanyard::most(today),
            Self::LanyardMostAfterChains => lanyard::most_after_chains(today),
            Self::LevelRearHigh => level::rear_high(today),
            Self::LevelRearHighest => level::rear_highest(today),
            Self::LevelRearLow => level::rear_low(today),
            Self::LevelRearLowest => level::rear_lowest(today),
            Self::LiftBySprings => lift::by_springs(rig),
            Self::MagnetCurrentExpected => magnets::current_expected(today.rig),
            Self::MagnetVolts => magnets::volts(today.rig),
            Self::MarginDownward => ratings::margin_downward(today),
            Self::MarginTotal => ratings::margin_total(today),
            Self::PullDeceleration => braking::pull(rig),
            Self::PullStopTime => braking::longest_pull(rig),
            Self::TongueLeast => tickets::tongue_least(today),
            Self::TongueMost => tickets::tongue_most(today),
            Self::TongueShare => attitude::tongue_share(rig),
            Self::TongueShareRead => weights::tongue_share_read(today),
            Self::TongueWeight => attitude::tongue_weight(rig),
            Self::TrailerGross => weights::gross(rig),
            Self::TrailerRead => tickets::trailer(today),
            Self::TruckFrontLoad => attitude::truck_front(rig),
            Self::TruckFrontShareLost => attitude::front_share_lost(rig),
            Self::TruckGross => attitude::truck_gross(rig),
            Self::TruckPayloadLeft => attitude::payload_left(rig),
            Self::TruckRearLoad => attitude::truck_rear(rig),
            _ => self.of_rig(rig).ok_or(Lacking::Absent),
        }
    }

    fn of_rig(self, rig: &Rig) -> Option<Found> {
        let hitch = &rig.hitch;
        Some(match self {
            Self::AxleCount => counted(rig.trailer.axles.len(), "axles in the rig file"),
            Self::BallDiameter => read(&hitch.ball.diameter),
            Self::BallTotal => read(&hitch.ball.total),
            Self::BatteryCapacity => read(&hitch.breakaway.battery.capacity),
            Self::BatteryHalf => battery::half(rig)?,
            Self::BatteryThreeQuarters => battery::three_quarters(rig)?,
            Self::ChainsBoth => chain_strength::both(rig)?,
            Self::ChainsEach => chain_strength::each(rig)?,
            Self::ChainsNeeded => chain_strength::needed(rig)?,
            Self::CordLength => read(&hitch.plug.cord),
            Self::CouplerDiameter => read(&hitch.coupler.diameter),
            Self::CouplerTotal => read(&hitch.coupler.ratings.total),
            Self::DialIndicatorCount => kept::instruments(rig, InstrumentKind::DialIndicator),
            Self::DrawbarTotal => read(ratings_hitch::drawbar(rig)?),
            Self::HitchIsGooseneck => counted(
                usize::from(hitch.kind() == HitchKind::Gooseneck),
                "the joint in the rig file",
            ),
            Self::HorseCount => counted(
                Each::Horse.items(rig).len(),
                "horses in stalls in the rig file",
            ),
            Self::HygrometerCount => kept::instruments(rig, InstrumentKind::Hygrometer),
            Self::JackClearance => read(&hitch.jack.clearance),
            Self::LanyardLength => read(&hitch.breakaway.lanyard),
            Self::LevelGap => level::gap(rig)?,
            Self::MagnetCount => brakes::magnets(rig),
            Self::MagnetCurrent => brakes::current(rig)?,
            Self::MagnetsMetered => kept::metered_magnets(rig),
            Self::ReceiverCarryingDownward => read(&ratings_hitch::carrying(rig).downward),
            Self::ReceiverCarryingTotal => read(&ratings_hitch::carrying(rig).total),
            Self::SpareCold => read(&rig.trailer.spare.as_ref()?.cold),
            Self::SpareCount => counted(
                usize::from(rig.trailer.spare.is_some()),
                "spare in the rig file",
            ),
            Self::ThermometerCount => kept::instruments(rig, InstrumentKind::Thermometer),
            Self::TrailerGvwr => read(&rig.trailer.gvwr),
            Self::TreadGaugeCount => kept::instruments(rig, InstrumentKind::TreadGauge),
            Self::TruckGawrFront => read(&rig.truck.gawr_front),
            Self::TruckGawrRear => read(&rig.truck.gawr_rear),
            Self::TruckGcwr => read(&rig.truck.gcwr),
            Self::TruckGvwr => read(&rig.truck.gvwr),
            Self::TruckPayload => read(&rig.truck.payload),
            Self::WeakestDownward => ratings::weakest_downward(rig)?,
            Self::WeakestTotal => ratings::weakest_total(rig)?,
            _ => return None,
        })
    }

    fn of_item(self, today: &Today<'_>, item: &Item) -> Result<Found, Lacking> {
        let (rig, index) = (today.rig, item.index);
        let axle = || rig.trailer.axles.get(index).ok_or(Lacking::Absent);
        match self {
            Self::AttitudeLoadPerInch => attitude::load_per_inch(rig, index),
            Self::AxleLoad => attitude::axle_load(rig, index),
            Self::HorseWeight => weights::horse(rig, index),
            Self::TireCapacity => tire_capacity::found(&axle()?.tire),
            Self::TireColdToday => tire_pressure::cold_today(today, &axle()?.tire),
            Self::TireLoad => attitude::tire_load(rig, item),
            Self::TireNeededPressure => tire_pressure::needed(today, item),
            Self::WheelClamp => wheels::clamp(axle()?),
            Self::WheelRecheckAt => wheels::recheck_at(today, axle()?),
            Self::ChainLongest => chain_length::longest(today, index),
            Self::ChainLowPoint => chain_length::low_point(today, index),
            Self::ChainNeededLength => chain_length::needed(today, index),
            _ => self.of_part(rig, index).ok_or(Lacking::Absent),
        }
    }

    fn of_part(self, rig: &Rig, index: usize) -> Option<Found> {
        let axle = rig.trailer.axles.get(index);
        Some(match self {
            Self::ChainLength => read(&rig.hitch.chains.get(index)?.length),
            Self::AxleGawr => read(&axle?.gawr),
            Self::TireCold => read(&axle?.tire.cold),
            Self::TireMaxPressure => read(&axle?.tire.max_pressure),
            Self::WheelStuds => read(&axle?.fit.studs),
            Self::WheelTorque => read(&axle?.fit.torque),
            Self::WheelTorqueHigh => read(&axle?.fit.torque_high),
            Self::WheelTorqueLow => read(&axle?.fit.torque_low),
            Self::TruckTireCold if index == 0 => read(&rig.truck.tires.front_cold),
            Self::TruckTireCold => read(&rig.truck.tires.rear_cold),
            _ => return None,
        })
    }
}

/// A value read off the rig, with its place.
pub(crate) fn read(given: &Given) -> Found {
    Found {
        quantity: given.quantity.clone(),
        from: given.source.told(),
        by_maker: given.source.by.is_makers(),
        working: None,
    }
}

/// A number of parts.
pub(crate) fn counted(count: usize, from: &str) -> Found {
    let count = i64::try_from(count).unwrap_or(i64::MAX);
    Found {
        quantity: Quantity::whole(count, Unit::Piece),
        from: from.to_owned(),
        by_maker: false,
        working: None,
    }
}

impl fmt::Display for NotKnown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotOnThisRig(figure) => {
                write!(f, "this rig has no {} ({})", figure.word(), figure.label())
            }
            Self::NeedsItem(figure, each) => {
                write!(
                    f,
                    "{} belongs to one {}; repeat the step for each",
                    figure.word(),
                    each.word()
                )
            }
            Self::Undescribed(figure, lacks) => {
                let fields: Vec<String> = lacks
                    .iter()
                    .map(|lack| format!("{} ({})", lack.what, lack.field))
                    .collect();
                write!(
                    f,
                    "{} needs what the rig file does not say: {}",
                    figure.label(),
                    fields.join(", ")
                )
            }
            Self::Unread(figure, fact) => write!(
                f,
                "{} needs the {}, which was not read yet",
                figure.label(),
                fact.word().replace('-', " ")
            ),
            Self::NoNumber(figure, why) => {
                write!(f, "{} has no number here: {why}", figure.label())
            }
            Self::NotAnswered(step) => write!(f, "no reading of {step} stands yet"),
        }
    }
}
