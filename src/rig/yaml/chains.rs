//! The safety chains in the rig file: a left and a right one, which hook on opposite sides.

use crate::document::{Node, Read};
use crate::rig::yaml::part::Part;
use crate::rig::{Chain, Grade, Joint, Position};
use crate::units::Dimension::{Force, Length};

const KEYS: &[&str] = &[
    "grade",
    "size",
    "breaking",
    "hook-breaking",
    "link-breaking",
    "length",
    "truck-eye",
    "trailer-eye",
];

/// The two chains. Left and right are the sides they are fixed to on the trailer.
pub(super) fn pair(part: Part<'_>, joint: Option<&Joint>) -> Read<[Chain; 2]> {
    let left_part = part.part("left", KEYS);
    let right_part = part.part("right", KEYS);
    let left = left_part.and_then(chain);
    let right = right_part.and_then(chain);
    if let (Ok(left_part), Ok(right_part), Ok(left), Ok(right)) =
        (left_part, right_part, &left, &right)
    {
        hook_on_opposite_sides(right_part, left, right);
        match joint {
            Some(Joint::BumperPull { .. }) => {
                cross(left_part, left);
                cross(right_part, right);
            }
            Some(Joint::Gooseneck { .. }) | None => {}
        }
    }
    Ok([left?, right?])
}

fn chain(part: Part<'_>) -> Read<Chain> {
    let grade = part.optional("grade").map(grade).transpose();
    let size = part.positive("size", Length);
    let breaking = part.positive_if_any("breaking", Force);
    let hook_breaking = part.positive("hook-breaking", Force);
    let link_breaking = part.positive_if_any("link-breaking", Force);
    let length = part.positive("length", Length);
    let truck_eye = part.position("truck-eye");
    let trailer_eye = part.position("trailer-eye");
    Ok(Chain {
        grade: grade?,
        size: size?,
        breaking: breaking?,
        hook_breaking: hook_breaking?,
        link_breaking: link_breaking?,
        length: length?,
        truck_eye: truck_eye?,
        trailer_eye: trailer_eye?,
    })
}

fn grade(node: Node<'_>) -> Read<Grade> {
    let mark = node.whole()?;
    Grade::from_mark(mark).ok_or_else(|| {
        let marks: Vec<String> = Grade::WORDS
            .iter()
            .map(|(word, _)| (*word).to_owned())
            .collect();
        node.fault(
            format!("{mark} is not a grade mark of chain"),
            format!(
                "write the mark on the links ({}), or take the line out when there is none",
                marks.join(", ")
            ),
        )
    })
}

/// On which side of the middle a point lies.
#[derive(Clone, Copy, PartialEq)]
enum Hand {
    Left,
    Middle,
    Right,
}

impl Hand {
    fn of(eye: &Position) -> Self {
        let right = &eye.right.quantity.value;
        if right.is_zero() {
            Self::Middle
        } else if right.is_negative() {
            Self::Left
        } else {
            Self::Right
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Left => "left of the middle",
            Self::Middle => "in the middle",
            Self::Right => "right of the middle",
        }
    }
}

fn hook_on_opposite_sides(right_part: Part<'_>, left: &Chain, right: &Chain) {
    let fix = "measure from the middle: right is positive, left negative";
    let fixed = (Hand::of(&left.trailer_eye), Hand::of(&right.trailer_eye));
    if fixed == (Hand::Right, Hand::Left) {
        right_part.tell(
            "trailer-eye",
            "the chain called right is fixed on the left of the trailer, and the left one on the right",
            "swap the two names, or measure again: right is positive, left negative",
        );
    } else if fixed.0 == fixed.1 {
        let what = format!("both chains are fixed to the trailer {}", fixed.1.words());
        right_part.tell("trailer-eye", what, fix);
    }
    let hooked = (Hand::of(&left.truck_eye), Hand::of(&right.truck_eye));
    if hooked.0 == hooked.1 {
        let what = format!(
            "both chains hook to the truck {}: one eye torn out would free both",
            hooked.1.words()
        );
        right_part.tell("truck-eye", what, fix);
    }
}

/// Behind a bumper the chains cross, so that a tongue that drops is caught between them: WAC
/// 204-70-070.
fn cross(part: Part<'_>, chain: &Chain) {
    let side = Hand::of(&chain.truck_eye);
    if side != Hand::Middle && side == Hand::of(&chain.trailer_eye) {
        part.tell(
            "truck-eye",
            format!(
                "this chain is fixed and hooked {}, so it does not cross under the coupler and \
                 cannot catch it",
                side.words()
            ),
            "hook it to the eye on the other side of the truck",
        );
    }
}
