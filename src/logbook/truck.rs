//! Which truck a rig file describes.
//!
//! One truck pulls several trailers, so the id of a rig does not tell. A rig file has no number of
//! the frame; what it has from the label on the door post never changes in a truck's life: the
//! gross weight and the two axle ratings. Trucks of one make share those, and the barn's name for
//! the truck tells them apart. What a barn weighs or measures anew (payload, springs, pressures)
//! does not count, or each weighing would make another truck.
//!
//! A truck that gets another name in its file is another truck from then on: questions are then
//! missed, and none is asked that means nothing.

use crate::rig::Truck;
use crate::units::{Quantity, Unit};

/// A truck, by its name and the ratings on its label.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct TruckKey {
    name: String,
    label: [String; 3],
}

impl TruckKey {
    /// The truck a rig file describes.
    pub fn of(truck: &Truck) -> Self {
        let words: Vec<&str> = truck.name.split_whitespace().collect();
        let ratings = [&truck.gvwr, &truck.gawr_front, &truck.gawr_rear];
        Self {
            name: words.join(" ").to_lowercase(),
            label: ratings.map(|rating| in_kilograms(&rating.quantity)),
        }
    }
}

/// The exact number, so that 7150 lb is itself in whatever unit it stands.
fn in_kilograms(rating: &Quantity) -> String {
    let same = rating.in_unit(Unit::Kilogram);
    same.map_or_else(|| rating.to_string(), |rating| rating.value.written())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;

    fn key(from: &str, to: &str) -> TruckKey {
        let text = JUNIPER.replacen(from, to, 1);
        TruckKey::of(&Rig::read(&text).unwrap().truck)
    }

    #[test]
    fn a_truck_is_known_by_its_name_and_the_label_on_its_door_post() {
        let own = key("", "");
        assert_eq!(own, key("id: juniper", "id: juniper-flatbed"));
        assert_eq!(
            own,
            key("name: Larkspur half-ton", "name: larkspur  Half-ton")
        );
        assert_eq!(own, key("front: { is: 3440 lb", "front: { is: 3460 lb"));
        assert_eq!(
            own,
            key("gvwr: { is: 7150 lb", "gvwr: { is: 3243.1854455 kg")
        );
        assert_ne!(own, key("name: Larkspur half-ton", "name: Larkspur two"));
        assert_ne!(own, key("gvwr: { is: 7150 lb", "gvwr: { is: 7100 lb"));
    }
}
