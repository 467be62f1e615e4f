//! For each rule a passage that breaks it, and the same mended.

use crate::checklist::Rule;

/// A passage of a checklist before and after it was mended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Example {
    /// As the rule finds it.
    pub before: &'static str,
    /// Mended.
    pub after: &'static str,
}

impl Rule {
    /// A passage that breaks the rule, and the same mended.
    pub fn example(self) -> Example {
        let (before, after) = match self {
            Self::File => ("place: tyres", "place: tires"),
            Self::Rig => (
                "limits:\n  - verdict: fix\n    above: { figure: level.gap }\n    # and the rig file names no frame heights",
                "limits:\n  - verdict: fix\n    above:\n      figure: level.gap\n      or: { value: 1 in, authority: default, source: common practice, no source }",
            ),
            Self::BareAnswer => (
                "{ id: ok, seen: \"OK\", verdict: ok }",
                "{ id: down, seen: \"Lever flat down\", verdict: ok }",
            ),
            Self::SameKey => (
                "# the good state stands first in every step of the section\n- { id: down, seen: \"Lever flat down\", verdict: ok }\n- { id: proud, seen: \"Lever stands up\", verdict: stop, branch: close }",
                "# in one step it stands elsewhere, and the order never changes afterwards\n- { id: proud, seen: \"Lever stands up\", verdict: stop, branch: close }\n- { id: down, seen: \"Lever flat down\", verdict: ok }",
            ),
            Self::WrongEnding => (
                "{ id: cracked, seen: \"A crack in the ball\", verdict: fix, branch: ball-cracked }\n# branch ball-cracked: ends: not-fit-to-go",
                "{ id: cracked, seen: \"A crack in the ball\", verdict: stop, branch: ball-cracked }\n# branch ball-cracked: ends: not-fit-to-go",
            ),
            Self::LongBranch => (
                "now: [six lines or more]",
                "now:\n  - Chock both sides.\n  - Call the manager.",
            ),
            Self::LateCritical => (
                "- { include: truck-fluids }\n- { include: truck-dash }\n- { include: truck-tire }   # critical",
                "- { include: truck-tire }   # critical\n- { include: truck-fluids }\n- { include: truck-dash }",
            ),
            Self::DoublingBack => (
                "# places of the steps, in order\nball, tires, coupler, lamps, chains",
                "# places of the steps, in order\nball, coupler, chains, lamps, tires",
            ),
            Self::LongSection => (
                "# ten steps in one section\n- id: wheels",
                "# cut where the work pauses: five steps each\n- id: tires\n- id: nuts",
            ),
            Self::EndlessSection => (
                "# thirteen steps in one section\n- id: hitch",
                "# cut where the work pauses\n- id: join\n- id: prove",
            ),
            Self::BareComplete => ("complete: Done.", "complete: The coupler grips the ball."),
            Self::NoPause => (
                "- id: leave\n  title: Before the road",
                "- id: leave\n  title: Before the road\n  pause: true",
            ),
            Self::TwoActs => (
                "act: Lower the coupler and close the latch.",
                "act: Lower the coupler onto the ball.\n# and a second step:\nact: Press the latch lever down by hand.",
            ),
            Self::LongAct => (
                "act: Walk all the way round to the far side of the trailer, past both axles, to where the rear lamp is, to look at it.",
                "act: Look at the far rear lamp.",
            ),
            Self::ActingWarning => (
                "warning: Stand clear of the tongue.",
                "warning: The tongue comes down hard if the coupler lets go.",
            ),
            Self::NoLimit => (
                "reading:\n  dimension: pressure\n  # and no limits",
                "limits:\n  - verdict: fix\n    below: { figure: tire.cold, share: 95 % }",
            ),
            Self::NoTarget => (
                "instrument: torque-wrench",
                "instrument: torque-wrench\ntarget: { figure: wheel.torque }",
            ),
            Self::Untold => (
                "# no step before this one reads the air\nbelow: { figure: tire.cold-today }",
                "# an earlier step:\ntells: air-temperature",
            ),
            Self::NoFallback => (
                "above: { figure: level.most-nose-low }",
                "above:\n  figure: level.most-nose-low\n  or: { figure: level.gap, authority: default, source: half a degree, common practice, no source }",
            ),
            Self::NeedlessFallback => (
                "target: { figure: tire.cold, or: { value: 65 psi, authority: default, source: from memory } }",
                "target: { figure: tire.cold }",
            ),
            Self::Arithmetic => (
                "act: Subtract the gap after lifting from the gap before.",
                "act: Measure the gap after lifting.\n# the program subtracts: above: { step: gap-before, plus: 1 in }",
            ),
            Self::Capitals => (
                "found: DO NOT MOVE THE RIG",
                "found: The rig must not move.",
            ),
            Self::LookAlike => ("id: step-10", "id: far-rear-lamp"),
            Self::Promise => (
                "complete: The rig is safe.",
                "complete: Every nut is at its torque.",
            ),
            Self::Blame => (
                "found: Somebody forgot the pin.",
                "found: The pin is not in.",
            ),
        };
        Example { before, after }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_is_short_and_its_two_sides_differ() {
        for rule in Rule::ALL {
            let Example { before, after } = rule.example();
            assert_ne!(before, after, "{}", rule.word());
            assert!(before.lines().count() <= 6 && after.lines().count() <= 6);
        }
    }
}
