//! The rules by name, and why each is one.

use crate::checklist::{Severity, rules};

rules! {
    "A rule scenarios and sights are held to.";
    /// A fault of the file itself.
    File, "drill-file", Error,
        "A file of scenarios or sights is used whole or not at all.";
    /// A place that is still to be written.
    Unwritten, "unwritten", Error,
        "A sketch says what was found. What it teaches has to be written by somebody who was there.";
    /// Something is named that is not there.
    NoSuchName, "no-such-name", Error,
        "A scenario is a passage of a real list on a rig that is described; what is not there \
         cannot be walked.";
    /// Two have one name.
    SameName, "same-name", Error,
        "A drill is asked for by its name, and what was played is kept under it.";
    /// A value of the rig that its file does not have.
    NoSuchValue, "no-such-value", Error,
        "The rig as it truly is differs from its file in what the file says, and nothing is read \
         of a value that stands nowhere.";
    /// A passage and a rig that do not go together.
    Unfit, "unfit", Error,
        "A drill is the walk of a real list, and is refused where that walk would be.";
    /// A step outside the passage.
    OffPassage, "off-passage", Error,
        "A learner who walks the passage never comes to it.";
    /// A state of a step that is measured, or a value of one that is looked at.
    OtherAsk, "other-ask", Error,
        "What is looked at has states, and what is measured has a value.";
    /// A fault that changes nothing on its passage.
    HiddenFault, "hidden-fault", Error,
        "A fault that shows nowhere cannot be caught, and whoever is told that it was missed \
         learns nothing.";
    /// A rig that is said to be well and is not.
    NotWell, "not-well", Error,
        "Whoever calls a good rig good must not be told that something was missed.";
    /// A right call the step does not come to.
    ImpossibleCall, "impossible-call", Error,
        "The right call is what the list itself comes to, for whoever looks and measures; else \
         the drill teaches another list.";
    /// A wrong call that is right.
    RightSlip, "right-slip", Error,
        "The commonest wrong call is told as such; a right one told so unteaches it.";
    /// A title or tale that names what is wrong.
    GivesAway, "gives-away", Error,
        "What is known before it begins is not looked for.";
    /// A state nothing tells from another.
    LooksAlike, "looks-alike", Error,
        "A learner who looked from everywhere, and by hand, must be able to know what is there.";
    /// A state that is not told of from some place.
    Untold, "untold-state", Error,
        "Whoever looks from there sees something in every state; silence gives the state away.";
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checklist;
    use std::collections::BTreeSet;

    #[test]
    fn no_two_rules_have_one_name_and_each_says_why_in_a_sentence() {
        let others = checklist::Rule::ALL.into_iter().map(checklist::Rule::word);
        let words: BTreeSet<&str> = Rule::ALL
            .into_iter()
            .map(Rule::word)
            .chain(others)
            .collect();
        assert_eq!(words.len(), Rule::ALL.len() + checklist::Rule::ALL.len());
        for rule in Rule::ALL {
            assert!(rule.why().ends_with('.'), "{}", rule.word());
        }
    }
}
