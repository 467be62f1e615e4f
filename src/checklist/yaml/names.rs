//! The names a checklist gives, and whether what refers to a name finds it.

use crate::checklist::yaml::limit::Subject;
use crate::document::{Node, Read, nearest};
use crate::figures::{Each, Fact};
use crate::units::Dimension;

/// Everything named or referred to so far, each with its place in the file.
#[derive(Default)]
pub(super) struct Names<'d> {
    sections: Vec<Named<'d>>,
    steps: Vec<StepNames<'d>>,
    branches: Vec<Named<'d>>,
    opened: Vec<Named<'d>>,
    put_off: Vec<PutOff<'d>>,
    facts: Vec<Fact>,
    /// Sections read to their end.
    ended: usize,
}

#[derive(Clone, Copy)]
struct Named<'d> {
    name: &'d str,
    node: Node<'d>,
}

#[derive(Default)]
struct StepNames<'d> {
    named: Option<Named<'d>>,
    repeated: Option<Each>,
    reads: Option<Dimension>,
    states: Vec<Named<'d>>,
}

/// A step of the section at `from` is put off until before the section named.
struct PutOff<'d> {
    from: usize,
    until: Named<'d>,
}

impl<'d> Names<'d> {
    pub(super) fn section(&mut self, node: Node<'d>) -> Read<&'d str> {
        let named = new_name(node, "section", &self.sections)?;
        self.sections.push(named);
        Ok(named.name)
    }

    pub(super) fn end_section(&mut self) {
        self.ended += 1;
    }

    pub(super) fn begin_step(&mut self) {
        self.steps.push(StepNames::default());
    }

    pub(super) fn step(&mut self, node: Node<'d>) -> Read<&'d str> {
        let earlier: Vec<Named<'d>> = self.steps.iter().filter_map(|step| step.named).collect();
        let named = new_name(node, "step", &earlier)?;
        if let Some(step) = self.steps.last_mut() {
            step.named = Some(named);
        }
        Ok(named.name)
    }

    /// The step begun last is repeated for parts of the rig.
    pub(super) fn repeated(&mut self, each: Each) {
        if let Some(step) = self.steps.last_mut() {
            step.repeated = Some(each);
        }
    }

    /// The step begun last reads this.
    pub(super) fn reads(&mut self, dimension: Dimension) {
        if let Some(step) = self.steps.last_mut() {
            step.reads = Some(dimension);
        }
    }

    /// The name of the step begun last.
    pub(super) fn own(&self) -> Option<&'d str> {
        self.steps.last()?.named.map(|named| named.name)
    }

    /// An earlier step whose reading a bound rests on: of what this step reads too, read once or
    /// for the same parts.
    pub(super) fn read_earlier(&self, node: Node<'d>, subject: Subject<'_>) -> Read<String> {
        let step = node.id()?;
        let begun = self.steps.len().saturating_sub(1);
        let earlier = self.steps.iter().take(begun);
        let is_meant = |known: &&StepNames<'d>| known.named.is_some_and(|own| own.name == step);
        let Some(found) = earlier.clone().find(is_meant) else {
            let names = earlier.filter_map(|step| step.named);
            return Err(node.fault(
                format!("no step before this one is named `{step}`"),
                meant(step, names, "name an earlier step"),
            ));
        };
        let wanted = subject.dimension?;
        if found.reads != Some(wanted) {
            let fix = format!("name a step that reads a {}", wanted.word());
            return Err(node.fault(format!("`{step}` does not read a {}", wanted.word()), fix));
        }
        if found.repeated.is_some() && subject.each? != found.repeated {
            return Err(node.fault(
                format!("`{step}` is read once for each part, perhaps differently"),
                "name a step that is read once, or repeat this one for the same parts",
            ));
        }
        Ok(step.to_owned())
    }

    /// A state of the step begun last.
    pub(super) fn state(&mut self, node: Node<'d>) -> Read<&'d str> {
        let Some(step) = self.steps.last_mut() else {
            return node.id();
        };
        let named = new_name(node, "state", &step.states)?;
        step.states.push(named);
        Ok(named.name)
    }

    /// A fact the step begun last tells.
    pub(super) fn told(&mut self, node: Node<'d>, fact: Fact) -> Read<()> {
        if self.facts.contains(&fact) {
            return Err(node.fault(
                format!("an earlier step tells {} too", fact.word()),
                "tell it once, before the first step that needs it",
            ));
        }
        self.facts.push(fact);
        Ok(())
    }

    pub(super) fn branch(&mut self, node: Node<'d>) -> Read<&'d str> {
        let named = new_name(node, "branch", &self.branches)?;
        self.branches.push(named);
        Ok(named.name)
    }

    /// A branch referred to, sought once all are read.
    pub(super) fn opened(&mut self, node: Node<'d>) -> Read<&'d str> {
        let name = node.id()?;
        self.opened.push(Named { name, node });
        Ok(name)
    }

    /// A section referred to by a step that can be put off, sought once all are read.
    pub(super) fn put_off(&mut self, node: Node<'d>) -> Read<&'d str> {
        let name = node.id()?;
        self.put_off.push(PutOff {
            from: self.ended,
            until: Named { name, node },
        });
        Ok(name)
    }

    /// A state of an earlier step, which a condition of the step begun last rests on.
    pub(super) fn answered(
        &self,
        step_node: Node<'d>,
        state_node: Node<'d>,
    ) -> Read<(&'d str, &'d str)> {
        let (step, state) = (step_node.id(), state_node.id());
        let (step, state) = (step?, state?);
        let begun = self.steps.len().saturating_sub(1);
        let earlier = self.steps.iter().take(begun);
        let is_meant = |known: &StepNames<'d>| known.named.is_some_and(|known| known.name == step);
        let Some(found) = earlier.clone().find(|known| is_meant(known)) else {
            let names = earlier.filter_map(|step| step.named);
            return Err(step_node.fault(
                format!("no step before this one is named `{step}`"),
                meant(step, names, "name an earlier step"),
            ));
        };
        if found.repeated.is_some() {
            return Err(step_node.fault(
                format!("`{step}` is answered once for each part, perhaps differently"),
                "name a step that is answered once",
            ));
        }
        if found.states.iter().any(|known| known.name == state) {
            return Ok((step, state));
        }
        let fix = "name one of its states; a reading has none";
        Err(state_node.fault(
            format!("`{step}` has no state `{state}`"),
            meant(state, found.states.iter().copied(), fix),
        ))
    }

    /// Tells every name that is referred to in vain, and every branch nothing leads to.
    pub(super) fn settle(&self) {
        for opened in &self.opened {
            if !self.branches.iter().any(|known| known.name == opened.name) {
                let branches = self.branches.iter().copied();
                opened.node.fault(
                    format!("there is no branch `{}`", opened.name),
                    meant(opened.name, branches, "add it to `branches`"),
                );
            }
        }
        for branch in &self.branches {
            if !self.opened.iter().any(|opened| opened.name == branch.name) {
                branch.node.fault(
                    format!("nothing leads to the branch `{}`", branch.name),
                    "name it at a limit or state, or take it away",
                );
            }
        }
        for PutOff { from, until } in &self.put_off {
            let later = self.sections.iter().skip(from + 1);
            if !later.clone().any(|known| known.name == until.name) {
                until.node.fault(
                    format!("no section after this one is named `{}`", until.name),
                    meant(until.name, later.copied(), "name a later section"),
                );
            }
        }
    }
}

/// A name none of the `earlier` ones has.
fn new_name<'d>(node: Node<'d>, of: &str, earlier: &[Named<'d>]) -> Read<Named<'d>> {
    let name = node.id()?;
    if earlier.iter().any(|known| known.name == name) {
        return Err(node.fault(
            format!("an earlier {of} is named `{name}` too"),
            "give one of them another name",
        ));
    }
    Ok(Named { name, node })
}

/// The name most likely meant, or else what to do.
fn meant<'d>(name: &str, known: impl Iterator<Item = Named<'d>>, or_else: &str) -> String {
    match nearest(name, known.map(|known| known.name)) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => or_else.to_owned(),
    }
}
