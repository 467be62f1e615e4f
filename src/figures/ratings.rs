//! # Ratings chain
//!
//! The pull goes from the truck through every link to the trailer's tires, so the rig is only as
//! strong as its weakest link. Each is held to what its plate allows: trailer weight, weight
//! pressing down, axle load, tire load.
//!
//! What is compared is exact; the page of it is that of
//! [`weakest_link`](crate::mechanics::strength::weakest_link).

use crate::figures::rated_link::weakest_first;
use crate::figures::ratings_hitch::{self, HitchRating};
use crate::figures::{
    Fact, Figure, Found, Input, Lacking, NotKnown, RatedLink, RatingKind, Today, Working,
    ratings_vehicles,
};
use crate::mechanics::strength::WEAKEST_LINK;
use crate::rig::Rig;
use std::cmp::Ordering;

/// Every rating of every link from the truck to the tires, the weakest first.
pub fn ratings_chain<'r>(today: impl Into<Today<'r>>) -> Vec<RatedLink> {
    let today = today.into();
    let mut links = ratings_vehicles::truck(&today);
    links.extend(hitch(&today));
    links.extend(ratings_vehicles::chains(&today));
    links.extend(ratings_vehicles::trailer(&today));
    for (order, link) in links.iter_mut().enumerate() {
        link.order = order;
    }
    weakest_first(&mut links);
    links
}

/// The hitch's ratings against the trailer's weight and the tongue's.
fn hitch(today: &Today<'_>) -> Vec<RatedLink> {
    let (total, downward) = (trailer_weight(today), tongue_weight(today));
    let links = ratings_hitch::ratings(today.rig).into_iter();
    let links = links.map(|link| RatedLink {
        name: link.part.to_owned(),
        place: link.place,
        kind: link.kind,
        rating: Ok(link.rating()),
        load: if link.kind == RatingKind::Downward {
            downward.clone()
        } else {
            total.clone()
        },
        in_force: link.in_force,
        basis: link.basis,
        order: 0,
    });
    links.collect()
}

/// What the trailer weighs: by the scale today, at the most it may be by its error, else as loaded.
pub(super) fn trailer_weight(today: &Today<'_>) -> Result<Found, NotKnown> {
    read_or(today, Fact::TrailerWeight, Figure::TrailerGross)
}

/// What the tongue weighs: by the scale today, at the most it may be by its error, else reckoned.
pub(super) fn tongue_weight(today: &Today<'_>) -> Result<Found, NotKnown> {
    read_or(today, Fact::TongueWeight, Figure::TongueWeight)
}

fn read_or(today: &Today<'_>, fact: Fact, figure: Figure) -> Result<Found, NotKnown> {
    let Some(most) = today.facts.most(fact) else {
        return figure.of(*today, None);
    };
    Ok(Found {
        quantity: most.clone(),
        from: "read today, at the most it may be by its scale".to_owned(),
        by_maker: false,
        working: None,
    })
}

/// The lowest rating of the hitch for the trailer's weight.
pub(crate) fn weakest_total(rig: &Rig) -> Option<Found> {
    lowest(rig, RatingKind::Total)
}

/// The lowest rating of the hitch for the weight pressing down.
pub(crate) fn weakest_downward(rig: &Rig) -> Option<Found> {
    lowest(rig, RatingKind::Downward)
}

/// The lowest rating in force. The link nearest to the truck of equals.
fn lowest(rig: &Rig, kind: RatingKind) -> Option<Found> {
    let ratings: Vec<HitchRating> = in_force(rig, kind).collect();
    let inputs = ratings.iter().map(|link| told(link.part, &link.rating()));
    let inputs = inputs.collect();
    let lowest = ratings.into_iter().reduce(|low, next| {
        if next.given.quantity.compare(&low.given.quantity) == Some(Ordering::Less) {
            next
        } else {
            low
        }
    })?;
    let found = lowest.rating();
    Some(Found {
        from: format!("{}: {}", lowest.part, found.from),
        working: Some(Working {
            page: &WEAKEST_LINK,
            inputs,
        }),
        ..found
    })
}

fn in_force(rig: &Rig, kind: RatingKind) -> impl Iterator<Item = HitchRating<'_>> {
    let ratings = ratings_hitch::ratings(rig).into_iter();
    ratings.filter(move |link| link.kind == kind && link.in_force)
}

/// What the hitch's weakest rating leaves above the trailer's weight.
pub(crate) fn margin_total(today: &Today<'_>) -> Result<Found, Lacking> {
    let load = trailer_weight(today).map_err(Lacking::from)?;
    margin(weakest_total(today.rig), "trailer weight", &load)
}

/// What the hitch's weakest rating leaves above the tongue's weight.
pub(crate) fn margin_downward(today: &Today<'_>) -> Result<Found, Lacking> {
    let load = tongue_weight(today).map_err(Lacking::from)?;
    margin(weakest_downward(today.rig), "tongue weight", &load)
}

fn margin(rating: Option<Found>, what: &str, load: &Found) -> Result<Found, Lacking> {
    let rating = rating.ok_or(Lacking::Absent)?;
    let left = rating.quantity.minus(&load.quantity);
    let mut inputs = rating
        .working
        .map_or_else(Vec::new, |working| working.inputs);
    inputs.push(told(what, load));
    Ok(Found {
        quantity: left.ok_or(Lacking::Absent)?,
        from: format!("{} less {what} of {}", rating.from, load.quantity),
        by_maker: false,
        working: Some(Working {
            page: &WEAKEST_LINK,
            inputs,
        }),
    })
}

fn told(what: &str, found: &Found) -> Input {
    Input {
        what: what.to_owned(),
        value: found.quantity.to_string(),
        from: found.from.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::Facts;
    use crate::rig::demo::{JUNIPER, MESQUITE};
    use crate::units::{Dimension, parse_quantity};

    fn rig(text: &str) -> Rig {
        Rig::read(text).unwrap()
    }

    fn pounds(text: &str) -> crate::units::Quantity {
        parse_quantity(text, Dimension::Mass).unwrap()
    }

    fn named<'l>(links: &'l [RatedLink], name: &str, kind: RatingKind) -> &'l RatedLink {
        let mut found = links
            .iter()
            .filter(|link| link.name == name && link.kind == kind);
        found.next().unwrap_or_else(|| panic!("no {name}"))
    }

    #[test]
    fn every_link_of_the_demo_rigs_is_rated_and_loaded_and_the_weakest_comes_first() {
        for text in [JUNIPER, MESQUITE] {
            let links = ratings_chain(&rig(text));
            let mut orders: Vec<usize> = links.iter().map(|link| link.order).collect();
            orders.sort_unstable();
            assert_eq!(orders, (0..links.len()).collect::<Vec<_>>());
            let held: Vec<&RatedLink> = links.iter().filter(|link| link.in_force).collect();
            let shares: Vec<_> = held
                .iter()
                .map(|link| link.margin().unwrap().share.value)
                .collect();
            assert!(shares.is_sorted(), "{shares:?}");
            assert!(links[held.len()..].iter().all(|link| !link.in_force));
        }
    }

    #[test]
    fn a_receiver_rated_twice_is_held_to_its_lower_rating_until_there_are_spring_bars() {
        let plain = rig(JUNIPER);
        let alone = ratings_chain(&plain);
        let carrying = named(&alone, "receiver", RatingKind::Total);
        let with_bars = named(&alone, "receiver with spring bars", RatingKind::Total);
        assert!(carrying.in_force && !with_bars.in_force);
        assert!(with_bars.basis.contains("only with spring bars"));
        let barred = JUNIPER.replacen(
            "  # spring-bars:\n  #   couple: {",
            "  spring-bars:\n    couple: {",
            1,
        );
        let barred = rig(&barred);
        assert!(barred.hitch.spring_bars.is_some());
        let links = ratings_chain(&barred);
        assert!(!named(&links, "receiver", RatingKind::Total).in_force);
        assert!(named(&links, "receiver with spring bars", RatingKind::Total).in_force);
        let downward = Figure::WeakestDownward.of(&barred, None).unwrap();
        assert_eq!(downward.quantity, pounds("800 lb"));
        assert!(downward.from.starts_with("drawbar"), "{}", downward.from);
    }

    #[test]
    fn bars_raise_nothing_on_a_receiver_that_is_not_rated_for_them() {
        let mut unrated = rig(JUNIPER);
        unrated.hitch.spring_bars = Some(crate::rig::SpringBars {
            couple: unrated.trailer.axles[0].fit.torque.clone(),
        });
        if let crate::rig::Joint::BumperPull { receiver, .. } = &mut unrated.hitch.joint {
            receiver.distributing = None;
        }
        let links = ratings_chain(&unrated);
        let receiver = named(&links, "receiver", RatingKind::Downward);
        assert!(receiver.in_force && receiver.basis.contains("raise nothing"));
    }

    #[test]
    fn all_three_chain_rules_stand_there_and_one_is_in_force() {
        let links = ratings_chain(&rig(JUNIPER));
        let rules: Vec<_> = links
            .iter()
            .filter(|link| link.kind == RatingKind::Strength)
            .map(|link| (link.in_force, link.margin().unwrap().left.to_string()))
            .collect();
        let expected = [(true, "800 lb"), (false, "1600 lb"), (false, "8600 lb")];
        assert_eq!(rules, expected.map(|(held, left)| (held, left.to_owned())));
    }

    #[test]
    fn a_scale_ticket_goes_before_the_sum_of_parts_at_the_most_it_may_mean() {
        let rig = rig(JUNIPER);
        let facts = Facts::default().between(
            Fact::TrailerWeight,
            pounds("7000 lb"),
            pounds("6960 lb"),
            pounds("7040 lb"),
        );
        let today = Today {
            rig: &rig,
            facts: &facts,
        };
        let links = ratings_chain(today);
        let coupler = named(&links, "coupler", RatingKind::Total);
        assert_eq!(coupler.margin().unwrap().left, pounds("-40 lb"));
        assert_eq!((coupler.over(), links[0].over()), (Some(true), Some(true)));
        let margin = Figure::MarginTotal.of(today, None).unwrap();
        assert_eq!(margin.quantity, pounds("-40 lb"));
    }

    #[test]
    fn a_link_whose_load_is_not_known_says_why_and_comes_after_those_that_are() {
        let bare = JUNIPER.replace("  springs:\n    front:", "  # springs:\n    # front:");
        let bare = bare.replace("    rear: { is: 520 lb/in", "    # rear: { is: 520 lb/in");
        let links = ratings_chain(&rig(&bare));
        let axle = named(&links, "front trailer axle", RatingKind::Axle);
        assert!(matches!(axle.load, Err(NotKnown::Undescribed(..))));
        let coupler = named(&links, "coupler", RatingKind::Total);
        let place = |wanted: &RatedLink| links.iter().position(|link| link == wanted);
        assert!(place(coupler) < place(axle));
        assert!(Figure::MarginDownward.of(&rig(&bare), None).is_err());
    }
}
