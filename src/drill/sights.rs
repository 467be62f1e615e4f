//! What is seen at a step from each place, in each of its states.
//!
//! Two states that are told by one sentence look alike from there. So what a learner can know is
//! reckoned: a state is known once no other state would have shown the same from everywhere that
//! was looked from.

use crate::document::{Document, Fault, Node, Read};
use crate::drill::format::{LOOK, SEES, SIGHT, SIGHTS_FILE, SIGHTS_FORMAT};
use crate::drill::{Vantage, yaml};

/// What is seen at one step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sight {
    /// The step.
    pub step: String,
    looks: Vec<Look>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Look {
    from: Vantage,
    sees: Vec<(Vec<String>, String)>,
}

/// The sights of many steps.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sights(Vec<Sight>);

impl Sights {
    /// Reads a file of sights.
    ///
    /// # Errors
    /// Every fault of the text, in the order of the file.
    pub fn read(text: &str) -> Result<Self, Vec<Fault>> {
        Document::parse(text)?.read(|root| {
            let map = root.shaped(&SIGHTS_FILE)?;
            let format = map
                .required("format")
                .and_then(|node| yaml::is(node, SIGHTS_FORMAT));
            let all = map.required("sights").and_then(|node| node.each(sight));
            format?;
            Ok(Self(all?))
        })
    }

    /// Takes in those of another file.
    pub fn extend(&mut self, others: Self) {
        self.0.extend(others.0);
    }

    /// What is seen at a step, where it is described.
    pub fn of(&self, step: &str) -> Option<&Sight> {
        self.0.iter().find(|sight| sight.step == step)
    }

    /// Every step that is described.
    pub fn steps(&self) -> impl Iterator<Item = &Sight> {
        self.0.iter()
    }
}

impl Sight {
    /// Where it can be looked at from.
    pub fn places(&self) -> impl Iterator<Item = Vantage> + '_ {
        self.looks.iter().map(|look| look.from)
    }

    /// What is seen from there in that state.
    pub fn sees(&self, from: Vantage, state: &str) -> Option<&str> {
        let look = self.looks.iter().find(|look| look.from == from)?;
        let sees = look
            .sees
            .iter()
            .find(|(states, _)| states.iter().any(|one| one == state));
        sees.map(|(_, words)| words.as_str())
    }

    /// Every state it tells of, each once.
    pub fn states(&self) -> Vec<&str> {
        let all = self.looks.iter().flat_map(|look| &look.sees);
        let mut states: Vec<&str> = Vec::new();
        for state in all.flat_map(|(states, _)| states) {
            if !states.contains(&state.as_str()) {
                states.push(state);
            }
        }
        states
    }

    /// Every state as it is named, with the path of the name.
    pub(super) fn named(&self) -> impl Iterator<Item = (String, &str)> {
        self.looks.iter().enumerate().flat_map(|(look, from)| {
            from.sees
                .iter()
                .enumerate()
                .flat_map(move |(sees, (states, _))| {
                    let path = move |at: usize| format!("looks[{look}].sees[{sees}].in[{at}]");
                    let states = states.iter().enumerate();
                    states.map(move |(at, state)| (path(at), state.as_str()))
                })
        })
    }

    /// Whether the state is known by looking from there: no other would have shown the same from
    /// all of it.
    pub fn is_known(&self, state: &str, looked: &[Vantage]) -> bool {
        let same = |other: &&str| {
            looked
                .iter()
                .all(|from| self.sees(*from, other) == self.sees(*from, state))
        };
        self.states().iter().filter(|other| same(other)).count() == 1
    }
}

fn sight(node: Node<'_>) -> Read<Sight> {
    let map = node.shaped(&SIGHT)?;
    let step = map.required("step").and_then(Node::id);
    let looks = map.required("looks").and_then(|node| node.each(look));
    Ok(Sight {
        step: step?.to_owned(),
        looks: looks?,
    })
}

fn look(node: Node<'_>) -> Read<Look> {
    let map = node.shaped(&LOOK)?;
    let from = map
        .required("from")
        .and_then(|node| node.choice(&Vantage::WORDS));
    let sees = map.required("sees").and_then(|node| {
        node.each(|node| {
            let map = node.shaped(&SEES)?;
            let states = map
                .required("in")
                .and_then(|node| node.each(|name| name.id().map(str::to_owned)));
            let words = map.required("is").and_then(Node::sentence);
            Ok((states?, words?.to_owned()))
        })
    });
    Ok(Look {
        from: from?,
        sees: sees?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const PIN: &str = "\
format: hames-sights/1
sights:
  - step: receiver-pin
    looks:
      - from: left
        sees:
          - { in: [held, no-clip], is: The bent end of a pin lies against the tube }
          - { in: [wrong-pin], is: A bolt head lies against the tube }
      - from: right
        sees:
          - { in: [held], is: A clip goes through the end of the pin }
          - { in: [no-clip, wrong-pin], is: The end stands out of the tube and nothing goes through it }
";

    #[test]
    fn a_state_is_known_once_no_other_looks_the_same_from_where_was_looked() {
        let sights = Sights::read(PIN).unwrap();
        let pin = sights.of("receiver-pin").unwrap();
        let (left, right) = (Vantage::Left, Vantage::Right);
        assert!(!pin.is_known("no-clip", &[]));
        assert!(!pin.is_known("no-clip", &[left]));
        assert!(!pin.is_known("no-clip", &[right]));
        assert!(pin.is_known("no-clip", &[left, right]));
        assert!(pin.is_known("held", &[right]));
        assert!(pin.is_known("wrong-pin", &[left]));
    }
}
