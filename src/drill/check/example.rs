//! For each rule a passage that breaks it, and the same mended.

use crate::checklist::Example;
use crate::drill::check::Rule;

impl Rule {
    /// A passage that breaks the rule, and the same mended.
    pub fn example(self) -> Example {
        let (before, after) = match self {
            Self::File => ("family: tyres", "family: tires"),
            Self::Unwritten => (
                "tale: ____ what the learner is told before it begins",
                "tale: The drawbar was moved over from the other truck last night.",
            ),
            Self::NoSuchName => (
                "seen: [{ step: receiver-pin, state: noclip }]",
                "seen: [{ step: receiver-pin, state: no-clip }]",
            ),
            Self::SameName => (
                "- id: receiver-pin\n- id: receiver-pin",
                "- id: receiver-pin\n- id: receiver-pin-again",
            ),
            Self::NoSuchValue => (
                "rig: [{ at: hitch.receiver.height, is: 25 in }]",
                "rig: [{ at: hitch.joint.bumper-pull.receiver.height, is: 25 in }]",
            ),
            Self::Unfit => (
                "list: hitch-bumper\nrig: mesquite   # a gooseneck",
                "list: hitch-bumper\nrig: juniper",
            ),
            Self::OffPassage => (
                "sections: [match]\ncall: { step: latch, verdict: stop }",
                "sections: [match, join]\ncall: { step: latch, verdict: stop }",
            ),
            Self::OtherAsk => (
                "seen: [{ step: ball-size, state: small }]",
                "read: [{ step: ball-size, is: 2 in }]",
            ),
            Self::HiddenFault => (
                "seen: [{ step: receiver-pin, state: held }]   # as it is when all is well",
                "seen: [{ step: receiver-pin, state: no-clip }]",
            ),
            Self::NotWell => (
                "always:\n  seen: [{ step: receiver-pin, state: no-clip }]",
                "faults:\n  - id: no-clip\n    seen: [{ step: receiver-pin, state: no-clip }]",
            ),
            Self::ImpossibleCall => (
                "# the list makes a pin without its clip a stop\ncall: { step: receiver-pin, verdict: fix }",
                "call: { step: receiver-pin, verdict: stop }",
            ),
            Self::RightSlip => (
                "seen: [{ step: receiver-pin, state: no-clip }]\nslip: { step: receiver-pin, state: no-clip }",
                "seen: [{ step: receiver-pin, state: no-clip }]\nslip: { step: receiver-pin, state: held }",
            ),
            Self::GivesAway => (
                "title: The pin that has no clip",
                "title: The pin that held last week",
            ),
            Self::LooksAlike => (
                "looks:\n  - from: left\n    sees:\n      - { in: [held, no-clip], is: The bent end of a pin lies against the tube }",
                "looks:\n  - from: left\n    sees:\n      - { in: [held, no-clip], is: The bent end of a pin lies against the tube }\n  - from: right\n    sees:\n      - { in: [held], is: A clip goes through the end of the pin }\n      - { in: [no-clip], is: The end of the pin is bare }",
            ),
            Self::Untold => (
                "sees:\n  - { in: [held], is: A clip goes through the end of the pin }",
                "sees:\n  - { in: [held], is: A clip goes through the end of the pin }\n  - { in: [no-clip, wrong-pin], is: The end stands out of the tube and nothing goes through it }",
            ),
        };
        Example { before, after }
    }
}
