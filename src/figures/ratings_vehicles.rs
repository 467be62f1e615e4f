//! The ratings of truck, chains and trailer, each with what is held against it.

use crate::figures::ratings::trailer_weight;
use crate::figures::{Each, Figure, Found, Item, NotKnown, RatedLink, RatingKind, Today};
use crate::mechanics::strength::ChainRule;
use crate::rig::Place;
use crate::units::Exact;

/// The rule chains are held to: the strictest that a law or standard of this trade writes for
/// trailers of this kind. The others stand beside it.
const RULE: ChainRule = ChainRule::Each;

/// A rating of a figure against a load of a figure.
fn link(
    name: &str,
    place: Place,
    kind: RatingKind,
    (rating, load): (Result<Found, NotKnown>, Result<Found, NotKnown>),
) -> RatedLink {
    RatedLink {
        name: name.to_owned(),
        place,
        kind,
        rating,
        load,
        in_force: true,
        basis: "the vehicle's own rating".to_owned(),
        order: 0,
    }
}

/// The truck: its axles, its own weight, its payload, and both vehicles together.
pub(super) fn truck(today: &Today<'_>) -> Vec<RatedLink> {
    let of = |rating: Figure, load: Figure| (rating.of(*today, None), load.of(*today, None));
    let axle = |name: &str, pair| link(name, Place::Truck, RatingKind::Axle, pair);
    vec![
        axle(
            "truck front axle",
            of(Figure::TruckGawrFront, Figure::TruckFrontLoad),
        ),
        axle(
            "truck rear axle",
            of(Figure::TruckGawrRear, Figure::TruckRearLoad),
        ),
        link(
            "truck",
            Place::Truck,
            RatingKind::Gross,
            of(Figure::TruckGvwr, Figure::TruckGross),
        ),
        RatedLink {
            basis: "people, goods and tongue weight: what the truck weighs coupled, less its GVWR \
                    without the payload of its label"
                .to_owned(),
            ..link(
                "truck payload",
                Place::Truck,
                RatingKind::Payload,
                (Figure::TruckPayload.of(*today, None), carried(today)),
            )
        },
        link(
            "truck and trailer",
            Place::Truck,
            RatingKind::Combined,
            of(Figure::TruckGcwr, Figure::CombinedGross),
        ),
    ]
}

/// What the truck carries, coupled.
fn carried(today: &Today<'_>) -> Result<Found, NotKnown> {
    let gross = Figure::TruckGross.of(*today, None)?;
    let truck = &today.rig.truck;
    let empty = truck.gvwr.quantity.minus(&truck.payload.quantity);
    let carried = empty.and_then(|empty| gross.quantity.minus(&empty));
    let carried = carried.ok_or(NotKnown::NotOnThisRig(Figure::TruckPayload))?;
    Ok(Found {
        quantity: carried,
        ..gross
    })
}

/// The two chains by every rule, the one in force among them.
pub(super) fn chains(today: &Today<'_>) -> Vec<RatedLink> {
    let needed = Figure::ChainsNeeded.of(*today, None);
    let by_rule = ChainRule::WORDS.iter().map(|(word, rule)| {
        let (name, strength, times) = match rule {
            ChainRule::Combined => ("both chains together", Figure::ChainsBoth, 1),
            ChainRule::Each => ("weaker chain", Figure::ChainsEach, 1),
            ChainRule::TwiceMass => ("both chains, twice the trailer", Figure::ChainsBoth, 2),
        };
        let load = needed.clone().map(|needed| Found {
            quantity: needed.quantity.times(&Exact::whole(times)),
            ..needed
        });
        let force = if *rule == RULE {
            "the rule in force"
        } else {
            "another rule, shown beside"
        };
        RatedLink {
            in_force: *rule == RULE,
            basis: format!("{force}: {word}, {}", rule.source()),
            ..link(
                name,
                Place::Chains,
                RatingKind::Strength,
                (strength.of(*today, None), load),
            )
        }
    });
    by_rule.collect()
}

/// The trailer: its own weight, its axles and its tires.
pub(super) fn trailer(today: &Today<'_>) -> Vec<RatedLink> {
    let mut links = vec![link(
        "trailer",
        Place::Frame,
        RatingKind::Gross,
        (Figure::TrailerGvwr.of(*today, None), trailer_weight(today)),
    )];
    let each = |each: Each, part: &str, place, kind, rating: Figure, load: Figure| {
        let items = each.items(today.rig).into_iter();
        let links = items.map(move |item: Item| {
            let of = |figure: Figure| figure.of(*today, Some(&item));
            link(
                &format!("{} {part}", item.name()),
                place,
                kind,
                (of(rating), of(load)),
            )
        });
        links.collect::<Vec<_>>()
    };
    links.extend(each(
        Each::TrailerAxle,
        "trailer axle",
        Place::Wheels,
        RatingKind::Axle,
        Figure::AxleGawr,
        Figure::AxleLoad,
    ));
    let tires = each(
        Each::TrailerWheel,
        "tire",
        Place::Tires,
        RatingKind::Tire,
        Figure::TireCapacity,
        Figure::TireLoad,
    );
    links.extend(tires.into_iter().map(|tire| RatedLink {
        basis: "at the cold pressure asked of it".to_owned(),
        ..tire
    }));
    links
}
