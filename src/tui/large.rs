//! Large characters, to be read at arm's length: five rows of three columns, packed by two where
//! half blocks can be drawn.

/// Rows of a character, the left column in the highest of three bits.
type Shape = [u8; 5];

/// What can be drawn large: a reading's number, and the alphabet of receipts.
const SHAPES: [(char, Shape); 41] = [
    ('0', [7, 5, 5, 5, 7]),
    ('1', [2, 6, 2, 2, 7]),
    ('2', [7, 1, 7, 4, 7]),
    ('3', [7, 1, 3, 1, 7]),
    ('4', [5, 5, 7, 1, 1]),
    ('5', [7, 4, 7, 1, 7]),
    ('6', [7, 4, 7, 5, 7]),
    ('7', [7, 1, 1, 2, 2]),
    ('8', [7, 5, 7, 5, 7]),
    ('9', [7, 5, 7, 1, 7]),
    ('A', [2, 5, 7, 5, 5]),
    ('B', [6, 5, 6, 5, 6]),
    ('C', [3, 4, 4, 4, 3]),
    ('D', [6, 5, 5, 5, 6]),
    ('E', [7, 4, 6, 4, 7]),
    ('F', [7, 4, 6, 4, 4]),
    ('G', [3, 4, 5, 5, 3]),
    ('H', [5, 5, 7, 5, 5]),
    ('I', [7, 2, 2, 2, 7]),
    ('J', [1, 1, 1, 5, 2]),
    ('K', [5, 5, 6, 5, 5]),
    ('L', [4, 4, 4, 4, 7]),
    ('M', [5, 7, 7, 5, 5]),
    ('N', [6, 5, 5, 5, 5]),
    ('O', [2, 5, 5, 5, 2]),
    ('P', [6, 5, 6, 4, 4]),
    ('Q', [2, 5, 5, 7, 3]),
    ('R', [6, 5, 6, 5, 5]),
    ('S', [3, 4, 2, 1, 6]),
    ('T', [7, 2, 2, 2, 2]),
    ('U', [5, 5, 5, 5, 7]),
    ('V', [5, 5, 5, 5, 2]),
    ('W', [5, 5, 7, 7, 5]),
    ('X', [5, 5, 2, 5, 5]),
    ('Y', [5, 5, 2, 2, 2]),
    ('Z', [7, 1, 2, 4, 7]),
    ('.', [0, 0, 0, 0, 2]),
    (',', [0, 0, 0, 2, 4]),
    ('/', [1, 1, 2, 4, 4]),
    ('-', [0, 0, 7, 0, 0]),
    (' ', [0, 0, 0, 0, 0]),
];

/// The text in large characters, where every one of its characters can be drawn and the lines fit
/// `width`.
pub(super) fn large(text: &str, width: usize, ascii: bool) -> Option<Vec<String>> {
    let shapes: Option<Vec<Shape>> = text.chars().map(shape).collect();
    let shapes = shapes.filter(|shapes| !shapes.is_empty() && shapes.len() * 4 <= width)?;
    let row = |at: usize| -> Vec<bool> {
        shapes
            .iter()
            .flat_map(|shape| {
                let bits = shape.get(at).copied().unwrap_or(0);
                [bits & 4 != 0, bits & 2 != 0, bits & 1 != 0, false]
            })
            .collect()
    };
    if ascii {
        let line = |at| {
            row(at)
                .into_iter()
                .map(|on| if on { '#' } else { ' ' })
                .collect()
        };
        return Some((0..5).map(line).collect());
    }
    let line = |at: usize| -> String {
        row(at)
            .into_iter()
            .zip(row(at + 1))
            .map(half_block)
            .collect()
    };
    Some((0..5).step_by(2).map(line).collect())
}

/// A number with what is behind it left away: `65 psi` gives `65`, `18 1/4 in` gives `18 1/4`.
pub(super) fn number(typed: &str) -> &str {
    let end = typed
        .find(|letter: char| letter.is_alphabetic() || matches!(letter, '%' | '°' | '"' | '\''));
    typed
        .get(..end.unwrap_or(typed.len()))
        .unwrap_or(typed)
        .trim_end()
}

fn half_block((upper, lower): (bool, bool)) -> char {
    match (upper, lower) {
        (true, true) => '█',
        (true, false) => '▀',
        (false, true) => '▄',
        (false, false) => ' ',
    }
}

fn shape(letter: char) -> Option<Shape> {
    SHAPES
        .iter()
        .find(|(known, _)| *known == letter)
        .map(|(_, shape)| *shape)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_drawn_in_three_rows_or_five_of_plain_signs() {
        assert_eq!(
            large("14", 80, false).unwrap(),
            ["▄█  █ █ ", " █  ▀▀█ ", "▀▀▀   ▀ "]
        );
        assert_eq!(
            large("14", 80, true).unwrap(),
            [" #  # # ", "##  # # ", " #  ### ", " #    # ", "###   # "]
        );
        assert_eq!(large("14", 7, false), None);
        assert_eq!(large("12°", 80, false), None);
    }

    #[test]
    fn the_number_of_a_reading_ends_where_its_unit_begins() {
        assert_eq!(number("65 psi"), "65");
        assert_eq!(number("18 1/4 in"), "18 1/4");
        assert_eq!(number("4.5bar"), "4.5");
        assert_eq!(number("4"), "4");
    }

    #[test]
    fn no_two_characters_are_drawn_alike() {
        for (at, (one, shape)) in SHAPES.iter().enumerate() {
            for (other, same) in &SHAPES[at + 1..] {
                assert_ne!(shape, same, "{one} and {other}");
            }
        }
    }
}
