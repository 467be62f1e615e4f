//! The rules by name: how bad a finding is, and why it is one.

use crate::checklist::Example;

/// How bad a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// The file is not fit for use.
    Error,
    /// The file can be used, and would be better otherwise.
    Warn,
}

impl Severity {
    /// The word in front of a finding.
    pub fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warn => "warn",
        }
    }
}

/// A rule of a linter, by its name.
pub trait Ruled: Copy + Ord {
    /// The name shown beside a finding.
    fn word(self) -> &'static str;

    /// How bad a finding of it is.
    fn severity(self) -> Severity;

    /// Why it is a rule, with the reference where one is named.
    fn why(self) -> &'static str;

    /// A passage that breaks it, and the same mended.
    fn example(self) -> Example;
}

macro_rules! rules {
    ($about:literal; $( $(#[doc = $doc:literal])+ $name:ident, $word:literal, $severity:ident, $why:literal; )*) => {
        #[doc = $about]
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Rule { $( $(#[doc = $doc])+ $name, )* }

        impl Rule {
            /// Every rule.
            pub const ALL: [Self; [$($word),*].len()] = [$( Self::$name ),*];

            /// The name shown beside a finding.
            pub fn word(self) -> &'static str {
                match self { $( Self::$name => $word, )* }
            }

            /// How bad a finding of it is.
            pub fn severity(self) -> Severity {
                match self { $( Self::$name => Severity::$severity, )* }
            }

            /// Why it is a rule, with the reference where one is named.
            pub fn why(self) -> &'static str {
                match self { $( Self::$name => $why, )* }
            }
        }

        impl $crate::checklist::Ruled for Rule {
            fn word(self) -> &'static str { Self::word(self) }

            fn severity(self) -> Severity { Self::severity(self) }

            fn why(self) -> &'static str { Self::why(self) }

            fn example(self) -> $crate::checklist::Example { Self::example(self) }
        }
    };
}

pub(crate) use rules;

rules! {
    "A rule a checklist is held to.";
    /// A fault of the file itself.
    File, "file", Error,
        "A checklist is used whole or not at all.";
    /// A rig the checklist cannot be laid on.
    Rig, "rig", Error,
        "A step nobody can answer with this rig would be met on the walk.";
    /// A state that says nothing was seen, such as “OK”.
    BareAnswer, "bare-answer", Error,
        "“Checked” comes from habit; a value or condition has to be looked at. \
         Degani and Wiener, NASA CR-177549, from memory.";
    /// One key all the way completes a section.
    SameKey, "same-key", Error,
        "Repeated checking turns into pressing the same key, and eyes leave the work. \
         Dismukes and Berman, NASA/TM-2010-216396.";
    /// A fix that leads to not being fit to go.
    WrongEnding, "wrong-ending", Error,
        "Fix means put right here; a branch that ends the trip is a stop, and who reads it under \
         stress must not guess which. Burian, NASA/TM-2014-218382, from memory.";
    /// A branch of too many lines.
    LongBranch, "long-branch", Warn,
        "What to do now is read under stress, and a long list of it is not read. \
         Burian, NASA/TM-2014-218382, from memory; the number is ours.";
    /// A critical step late in its section.
    LateCritical, "late-critical", Warn,
        "Attention fades and breaks come toward the end, so what matters most stands first. \
         Degani and Wiener, NASA CR-177549, from memory.";
    /// A way round the rig that doubles back.
    DoublingBack, "doubling-back", Warn,
        "A list that follows the walk round the rig keeps its reader's place. \
         Degani and Wiener, NASA CR-177549, from memory.";
    /// A section longer than people keep in mind.
    LongSection, "long-section", Warn,
        "Good lists are cut into chunks of five to nine at natural pauses. \
         Gawande, The Checklist Manifesto, from memory; the number is ours.";
    /// A section so long that nobody reads it whole.
    EndlessSection, "endless-section", Error,
        "Good lists are cut into chunks of five to nine at natural pauses. \
         Gawande, The Checklist Manifesto, from memory; the number is ours.";
    /// A section that ends in a word such as “Done”.
    BareComplete, "bare-complete", Error,
        "The line that ends a section says what is now true, so that one who comes back knows \
         where things stand. Degani and Wiener, NASA CR-177549, from memory.";
    /// No section at which everything else stops.
    NoPause, "no-pause", Warn,
        "Work stops at a named point before the step that cannot be undone: the rig moving. \
         WHO Surgical Safety Checklist.";
    /// More than one act in one line.
    TwoActs, "two-acts", Error,
        "Of two acts in one line the second is left out. DOE-STD-1029-92, from memory.";
    /// An act of too many words.
    LongAct, "long-act", Warn,
        "A line that is not taken in at one look is not read. DOE-STD-1029-92, from memory; the \
         number is ours.";
    /// A warning that asks for an act.
    ActingWarning, "acting-warning", Error,
        "An act hidden in a warning is neither answered nor recorded. DOE-STD-1029-92, from memory.";
    /// A reading that is held to nothing.
    NoLimit, "no-limit", Warn,
        "What counts as good belongs to the step, or each reader has another. \
         DOE-STD-1029-92, from memory.";
    /// A reading with a gauge or wrench and no value aimed at.
    NoTarget, "no-target", Warn,
        "A gauge or wrench is good in part of its range only (ASME B40.100, ISO 6789-1); without \
         the value aimed at nobody can tell whether this one suits.";
    /// A figure that rests on something no earlier step reads.
    Untold, "untold", Error,
        "A figure that waits for what nobody reads is never known, and its limit never drawn.";
    /// A figure that may be missing, with nothing to stand for it.
    NoFallback, "no-fallback", Error,
        "A rig that is not described so far is walked all the same, by the trade's rule of thumb \
         under its own name.";
    /// A rule of thumb that can never stand.
    NeedlessFallback, "needless-fallback", Warn,
        "What never stands is read by every reader, and believed by some.";
    /// A reading the reader has to reckon out.
    Arithmetic, "arithmetic", Error,
        "Sums done with cold hands go wrong; the program reckons. DOE-STD-1029-92, from memory.";
    /// Words in capitals, several in a row.
    Capitals, "capitals", Warn,
        "Lower case is read faster and with fewer slips. Degani, NASA CR-177605.";
    /// A name with characters taken for others.
    LookAlike, "look-alike", Error,
        "0 and O, 1 and l are taken for each other on a screen and over the radio. \
         Degani, NASA CR-177605.";
    /// A word that promises nothing will happen.
    Promise, "promise", Error,
        "A record says which checks passed, by whom and with what. It promises nothing.";
    /// A word that blames.
    Blame, "blame", Error,
        "Who expects blame stops writing down what was found.";
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn no_two_rules_have_one_name_and_each_says_why_in_a_sentence() {
        let words: BTreeSet<&str> = Rule::ALL.into_iter().map(Rule::word).collect();
        assert_eq!(words.len(), Rule::ALL.len());
        for rule in Rule::ALL {
            assert!(rule.why().ends_with('.'), "{}", rule.word());
        }
    }
}
