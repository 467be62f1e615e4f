//! In a word, how a trailer's axles stand.

use serde::Serialize;

/// Which axles are on the road, or what the equalizer does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Status {
    /// Every axle is on the road, each on its own spring.
    AllAxles,
    /// The front axle is off the road.
    FrontAxleLifted,
    /// The middle one of three axles is off the road.
    MiddleAxleLifted,
    /// The rear axle is off the road.
    RearAxleLifted,
    /// One of three axles carries everything that the ball does not.
    TwoAxlesLifted,
    /// The equalizer keeps the axles' loads alike.
    Equalized,
    /// The equalizer lies on its stop, and the axles act each on its own spring.
    EqualizerStop,
}

impl Status {
    /// Of axles each on its own spring, front to rear.
    pub(crate) fn of_axles(on_road: &[bool]) -> Self {
        match on_road {
            [false, true] | [false, true, true] => Self::FrontAxleLifted,
            [true, false] | [true, true, false] => Self::RearAxleLifted,
            [true, false, true] => Self::MiddleAxleLifted,
            some if some.contains(&false) => Self::TwoAxlesLifted,
            _ => Self::AllAxles,
        }
    }
}

/// What people call an axle of so many, counted from the front.
pub fn axle_name(axle: usize, of: usize) -> &'static str {
    match (axle, of) {
        (0, 1) => "only",
        (0, _) => "front",
        (last, of) if last + 1 == of => "rear",
        _ => "middle",
    }
}
