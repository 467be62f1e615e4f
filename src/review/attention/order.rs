//! The order of the walks of a haul. Inside a walk the machine holds the order of steps; what was
//! typed up afterwards shows in a hitch-up that comes after a walk made on the way.

use crate::checklist::Haul;
use crate::review::attention::{Brief, Signal};
use crate::review::trace::Named;
use std::collections::HashMap;

/// A walk on the way and the hitch-up after it are of one haul within so many hours.
const HOURS: i64 = 12;

/// Where each rig stands.
#[derive(Debug, Default)]
pub(super) struct Ways {
    rigs: HashMap<String, Stands>,
}

#[derive(Debug)]
enum Stands {
    /// A haul was begun.
    Hitched,
    /// The last haul was ended.
    Unhitched,
    /// A walk was made on the way since, and no haul begun.
    OnTheWay(Named),
}

impl Ways {
    /// What a trip asks for, after those before it.
    pub(super) fn take(&mut self, brief: &Brief) -> Option<Signal> {
        let next = match (brief.haul, self.rigs.get(&brief.rig)) {
            (Haul::Begins, Some(Stands::OnTheWay(on_the_way))) => {
                let since = brief.of.at.signed_duration_since(on_the_way.at);
                let asked = (since.num_hours() < HOURS).then(|| Signal::AfterTheStart {
                    on_the_way: on_the_way.clone(),
                });
                self.rigs.insert(brief.rig.clone(), Stands::Hitched);
                return asked;
            }
            (Haul::Begins, _) => Stands::Hitched,
            (Haul::Ends, _) => Stands::Unhitched,
            (Haul::During, Some(Stands::Unhitched)) => Stands::OnTheWay(brief.of.clone()),
            (Haul::During | Haul::Apart, _) => return None,
        };
        self.rigs.insert(brief.rig.clone(), next);
        None
    }
}
