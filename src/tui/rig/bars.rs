//! Axle loads as bars against their ratings: a line of text each, or a picture.
//!
//! A bar is as long as the load, and a stroke stands where the rating is, at four fifths of the
//! room. What lies beyond is said in words and by a sign, so that no colour is needed.

use crate::figures::AxleLoad;
use crate::units::Quantity;

/// Columns of a bar: fewer tell nothing, more tell no more.
const LEAST: usize = 10;
const MOST: usize = 30;

/// Columns kept for the numbers, so that no bar moves when an axle comes to carry too much.
const NUMBERS: usize = 32;

/// The room of a bar, as a share of the rating.
const ROOM_PERCENT: usize = 125;

/// What stands behind the numbers of an axle that carries too much.
const OVER: &str = "(!) OVER";

/// The characters of a bar.
struct Signs {
    load: char,
    free: char,
    rating: char,
}

const UNICODE: Signs = Signs {
    load: '█',
    free: '·',
    rating: '│',
};

const ASCII: Signs = Signs {
    load: '#',
    free: '.',
    rating: '|',
};

/// A line for each axle, none wider than so many columns.
pub(crate) fn lines(loads: &[AxleLoad], width: usize, ascii: bool) -> Vec<String> {
    let before = loads.iter().map(|_| None);
    lines_since(loads, &before.collect::<Vec<_>>(), width, ascii)
}

/// The same, with what each axle carried before, where that was another load.
pub(crate) fn lines_since(
    loads: &[AxleLoad],
    before: &[Option<Quantity>],
    width: usize,
    ascii: bool,
) -> Vec<String> {
    let longest = |texts: &mut dyn Iterator<Item = &str>| {
        texts.map(|text| text.chars().count()).max().unwrap_or(0)
    };
    let names = longest(&mut loads.iter().map(|load| load.name.as_str()));
    let numbers: Vec<String> = loads
        .iter()
        .enumerate()
        .map(|(at, load)| numbers(load, before.get(at).and_then(Option::as_ref)))
        .collect();
    let words = longest(&mut numbers.iter().map(String::as_str));
    let room = width
        .saturating_sub(names + words.max(NUMBERS) + 5)
        .min(MOST);
    let signs = if ascii { &ASCII } else { &UNICODE };
    let lines = loads.iter().zip(&numbers).map(|(load, numbers)| {
        if room < LEAST {
            return format!("{:<names$}  {numbers}", load.name);
        }
        let bar = bar(load, room, signs);
        format!("{:<names$}  {bar}  {numbers}", load.name)
    });
    lines.collect()
}

/// What an axle carries, of how much, in numbers and words.
pub(crate) fn numbers(load: &AxleLoad, before: Option<&Quantity>) -> String {
    let rating = &load.rating.quantity;
    let own = |quantity: &Quantity| {
        let same = quantity.in_unit(rating.unit);
        same.map_or_else(|| quantity.to_string(), |same| same.value.rounded(0))
    };
    let (Some(known), Some(percent)) = (load.known(), load.percent()) else {
        return format!("not known, of {rating}");
    };
    let now = own(known);
    let before = before.map(own).filter(|before| *before != now);
    let before = before.map_or_else(String::new, |before| format!("{before} -> "));
    let over = if load.is_over() { OVER } else { "" };
    let text = format!("{before}{now} of {rating}  {percent:>3} %  {over}");
    text.trim_end().to_owned()
}

fn bar(load: &AxleLoad, room: usize, signs: &Signs) -> String {
    let columns = |percent: usize| (percent * room).div_ceil(ROOM_PERCENT).min(room);
    let filled = load.percent().map_or(0, |percent| columns(percent.into()));
    let mark = columns(100);
    let sign = |column: usize| match column {
        _ if column == mark => signs.rating,
        _ if column < filled.min(mark) => signs.load,
        // Beyond the stroke the bar goes on one column later, and only if the axle is over.
        _ if load.is_over() && column <= filled.max(mark + 1) => signs.load,
        _ => signs.free,
    };
    (0..=room).map(sign).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::{Figure, Found, NotKnown};
    use crate::rig::{Evidence, Given, Source};
    use crate::units::Unit;

    fn axle(name: &str, pounds: Option<i64>) -> AxleLoad {
        let load = pounds.map(|pounds| Found {
            quantity: Quantity::whole(pounds, Unit::Pound),
            from: String::new(),
            by_maker: false,
            working: None,
        });
        AxleLoad {
            name: name.to_owned(),
            load: load.ok_or(NotKnown::NotOnThisRig(Figure::TrailerGross)),
            rating: Given {
                quantity: Quantity::whole(3500, Unit::Pound),
                source: Source {
                    by: Evidence::Plate,
                    at: String::new(),
                },
            },
        }
    }

    #[test]
    fn a_bar_reaches_the_stroke_at_the_rating_and_beyond_it_says_over() {
        let loads = [
            axle("front", Some(1750)),
            axle("middle", Some(3500)),
            axle("rear", Some(3510)),
            axle("spare", None),
        ];
        assert_eq!(
            lines(&loads, 70, true),
            [
                "front   ###########...........|.....  1750 of 3500 lb   50 %",
                "middle  ######################|.....  3500 of 3500 lb  100 %",
                "rear    ######################|#....  3510 of 3500 lb  101 %  (!) OVER",
                "spare   ......................|.....  not known, of 3500 lb",
            ]
        );
    }

    #[test]
    fn where_there_is_no_room_for_a_bar_the_numbers_stay() {
        let lines = lines(&[axle("rear", Some(3510))], 30, false);
        assert_eq!(lines, ["rear  3510 of 3500 lb  101 %  (!) OVER"]);
    }

    #[test]
    fn what_an_axle_carried_before_stands_before_what_it_carries_now() {
        let before = Quantity::whole(3480, Unit::Pound);
        let now = axle("rear", Some(3510));
        let told = numbers(&now, Some(&before));
        assert_eq!(told, "3480 -> 3510 of 3500 lb  101 %  (!) OVER");
        let same = Quantity::whole(3510, Unit::Pound);
        assert_eq!(numbers(&now, Some(&same)), numbers(&now, None));
    }
}
