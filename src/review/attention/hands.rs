//! One person at the keys of two laptops at once.

use crate::review::Trace;
use crate::review::attention::{Brief, Signal};
use crate::review::trace::Named;
use chrono::{DateTime, FixedOffset};
use std::collections::{BTreeMap, HashMap, VecDeque};

/// Two answers lie near each other within so many seconds: nobody walks from one rig to another and
/// back in less.
const NEAR_S: i64 = 60;

/// So many answers near one on the other laptop are asked about.
const ANSWERS: usize = 3;

/// How many earlier walks of a person are compared with.
const BACK: usize = 4;

/// When each person was at the keys of one walk, none of them where it was typed from paper.
#[derive(Clone, Debug)]
pub(super) struct AtKeys(BTreeMap<String, Times>);

type Times = Vec<DateTime<FixedOffset>>;

impl AtKeys {
    pub(super) fn of(trace: &Trace) -> Self {
        let mut people: BTreeMap<String, Times> = BTreeMap::new();
        for act in trace.acts.iter().filter(|_| !trace.from_paper) {
            people.entry(act.actor.clone()).or_default().push(act.at);
        }
        Self(people)
    }
}

/// When each person was at which keys.
#[derive(Debug, Default)]
pub(super) struct Hands {
    people: HashMap<String, VecDeque<(Named, Times)>>,
}

impl Hands {
    /// What a trip asks for, after those before it.
    pub(super) fn take(&mut self, brief: &Brief) -> Option<Signal> {
        let mut asked = None;
        for (who, times) in &brief.at_keys.0 {
            let before = self.people.entry(who.clone()).or_default();
            let elsewhere = before.iter().filter(|(of, _)| of.device != brief.of.device);
            let most = elsewhere
                .map(|(of, there)| (near(times, there), of))
                .max_by_key(|(answers, _)| *answers);
            if let Some((answers, other)) = most.filter(|(answers, _)| *answers >= ANSWERS) {
                asked = asked.or_else(|| {
                    Some(Signal::TwoLaptops {
                        who: who.clone(),
                        answers,
                        other: other.clone(),
                    })
                });
            }
            before.push_back((brief.of.clone(), times.clone()));
            if before.len() > BACK {
                before.pop_front();
            }
        }
        asked
    }
}

/// How many of these times lie near one of those.
fn near(times: &[DateTime<FixedOffset>], there: &[DateTime<FixedOffset>]) -> usize {
    let is_near = |at: &&DateTime<FixedOffset>| {
        let away = |other: &DateTime<FixedOffset>| at.signed_duration_since(*other).num_seconds();
        there.iter().any(|other| away(other).abs() < NEAR_S)
    };
    times.iter().filter(is_near).count()
}
