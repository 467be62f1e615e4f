//! The parts of a checklist, each with the keys that lead to it.

use crate::checklist::{Ask, Checklist, ReadingAsk, Section, SightingAsk, Step};
use crate::rules::Bound;

/// A part of a checklist and its path.
pub(super) struct At<T> {
    pub(super) path: String,
    pub(super) part: T,
}

impl<T> At<T> {
    /// The path of a key of this part.
    pub(super) fn key(&self, key: &str) -> String {
        format!("{}.{key}", self.path)
    }
}

/// Each of `parts` with its path.
pub(super) fn each<'c, T>(path: &str, parts: &'c [T]) -> Vec<At<&'c T>> {
    parts
        .iter()
        .enumerate()
        .map(|(index, part)| At {
            path: format!("{path}[{index}]"),
            part,
        })
        .collect()
}

pub(super) fn sections(checklist: &Checklist) -> Vec<At<&Section>> {
    each("sections", &checklist.sections)
}

pub(super) fn steps_of<'c>(section: &At<&'c Section>) -> Vec<At<&'c Step>> {
    each(&section.key("steps"), &section.part.steps)
}

pub(super) fn steps(checklist: &Checklist) -> Vec<At<&Step>> {
    sections(checklist).iter().flat_map(steps_of).collect()
}

/// The reading a step asks for, if it does.
pub(super) fn reading<'c>(step: &At<&'c Step>) -> Option<At<&'c ReadingAsk>> {
    match &step.part.ask {
        Ask::Reading(part) => Some(At {
            path: step.key("reading"),
            part,
        }),
        Ask::Sighting(_) | Ask::Independent(_) => None,
    }
}

/// Every bound of a reading: of the target, then of each limit.
pub(super) fn bounds<'c>(reading: &At<&'c ReadingAsk>) -> Vec<At<&'c Bound>> {
    let target = reading.part.target.iter().map(|part| At {
        path: reading.key("target"),
        part,
    });
    let limits = each(&reading.key("limits"), &reading.part.limits);
    let limits = limits.into_iter().map(|limit| At {
        path: limit.key(limit.part.side.word()),
        part: &limit.part.bound,
    });
    target.chain(limits).collect()
}

/// The states a step asks for, if it does.
pub(super) fn sighting<'c>(step: &At<&'c Step>) -> Option<At<&'c SightingAsk>> {
    let (key, part) = match &step.part.ask {
        Ask::Reading(_) => return None,
        Ask::Sighting(part) => ("sighting", part),
        Ask::Independent(part) => ("independent", part),
    };
    Some(At {
        path: step.key(key),
        part,
    })
}

/// Every text a person reads, in no particular order.
pub(super) fn texts(checklist: &Checklist) -> Vec<At<&str>> {
    let mut texts = Texts::default();
    texts.add("title".to_owned(), &checklist.title);
    texts.list("cautions", &checklist.cautions);
    for section in sections(checklist) {
        texts.add(section.key("title"), &section.part.title);
        texts.add(section.key("complete"), &section.part.complete);
        for step in steps_of(&section) {
            texts.step(&step);
        }
    }
    for branch in each("branches", &checklist.branches) {
        texts.add(branch.key("found"), &branch.part.found);
        texts.list(&branch.key("now"), &branch.part.now);
    }
    texts.0
}

#[derive(Default)]
struct Texts<'c>(Vec<At<&'c str>>);

impl<'c> Texts<'c> {
    fn add(&mut self, path: String, part: &'c str) {
        self.0.push(At { path, part });
    }

    fn list(&mut self, path: &str, lines: &'c [String]) {
        for line in each(path, lines) {
            self.add(line.path, line.part);
        }
    }

    fn step(&mut self, at: &At<&'c Step>) {
        let step = at.part;
        self.add(at.key("name"), &step.name);
        self.add(at.key("act"), &step.act);
        self.add(at.key("why"), &step.why);
        self.add(at.key("skipped"), &step.skipped);
        if let Some(warning) = &step.warning {
            self.add(at.key("warning"), warning);
        }
        if let Some(condition) = &step.when {
            self.add(at.key("when.because"), &condition.because);
        }
        if let Some(reading) = reading(at) {
            for limit in each(&reading.key("limits"), &reading.part.limits) {
                self.add(limit.key("source"), &limit.part.basis.source);
            }
            for bound in bounds(&reading) {
                self.rules_of_thumb(&bound);
            }
        }
        if let Some(sighting) = sighting(at) {
            self.add(sighting.key("source"), &sighting.part.basis.source);
            for state in each(&sighting.key("states"), &sighting.part.states) {
                self.add(state.key("seen"), &state.part.seen);
            }
        }
    }

    fn rules_of_thumb(&mut self, bound: &At<&'c Bound>) {
        if let Bound::Of { or: Some(rule), .. } | Bound::Read { or: Some(rule), .. } = bound.part {
            let or = At {
                path: bound.key("or"),
                part: &rule.bound,
            };
            self.add(or.key("source"), &rule.basis.source);
            self.rules_of_thumb(&or);
        }
    }
}

/// Every name given, each at its `id`.
pub(super) fn ids(checklist: &Checklist) -> Vec<At<&str>> {
    let mut ids = vec![At {
        path: "id".to_owned(),
        part: checklist.id.as_str(),
    }];
    for section in sections(checklist) {
        ids.push(At {
            path: section.key("id"),
            part: section.part.id.as_str(),
        });
    }
    for step in steps(checklist) {
        ids.push(At {
            path: step.key("id"),
            part: step.part.id.as_str(),
        });
        let states = sighting(&step);
        for state in states
            .iter()
            .flat_map(|at| each(&at.key("states"), &at.part.states))
        {
            ids.push(At {
                path: state.key("id"),
                part: state.part.id.as_str(),
            });
        }
    }
    for branch in each("branches", &checklist.branches) {
        ids.push(At {
            path: branch.key("id"),
            part: branch.part.id.as_str(),
        });
    }
    ids
}
