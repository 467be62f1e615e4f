//! What one barn decided, policy by policy.

use crate::barn::{Choice, Policy, RoadSide};
use std::collections::BTreeMap;

/// The policies of one barn. Each is decided once; where the barn says nothing, the default holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Policies(BTreeMap<Policy, Ruling>);

/// What a barn decided in one policy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ruling {
    /// The choice.
    pub choice: Choice,
    /// Whose word allows it, where the barn wrote that down.
    pub grounds: Option<String>,
}

impl Policies {
    /// What is chosen in a policy, by the barn or by default.
    pub fn choice(&self, policy: Policy) -> Choice {
        self.ruling(policy)
            .map_or(policy.default_choice(), |ruling| ruling.choice)
    }

    /// Whether this is what is chosen in its policy.
    pub fn chose(&self, choice: Choice) -> bool {
        self.choice(choice.policy()) == choice
    }

    /// Whether every choice is the default.
    pub fn are_default(&self) -> bool {
        self.0.values().all(|ruling| ruling.choice.is_default())
    }

    /// What the barn itself decided in a policy, if it did.
    pub fn ruling(&self, policy: Policy) -> Option<&Ruling> {
        self.0.get(&policy)
    }

    /// The side of the road traffic keeps to here.
    pub fn road_side(&self) -> RoadSide {
        if self.chose(Choice::Left) {
            RoadSide::Left
        } else {
            RoadSide::Right
        }
    }

    /// The same, with this choice made.
    #[must_use]
    pub fn choosing(self, choice: Choice) -> Self {
        self.ruled(Ruling {
            choice,
            grounds: None,
        })
    }

    pub(super) fn ruled(mut self, ruling: Ruling) -> Self {
        self.0.insert(ruling.choice.policy(), ruling);
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn where_a_barn_says_nothing_the_default_of_every_policy_holds() {
        let policies = Policies::default();
        for (_, policy) in Policy::WORDS {
            assert!(policies.chose(policy.default_choice()));
            assert_eq!(policies.ruling(policy), None);
        }
        assert_eq!(policies.road_side(), RoadSide::Right);
    }

    #[test]
    fn choosing_again_in_a_policy_takes_the_place_of_the_first_choice() {
        let policies = Policies::default()
            .choosing(Choice::Left)
            .choosing(Choice::TieFirst)
            .choosing(Choice::Right);
        assert_eq!(policies.road_side(), RoadSide::Right);
        assert!(policies.chose(Choice::TieFirst) && !policies.chose(Choice::BarFirst));
    }
}
