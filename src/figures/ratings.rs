//! # Ratings chain
//!
//! The pull goes from the truck through every link to the trailer's axles, so the hitch is only as
//! strong as its lowest-rated link, and each link is held to two ratings: total trailer weight, and
//! weight pressing down.
//!
//! `R_total = min(R_i)`, `R_down = min(D_i)`, in lb or kg. Valid for links in series.
//! Source: 49 CFR 393.108(a) states the same rule for tiedowns (the lowest of any component,
//! connector or anchor point); for hitch parts common practice, no source.

use crate::figures::Found;
use crate::figures::figure::read;
use crate::rig::{Given, Joint, Rig};
use std::cmp::Ordering;

/// One link of the chain with its ratings.
#[derive(Clone, Debug)]
pub struct Link<'r> {
    /// What people call the part.
    pub part: &'static str,
    /// Most trailer weight.
    pub total: &'r Given,
    /// Most weight pressing down, where the part states one.
    pub downward: Option<&'r Given>,
}

/// The weakest link by one of the two ratings.
#[derive(Clone, Debug)]
pub struct Weakest<'r> {
    part: &'static str,
    rating: &'r Given,
}

impl Weakest<'_> {
    pub(crate) fn found(&self) -> Found {
        let found = read(self.rating);
        Found {
            from: format!("{}: {}", self.part, found.from),
            ..found
        }
    }
}

/// The hitch's links in order from truck to trailer, as used without spring bars.
pub fn links(rig: &Rig) -> Vec<Link<'_>> {
    let hitch = &rig.hitch;
    let mut links = match &hitch.joint {
        Joint::BumperPull {
            receiver, drawbar, ..
        } => vec![
            Link {
                part: "receiver",
                total: &receiver.carrying.total,
                downward: Some(&receiver.carrying.downward),
            },
            Link {
                part: "drawbar",
                total: &drawbar.ratings.total,
                downward: Some(&drawbar.ratings.downward),
            },
        ],
        Joint::Gooseneck { bed, .. } => {
            vec![Link {
                part: "bed hitch",
                total: &bed.total,
                downward: Some(&bed.downward),
            }]
        }
    };
    let coupler = &hitch.coupler.ratings;
    links.push(Link {
        part: "ball",
        total: &hitch.ball.total,
        downward: None,
    });
    links.push(Link {
        part: "coupler",
        total: &coupler.total,
        downward: Some(&coupler.downward),
    });
    links
}

/// The link with the lowest total rating. The coupler of equals.
pub fn weakest_total(rig: &Rig) -> Weakest<'_> {
    let coupler = &rig.hitch.coupler.ratings.total;
    lowest(
        links(rig).into_iter().map(|link| (link.part, link.total)),
        ("coupler", coupler),
    )
}

/// The link with the lowest downward rating. The coupler of equals.
pub fn weakest_downward(rig: &Rig) -> Weakest<'_> {
    let coupler = &rig.hitch.coupler.ratings.downward;
    let rated = links(rig)
        .into_iter()
        .filter_map(|link| Some((link.part, link.downward?)));
    lowest(rated, ("coupler", coupler))
}

fn lowest<'r>(
    ratings: impl Iterator<Item = (&'static str, &'r Given)>,
    last: (&'static str, &'r Given),
) -> Weakest<'r> {
    let (part, rating) = ratings.fold(last, |low, next| {
        match next.1.quantity.compare(&low.1.quantity) {
            Some(Ordering::Less) => next,
            _ => low,
        }
    });
    Weakest { part, rating }
}
