//! # The weakest link

use crate::mechanics::{NoNumber, Page, Ranges, finite};
use serde::{Deserialize, Serialize};

/// What `hames figure weakest_link` tells of it.
pub const PAGE: Page = Page {
    name: "weakest_link",
    title: "The weakest link",
    situation: "The pull goes from the truck through every link to the trailer's tires, and each \
                link is held to two ratings: the weight it pulls, and the weight that presses it \
                down. The rig is good for what its lowest link is good for.",
    formula: "margin = rating - load; share left = margin / rating; the weakest link is the one \
              with the least share left",
    symbols: &[
        (
            "rating",
            "what the part's plate, stamp or manual allows, lb",
        ),
        ("load", "what it carries or pulls today, lb"),
        (
            "margin",
            "what is left; below 0 the link is over its rating, lb",
        ),
    ],
    holds: "ratings more than 0, loads of 0 or more; links in series",
    assumes: "A receiver with two sets of ratings is held to the one for how it is used: alone, or \
              with spring bars. No spring bar raises the rating of ball, coupler or drawbar.",
    never: "For adding ratings of two links. A wide margin on one does not help another.",
    source: "49 CFR 393.108(a) states the same of tie-downs: the lowest of any component, connector \
             or anchor point; for hitch parts common practice, no source",
};

/// The links of a rig.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LinkedRig {
    /// Each rating of each link.
    pub links: Vec<RatedLoad>,
}

/// One rating and what is held against it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RatedLoad {
    /// What people call the link.
    pub name: String,
    /// Its rating, lb.
    pub rating_lb: f64,
    /// What it carries or pulls, lb.
    pub load_lb: f64,
}

/// The links, the weakest first.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WeakestFirst {
    /// The weakest link.
    pub weakest: String,
    /// Every link, the weakest first.
    pub links: Vec<LinkMargin>,
}

/// What one link has left.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LinkMargin {
    /// What people call it.
    pub name: String,
    /// What it has left, lb.
    pub margin_lb: f64,
    /// The same of its rating, %.
    pub margin_pct: f64,
}

/// The links of a rig by what they have left, the weakest first.
///
/// # Errors
/// [`NoNumber`] for a number out of range, and for no links.
pub fn weakest_link(inputs: &LinkedRig) -> Result<WeakestFirst, NoNumber> {
    let mut ranges = Ranges::new();
    for link in &inputs.links {
        ranges
            .positive(&format!("{} rating_lb", link.name), link.rating_lb)
            .not_negative(&format!("{} load_lb", link.name), link.load_lb);
    }
    ranges.checked()?;
    let mut links = Vec::new();
    for link in &inputs.links {
        let left = finite("the margin", link.rating_lb - link.load_lb)?;
        links.push(LinkMargin {
            name: link.name.clone(),
            margin_lb: left,
            margin_pct: finite("the share left", 100.0 * left / link.rating_lb)?,
        });
    }
    links.sort_by(|one, other| one.margin_pct.total_cmp(&other.margin_pct));
    let weakest = links
        .first()
        .ok_or_else(|| NoNumber::because("a chain of no links has no weakest; give some"))?
        .name
        .clone();
    Ok(WeakestFirst { weakest, links })
}
