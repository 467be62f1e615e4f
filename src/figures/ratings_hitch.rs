//! The ratings of the hitch, from receiver to coupler, and which of them are in force.

use crate::figures::figure::read;
use crate::figures::{Found, RatingKind};
use crate::rig::{Given, Joint, Place, Ratings, Receiver, Rig};

/// One rating of one part of the hitch.
#[derive(Clone, Debug)]
pub(super) struct HitchRating<'r> {
    pub(super) part: &'static str,
    pub(super) place: Place,
    pub(super) kind: RatingKind,
    pub(super) given: &'r Given,
    pub(super) in_force: bool,
    pub(super) basis: String,
}

impl HitchRating<'_> {
    pub(super) fn rating(&self) -> Found {
        read(self.given)
    }
}

/// Every rating of the hitch, from the truck to the trailer.
pub(super) fn ratings(rig: &Rig) -> Vec<HitchRating<'_>> {
    let hitch = &rig.hitch;
    let mut ratings = match &hitch.joint {
        Joint::BumperPull {
            receiver, drawbar, ..
        } => {
            let mut ratings = of_receiver(receiver, hitch.spring_bars.is_some());
            ratings.extend(both("drawbar", Place::Drawbar, &drawbar.ratings));
            ratings
        }
        Joint::Gooseneck { bed, .. } => both("bed hitch", Place::Receiver, bed).to_vec(),
    };
    // A ball of another size than its coupler is refused when the rig file is read.
    ratings.push(HitchRating {
        basis: format!(
            "by its own stamp, whatever it stands on; it is {}, as the coupler asks, and states no \
             downward rating",
            hitch.ball.diameter.quantity
        ),
        ..one("ball", Place::Ball, RatingKind::Total, &hitch.ball.total)
    });
    ratings.extend(both("coupler", Place::Coupler, &hitch.coupler.ratings));
    ratings
}

/// What is stamped on the receiver for carrying a tongue alone, or on the bed hitch.
pub(super) fn carrying(rig: &Rig) -> &Ratings {
    match &rig.hitch.joint {
        Joint::BumperPull { receiver, .. } => &receiver.carrying,
        Joint::Gooseneck { bed, .. } => bed,
    }
}

/// The total rating of the drawbar, where there is one.
pub(super) fn drawbar(rig: &Rig) -> Option<&Given> {
    match &rig.hitch.joint {
        Joint::BumperPull { drawbar, .. } => Some(&drawbar.ratings.total),
        Joint::Gooseneck { .. } => None,
    }
}

fn one<'r>(
    part: &'static str,
    place: Place,
    kind: RatingKind,
    given: &'r Given,
) -> HitchRating<'r> {
    HitchRating {
        part,
        place,
        kind,
        given,
        in_force: true,
        basis: "the part's own rating".to_owned(),
    }
}

fn both<'r>(part: &'static str, place: Place, ratings: &'r Ratings) -> [HitchRating<'r>; 2] {
    [
        one(part, place, RatingKind::Total, &ratings.total),
        one(part, place, RatingKind::Downward, &ratings.downward),
    ]
}

/// A receiver may be rated twice. The lower rating is for carrying the tongue alone; the higher
/// counts only with spring bars, which it must name itself.
fn of_receiver(receiver: &Receiver, bars: bool) -> Vec<HitchRating<'_>> {
    let distributing = receiver.distributing.as_ref();
    let alone = !bars || distributing.is_none();
    let carrying = match (bars, distributing) {
        (false, None) => "carries the tongue alone",
        (false, Some(_)) => {
            "in force: no spring bars are described, so it carries the tongue alone"
        }
        (true, Some(_)) => "not in force: spring bars are described",
        (true, None) => {
            "in force: its label names no rating with spring bars, so theirs raise nothing"
        }
    };
    let mut ratings: Vec<_> = both("receiver", Place::Receiver, &receiver.carrying)
        .map(|rating| HitchRating {
            in_force: alone,
            basis: carrying.to_owned(),
            ..rating
        })
        .into();
    let Some(distributing) = distributing else {
        return ratings;
    };
    let basis = if bars {
        "in force: spring bars are described"
    } else {
        "not in force: counts only with spring bars, and none are described"
    };
    let with_bars = both("receiver with spring bars", Place::Receiver, distributing);
    ratings.extend(with_bars.map(|rating| HitchRating {
        in_force: bars,
        basis: basis.to_owned(),
        ..rating
    }));
    ratings
}

#[cfg(test)]
mod tests {
    use crate::figures::{Each, Figure};
    use crate::rig::Rig;
    use crate::rig::demo::{JUNIPER, MESQUITE};

    fn told(text: &str, figure: Figure) -> Option<String> {
        let rig = Rig::read(text).unwrap();
        let items = figure.each().map(|each: Each| each.items(&rig));
        let item = items.as_ref().and_then(|items| items.first());
        let found = figure.of(&rig, item).ok()?;
        Some(found.quantity.to_string())
    }

    /// Spring bars change which rating is in force, and never what is stamped.
    #[test]
    fn each_part_of_the_hitch_tells_what_is_stamped_on_it() {
        let barred = JUNIPER.replace(
            "  # spring-bars:\n  #   couple",
            "  spring-bars:\n    couple",
        );
        assert_ne!(barred, JUNIPER);
        for text in [JUNIPER, &barred] {
            assert_eq!(
                told(text, Figure::ReceiverCarryingTotal).unwrap(),
                "8000 lb"
            );
            assert_eq!(
                told(text, Figure::ReceiverCarryingDownward).unwrap(),
                "800 lb"
            );
        }
        assert_eq!(told(JUNIPER, Figure::DrawbarTotal).unwrap(), "8000 lb");
        assert_eq!(told(JUNIPER, Figure::CouplerTotal).unwrap(), "7000 lb");
        assert_eq!(
            told(MESQUITE, Figure::ReceiverCarryingTotal).unwrap(),
            "25000 lb"
        );
        assert_eq!(
            told(MESQUITE, Figure::ReceiverCarryingDownward).unwrap(),
            "6250 lb"
        );
        assert_eq!(told(MESQUITE, Figure::DrawbarTotal), None);
    }

    #[test]
    fn a_checklist_can_ask_whether_the_ball_is_in_the_bed_and_who_stands_in_the_stalls() {
        for (text, gooseneck, horses, weight) in [
            (JUNIPER, "0", "2", "1100 lb"),
            (MESQUITE, "1", "4", "1150 lb"),
        ] {
            assert_eq!(told(text, Figure::HitchIsGooseneck).unwrap(), gooseneck);
            assert_eq!(told(text, Figure::HorseCount).unwrap(), horses);
            assert_eq!(told(text, Figure::HorseWeight).unwrap(), weight);
        }
    }
}
