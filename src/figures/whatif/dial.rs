//! What of a rig, and of the day, can be changed in thought.

use crate::figures::whatif::places::{self, Standing};
use crate::figures::whatif::step::{Grain, Toward, step};
use crate::figures::{Fact, Facts, NotTurned, Today, load_weight};
use crate::rig::{Evidence, Given, Joint, Rig, Source};
use crate::units::{Dimension, Quantity, Unit};

/// One thing that can be changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dial {
    /// How far the drawbar lifts the ball.
    Rise,
    /// How high the receiver is: people, goods and fuel in the truck lower it.
    Receiver,
    /// Spring bars on, or off.
    SpringBars,
    /// What one of the load weighs.
    Weight(usize),
    /// Where a horse stands.
    Stall(usize),
    /// How far behind the ball something else lies.
    Behind(usize),
    /// The cold pressure of an axle's tires.
    Cold(usize),
    /// The air temperature.
    Air,
}

/// A rig and a day, as described or as thought.
#[derive(Clone, Debug, PartialEq)]
pub struct Scenario {
    /// The rig.
    pub rig: Rig,
    /// What was read today.
    pub facts: Facts,
}

/// What stands for the evidence of a value that was changed.
const IN_THOUGHT: &str = "changed in thought";

impl Dial {
    /// What is measured, where it is a value and no choice.
    pub fn dimension(self) -> Option<Dimension> {
        match self {
            Self::Rise | Self::Receiver | Self::Behind(_) => Some(Dimension::Length),
            Self::Weight(_) => Some(Dimension::Mass),
            Self::Cold(_) => Some(Dimension::Pressure),
            Self::Air => Some(Dimension::Temperature),
            Self::SpringBars | Self::Stall(_) => None,
        }
    }
}

impl<'s> From<&'s Scenario> for Today<'s> {
    fn from(scenario: &'s Scenario) -> Self {
        Self {
            rig: &scenario.rig,
            facts: &scenario.facts,
        }
    }
}

impl Scenario {
    /// Everything that can be changed here, in the order a person meets it.
    pub fn dials(&self) -> Vec<Dial> {
        let mut dials = Vec::new();
        if let Joint::BumperPull { .. } = self.rig.hitch.joint {
            dials.extend([Dial::Rise, Dial::Receiver]);
        }
        if self.rig.hitch.spring_bars.is_some() {
            dials.push(Dial::SpringBars);
        }
        let several = places::of(&self.rig).len() > 1;
        for (at, load) in self.rig.load.iter().enumerate() {
            dials.push(Dial::Weight(at));
            dials.push(if several && places::is_horse(load) {
                Dial::Stall(at)
            } else {
                Dial::Behind(at)
            });
        }
        dials.extend((0..self.rig.trailer.axles.len()).map(Dial::Cold));
        dials.push(Dial::Air);
        dials
    }

    /// What it is called.
    pub fn label(&self, dial: Dial) -> String {
        let name = |at: usize| {
            let load = self.rig.load.get(at);
            let name = load.map_or("", |load| load.name.as_str());
            name.split(',').next().unwrap_or_default().to_owned()
        };
        match dial {
            Dial::Rise => "drawbar rise".to_owned(),
            Dial::Receiver => "receiver height".to_owned(),
            Dial::SpringBars => "spring bars".to_owned(),
            Dial::Weight(at) => format!("{}, weight", name(at)),
            Dial::Stall(at) => format!("{}, stands", name(at)),
            Dial::Behind(at) => format!("{}, back", name(at)),
            Dial::Cold(at) => match (self.rig.trailer.axles.len(), at) {
                (1, _) => "tires, cold".to_owned(),
                (_, 0) => "front tires, cold".to_owned(),
                (3, 1) => "middle tires, cold".to_owned(),
                _ => "rear tires, cold".to_owned(),
            },
            Dial::Air => "air temperature".to_owned(),
        }
    }

    /// Its value in words.
    pub fn shown(&self, dial: Dial) -> String {
        match dial {
            Dial::SpringBars if self.rig.hitch.spring_bars.is_some() => "on".to_owned(),
            Dial::SpringBars => "off".to_owned(),
            Dial::Stall(at) => {
                let places = places::of(&self.rig);
                let place = places::place_of(&self.rig, at, &places);
                let place = place.and_then(|place| places.get(place));
                place.map_or_else(|| "elsewhere".to_owned(), |place| place.name.clone())
            }
            _ => self
                .value(dial)
                .map_or_else(|| "not read".to_owned(), |value| value.shown(2)),
        }
    }

    /// Its value, where it is one.
    fn value(&self, dial: Dial) -> Option<Quantity> {
        match dial {
            Dial::Weight(at) => Some(load_weight(self.rig.load.get(at)?).ok()?.quantity),
            Dial::Air => self.facts.get(Fact::AirTemperature).cloned(),
            _ => self.given(dial).map(|given| given.quantity.clone()),
        }
    }

    /// The field of the rig behind it, where it is one.
    fn given(&self, dial: Dial) -> Option<&Given> {
        match (dial, &self.rig.hitch.joint) {
            (Dial::Rise, Joint::BumperPull { drawbar, .. }) => Some(&drawbar.rise),
            (Dial::Receiver, Joint::BumperPull { receiver, .. }) => Some(&receiver.height),
            (Dial::Behind(at), _) => Some(&self.rig.load.get(at)?.at.behind),
            (Dial::Cold(at), _) => Some(&self.rig.trailer.axles.get(at)?.tire.cold),
            _ => None,
        }
    }

    /// The least and the most it can be.
    fn range(&self, dial: Dial) -> (Quantity, Quantity) {
        let between = |low, high, unit| (Quantity::whole(low, unit), Quantity::whole(high, unit));
        match dial {
            Dial::Rise => between(-14, 14, Unit::Inch),
            Dial::Receiver => between(6, 40, Unit::Inch),
            Dial::Behind(_) => between(-60, 600, Unit::Inch),
            Dial::Weight(_) => between(0, 4000, Unit::Pound),
            Dial::Air => between(-60, 140, Unit::Fahrenheit),
            Dial::Cold(at) => {
                let tire = self.rig.trailer.axles.get(at).map(|axle| &axle.tire);
                let (low, most) = between(10, 150, Unit::Psi);
                (
                    low,
                    tire.map_or(most, |tire| tire.max_pressure.quantity.clone()),
                )
            }
            Dial::SpringBars | Dial::Stall(_) => between(0, 0, Unit::Piece),
        }
    }

    /// The same with another value.
    pub(super) fn set(&self, dial: Dial, value: Quantity) -> Result<Self, NotTurned> {
        let (low, high) = self.range(dial);
        if !value.within(&low, &high) {
            let what = self.label(dial);
            return Err(NotTurned::Outside { what, low, high });
        }
        let given = Given {
            quantity: value.clone(),
            source: Source {
                by: Evidence::Estimate,
                at: IN_THOUGHT.to_owned(),
            },
        };
        let mut new = self.clone();
        if dial == Dial::Air {
            new.facts = new.facts.with(Fact::AirTemperature, value);
        } else {
            new.put(dial, Some(given));
        }
        Ok(new)
    }

    /// Writes a value of the rig.
    fn put(&mut self, dial: Dial, given: Option<Given>) {
        let rig = &mut self.rig;
        let field = match (dial, &mut rig.hitch.joint) {
            (Dial::Weight(at), _) => {
                if let Some(load) = rig.load.get_mut(at) {
                    load.weight = given;
                }
                return;
            }
            (Dial::Rise, Joint::BumperPull { drawbar, .. }) => Some(&mut drawbar.rise),
            (Dial::Receiver, Joint::BumperPull { receiver, .. }) => Some(&mut receiver.height),
            (Dial::Behind(at), _) => rig.load.get_mut(at).map(|load| &mut load.at.behind),
            (Dial::Cold(at), _) => rig
                .trailer
                .axles
                .get_mut(at)
                .map(|axle| &mut axle.tire.cold),
            _ => None,
        };
        if let (Some(field), Some(given)) = (field, given) {
            *field = given;
        }
    }

    /// The same with this one as it is in another.
    pub(super) fn as_in(&self, dial: Dial, other: &Self) -> Self {
        let mut new = self.clone();
        match dial {
            Dial::Air => new.facts = other.facts.clone(),
            Dial::SpringBars => new
                .rig
                .hitch
                .spring_bars
                .clone_from(&other.rig.hitch.spring_bars),
            Dial::Stall(at) => {
                if let Some(load) = other.rig.load.get(at) {
                    let place = Standing {
                        name: String::new(),
                        stall: load.stall.clone(),
                        at: load.at.clone(),
                    };
                    new.rig = places::moved(&self.rig, at, &place);
                }
            }
            Dial::Weight(at) => new.put(
                dial,
                other.rig.load.get(at).and_then(|load| load.weight.clone()),
            ),
            _ => new.put(dial, other.given(dial).cloned()),
        }
        new
    }

    /// The same without spring bars.
    pub(super) fn without_bars(&self) -> Self {
        let mut new = self.clone();
        new.rig.hitch.spring_bars = None;
        new
    }

    /// The same one step on.
    pub(super) fn stepped(&self, dial: Dial, toward: Toward) -> Result<Self, NotTurned> {
        if let Dial::Stall(at) = dial {
            return Ok(self.next_place(at, toward));
        }
        let Some(value) = self.value(dial) else {
            return Err(NotTurned::NotKnown(self.label(dial)));
        };
        let step = step(value.unit, self.grain(dial));
        let new = match toward {
            Toward::More => &value.value + &step,
            Toward::Less => &value.value - &step,
        };
        self.set(dial, Quantity::new(new, value.unit))
    }

    /// The same with a horse in the next place for one, round and round.
    fn next_place(&self, load: usize, toward: Toward) -> Self {
        let places = places::of(&self.rig);
        let here = places::place_of(&self.rig, load, &places);
        let count = places.len().max(1);
        let next = match (here, toward) {
            (None, _) => 0,
            (Some(here), Toward::More) => (here + 1) % count,
            (Some(here), Toward::Less) => (here + count - 1) % count,
        };
        let rig = places
            .get(next)
            .map(|place| places::moved(&self.rig, load, place));
        Self {
            rig: rig.unwrap_or_else(|| self.rig.clone()),
            facts: self.facts.clone(),
        }
    }

    fn grain(&self, dial: Dial) -> Grain {
        let horse = |at: usize| self.rig.load.get(at).is_some_and(places::is_horse);
        match dial {
            Dial::Behind(_) => Grain::Coarse,
            Dial::Weight(at) if horse(at) => Grain::Coarse,
            _ => Grain::Fine,
        }
    }
}
