//! What kind of fault a scenario is about.

macro_rules! families {
    ($( $name:ident, $word:literal, $label:literal; )*) => {
        /// A family of faults, by which a learner is told what goes well and what does not.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Family { $( #[doc = $label] $name, )* }

        impl Family {
            /// Every family with the word scenarios name it by.
            pub const WORDS: [(&'static str, Self); [$($word),*].len()] = [$( ($word, Self::$name) ),*];

            /// The word scenarios name it by.
            pub const fn word(self) -> &'static str {
                match self { $( Self::$name => $word, )* }
            }

            /// What it is, in a few words.
            pub const fn label(self) -> &'static str {
                match self { $( Self::$name => $label, )* }
            }
        }
    };
}

families! {
    Seat, "seat", "the coupler's seat and latch";
    Match, "match", "ball, coupler and their sizes";
    Mount, "mount", "receiver, drawbar and bed hitch";
    Level, "level", "how the trailer stands";
    Chains, "chains", "chains and hooks";
    Lanyard, "lanyard", "lanyard, anchor and switch";
    Battery, "battery", "breakaway battery";
    Jack, "jack", "jack and legs";
    Cord, "cord", "cord and plug";
    Lamps, "lamps", "lamps";
    Brakes, "brakes", "controller, magnets and pull test";
    Tires, "tires", "tires";
    Wheels, "wheels", "nuts and hubs";
    Weights, "weights", "weights and ratings";
    Stalls, "stalls", "floor, stalls and ties";
    Horses, "horses", "how the horses fare";
    Heat, "heat", "heat and humidity";
    Between, "between", "being called away";
    HandedOver, "handed-over", "rigs and records taken over";
}
