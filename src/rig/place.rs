//! The places on a rig that a step can be about, in the order a person walks round it.

/// A part of the rig a drawing can mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Place {
    /// The driver's place.
    Cab,
    /// The truck's body, tires and lamps.
    Truck,
    /// The square tube on the truck, with pin and clip.
    Receiver,
    /// The bar that carries the ball.
    Drawbar,
    /// The ball.
    Ball,
    /// The socket and latch that grip the ball.
    Coupler,
    /// The safety chains with hooks and eyes.
    Chains,
    /// The breakaway lanyard, its switch and anchor.
    Lanyard,
    /// The breakaway battery.
    Battery,
    /// The tongue jack or landing legs.
    Jack,
    /// The electrical cord and plug.
    Cord,
    /// The trailer's frame, seen from the side.
    Frame,
    /// The trailer's lamps.
    Lamps,
    /// The trailer's tires.
    Tires,
    /// The trailer's wheels, nuts and hubs.
    Wheels,
    /// The trailer's brakes.
    Brakes,
    /// Floor, doors and partitions.
    Box,
    /// The wheel chocks.
    Chocks,
}

impl Place {
    /// Every place with its word, in walk-round order.
    pub const WORDS: [(&'static str, Self); 18] = [
        ("cab", Self::Cab),
        ("truck", Self::Truck),
        ("receiver", Self::Receiver),
        ("drawbar", Self::Drawbar),
        ("ball", Self::Ball),
        ("coupler", Self::Coupler),
        ("chains", Self::Chains),
        ("lanyard", Self::Lanyard),
        ("battery", Self::Battery),
        ("jack", Self::Jack),
        ("cord", Self::Cord),
        ("frame", Self::Frame),
        ("lamps", Self::Lamps),
        ("tires", Self::Tires),
        ("wheels", Self::Wheels),
        ("brakes", Self::Brakes),
        ("box", Self::Box),
        ("chocks", Self::Chocks),
    ];

    /// The word used in checklists and on the drawing.
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, place)| *place == self)
            .map_or("", |(word, _)| word)
    }
}
