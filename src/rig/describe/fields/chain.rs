//! The two safety chains. The right one is nearly always like the left.

use crate::rig::describe::ask::Ask::{self, Given, Point};
use crate::rig::describe::ask::Like;
use crate::rig::describe::field::{Field, Section, When};
use crate::rig::describe::fields::section;
use crate::units::Dimension::{Force, Length};

const STRENGTH: &str = "what the chains hold against the heaviest trailer allowed";
const REACH: &str = "slack in a full turn, sag above the road, and the cradle under the coupler";

static LEFT: Like = Like {
    from: "hitch.chains.left",
    except: &["truck-eye", "trailer-eye"],
};

pub(super) const SECTIONS: &[Section] = &[
    Section {
        when: &[When::Later],
        ..section("hitch.chains.*", "The right chain", BUILT)
    },
    section("hitch.chains.*", "A safety chain", CHAIN),
];

const CHAIN: &[Field] = &[
    Field::may("grade", Ask::Whole, "Which grade is marked on its links?")
        .look(
            "Small figures struck into every so many links: 3, 30, 4, 43, 7, 70, 8, 80, 10 or 100.",
            "43",
        )
        .used(STRENGTH)
        .without("A chain without a mark is taken as the weakest grade, by 49 CFR 393.108."),
    Field::must("size", Given(Length), "How thick is the bar its links are made of?")
        .look("The size beside the grade, or a caliper across one side of a link.", "1/4 in")
        .used(STRENGTH),
    Field::may("breaking", Given(Force), "Does a tag or mark state its breaking strength?")
        .look("A tag on the last link, or the maker's sheet.", "26400 lb")
        .used(STRENGTH)
        .without("It is taken from the table by grade and size."),
    Field::must("hook-breaking", Given(Force), "What is the breaking strength of its hook?")
        .look("Stamped on the back of the hook.", "7800 lb")
        .used(STRENGTH),
    Field::may("link-breaking", Given(Force), "Does a link join it to the trailer, and at which strength does it break?")
        .look(
            "Stamped on the joining link. A chain welded or bolted on has none. A link without a \
             mark has no strength to rely on.",
            "11700 lb",
        )
        .used(STRENGTH)
        .without("The chain counts as fixed without a joining link."),
    Field::must("length", Given(Length), "How long is it?")
        .look(
            "Pulled straight on the ground: from the eye on the trailer to the bearing of the hook.",
            "30 in",
        )
        .used(REACH),
    Field::must("truck-eye", Point, "Where does it hook to the truck?")
        .look(
            "The middle of the eye, from the middle of the ball, coupled on level ground. Crossed \
             chains hook on the other side.",
            "-6 in, 8 in, 14 in",
        )
        .used(REACH),
    Field::must("trailer-eye", Point, "Where is it fixed to the trailer?")
        .look("The middle of the eye on the tongue or neck.", "14 in, -5 in, 16 in")
        .used(REACH),
];

const BUILT: &[Field] = &[Field::may(
    "",
    Ask::Like(&LEFT),
    "Is the right chain of the same kind and length as the left?",
)
.look("Compare marks, hooks and length.", "1")
.used("everything about the chain but where it hooks")
.without("Then each of its values is asked.")];
