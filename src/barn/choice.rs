//! The policies a barn may choose in, and every choice of each: one table, the default first.

use crate::document::nearest;

macro_rules! policies {
    ($( $policy:ident $policy_word:literal {
        $default:ident $default_word:literal $default_means:literal,
        $other:ident $other_word:literal $other_means:literal,
    } )*) => {
        /// A matter in which honest sources disagree, and a barn may choose.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Policy { $( #[doc = $policy_word] $policy, )* }

        /// One choice in one policy. It knows its policy, so it can be no choice of another.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Choice { $( #[doc = $default_means] $default, #[doc = $other_means] $other, )* }

        impl Policy {
            /// Every policy with its word.
            pub const WORDS: [(&'static str, Self); [$($policy_word),*].len()] =
                [$( ($policy_word, Self::$policy) ),*];

            /// The word used in checklists and settings.
            pub fn word(self) -> &'static str {
                match self { $( Self::$policy => $policy_word, )* }
            }

            /// Its choices with their words, the default first.
            pub fn choices(self) -> [(&'static str, Choice); 2] {
                match self {
                    $( Self::$policy => [
                        ($default_word, Choice::$default),
                        ($other_word, Choice::$other),
                    ], )*
                }
            }

            /// What holds where the barn says nothing.
            pub fn default_choice(self) -> Choice {
                match self { $( Self::$policy => Choice::$default, )* }
            }
        }

        impl Choice {
            /// The policy it is a choice in.
            pub fn policy(self) -> Policy {
                match self { $( Self::$default | Self::$other => Policy::$policy, )* }
            }

            /// The word used in checklists and settings.
            pub fn word(self) -> &'static str {
                match self { $( Self::$default => $default_word, Self::$other => $other_word, )* }
            }

            /// What it means for the rig, as a sentence without its stop.
            pub fn means(self) -> &'static str {
                match self { $( Self::$default => $default_means, Self::$other => $other_means, )* }
            }
        }
    };
}

policies! {
    Lanyard "lanyard" {
        BeforeChains "before-chains" "The breakaway lanyard pulls before the chains come tight",
        AfterChains "after-chains" "The breakaway lanyard pulls once the chains have come tight",
    }
    Chains "chains" {
        Each "each" "Each safety chain alone holds the trailer",
        Together "together" "The two safety chains together hold the trailer",
    }
    Tie "tie" {
        BarFirst "bar-first" "Bar and door are closed behind a horse before it is tied",
        TieFirst "tie-first" "A horse is tied before the bar is closed behind it",
    }
    TirePressure "tire-pressure" {
        Placard "placard" "Trailer tires carry the placard's cold pressure for any load",
        LoadTable "load-table" "Trailer tires carry the pressure of the tire maker's load table",
    }
    Anchor "anchor" {
        Independent "independent" "The lanyard hangs on a point apart from hitch, ball and chains",
        TowbarPoint "towbar-point" "The lanyard may hang on the point the towbar's maker names for it",
    }
    GooseneckChains "gooseneck-chains" {
        Required "required" "A gooseneck is chained wherever it goes",
        ByLaw "by-law" "A gooseneck is chained where the law asks for it",
    }
    Level "level" {
        Computed "computed" "How far off level is reckoned from this rig's axles, springs and load",
        HalfDegree "half-degree" "The trailer stands level within half a degree",
    }
    RoadSide "road-side" {
        Right "right" "Traffic keeps right; the crown of the road is on the rig's left",
        Left "left" "Traffic keeps left; the crown of the road is on the rig's right",
    }
}

impl Choice {
    /// The choice that a policy's word and a choice's word name together.
    ///
    /// # Errors
    /// [`NoChoice`] where they name none.
    pub fn from_words(policy: &str, choice: &str) -> Result<Self, NoChoice> {
        let known = Policy::WORDS.into_iter().find(|(word, _)| *word == policy);
        let (_, policy) = known.ok_or_else(|| NoChoice::Policy(policy.to_owned()))?;
        let mut choices = policy.choices().into_iter();
        let known = choices.find(|(word, _)| *word == choice);
        known
            .map(|(_, choice)| choice)
            .ok_or_else(|| NoChoice::Choice(policy, choice.to_owned()))
    }

    /// The other choice of the same policy.
    #[must_use]
    pub fn other(self) -> Self {
        let [(_, first), (_, second)] = self.policy().choices();
        if self == first { second } else { first }
    }

    /// Whether it holds where the barn says nothing.
    pub fn is_default(self) -> bool {
        self == self.policy().default_choice()
    }

    /// What the barn has to write beside a choice that asks for less than the default, if this is
    /// one: whose word allows it.
    pub fn wants_grounds(self) -> Option<&'static str> {
        match self {
            Self::TowbarPoint => {
                Some("the country, and where the towbar's manual names the point for a lanyard")
            }
            Self::ByLaw => Some("the code that says where a gooseneck needs no chains"),
            _ => None,
        }
    }
}

/// Why two words name no choice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoChoice {
    /// There is no such policy.
    Policy(String),
    /// The policy has no such choice.
    Choice(Policy, String),
}

impl NoChoice {
    /// What is wrong.
    pub fn what(&self) -> String {
        match self {
            Self::Policy(word) => format!("there is no policy `{word}`"),
            Self::Choice(policy, word) => format!("`{}` has no choice `{word}`", policy.word()),
        }
    }

    /// How to mend it.
    pub fn fix(&self) -> String {
        let (word, known): (&str, Vec<&str>) = match self {
            Self::Policy(word) => (word, Policy::WORDS.map(|(word, _)| word).to_vec()),
            Self::Choice(policy, word) => (word, policy.choices().map(|(word, _)| word).to_vec()),
        };
        match nearest(word, known.iter().copied()) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None => format!("write one of {}", known.join(", ")),
        }
    }
}

/// The side of the road that traffic keeps to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RoadSide {
    /// As in most of the world.
    Right,
    /// As in the United Kingdom, Ireland and Australia.
    Left,
}

impl RoadSide {
    /// The word used in settings and sentences.
    pub fn word(self) -> &'static str {
        match self {
            Self::Right => Choice::Right.word(),
            Self::Left => Choice::Left.word(),
        }
    }

    /// The side of the rig that is nearer the middle of the road.
    #[must_use]
    pub fn crown(self) -> Self {
        match self {
            Self::Right => Self::Left,
            Self::Left => Self::Right,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_choice_is_found_by_its_own_policys_word_alone() {
        for (policy, known) in Policy::WORDS {
            for (word, choice) in known.choices() {
                assert_eq!(Choice::from_words(policy, word), Ok(choice));
                assert_eq!((choice.policy(), choice.word()), (known, word));
                assert_eq!(choice.other().other(), choice);
            }
        }
        for (policy, choice, told) in [
            (
                "tie",
                "before-chains",
                "`tie` has no choice `before-chains`; write one of bar-first, tie-first",
            ),
            (
                "tie",
                "tiefirst",
                "`tie` has no choice `tiefirst`; did you mean `tie-first`?",
            ),
            (
                "ties",
                "bar-first",
                "there is no policy `ties`; did you mean `tie`?",
            ),
        ] {
            let not = Choice::from_words(policy, choice).unwrap_err();
            assert_eq!(format!("{}; {}", not.what(), not.fix()), told);
        }
    }

    #[test]
    fn the_default_stands_first_and_never_wants_grounds() {
        for (_, policy) in Policy::WORDS {
            let [(_, first), (_, second)] = policy.choices();
            assert!(first.is_default() && !second.is_default());
            assert_eq!(first.wants_grounds(), None);
        }
    }

    #[test]
    fn the_crown_is_on_the_side_traffic_does_not_keep_to() {
        assert_eq!(RoadSide::Right.crown(), RoadSide::Left);
        assert_eq!(RoadSide::Left.crown().word(), "right");
    }
}
