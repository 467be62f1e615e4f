//! Where names stand above and below a drawing, so that none covers another or its leader.

use crate::tui::rig::scene::{Mark, Note, Point, Scene};

/// A name to be placed; all measures are in columns.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Label {
    pub(crate) text: String,
    /// Whether it names the marked part.
    pub(crate) marked: bool,
    /// Whether it may stand on the other side where there is no room on its own.
    pub(crate) turns: bool,
    /// The point on the drawing it leads to.
    pub(crate) at: Point,
    /// Whether it stands above the drawing.
    pub(crate) above: bool,
}

/// A name in its place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Placed {
    pub(crate) label: Label,
    /// Row, counted away from the drawing.
    pub(crate) row: usize,
    /// First column.
    pub(crate) start: f64,
    /// Column of its leader.
    pub(crate) leader: f64,
}

/// The room for names on one side of a drawing.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Room {
    pub(crate) width: f64,
    pub(crate) rows_above: usize,
    pub(crate) rows_below: usize,
}

/// Free columns between two names.
const GAP: f64 = 2.0;

/// What lies nearer than this share to an edge is named from that edge or not at all.
const TURNS: f64 = 0.25;

/// What lies higher than this share of a drawing is named above it.
const UPPER: f64 = 0.42;

/// The names of a scene: the marked part first, then what belongs to it, then the rest.
pub(crate) fn labels(scene: &Scene, mark: Option<&Mark>) -> Vec<Label> {
    let (low, high) = (scene.window.low.y, scene.window.high.y);
    let middle = low + UPPER * (high - low);
    let inner = low + TURNS * (high - low)..high - TURNS * (high - low);
    let label = |text: String, marked: bool, at: Point| Label {
        text,
        marked,
        turns: inner.contains(&at.y),
        above: at.y >= middle,
        at,
    };
    let centre = Point {
        x: f64::midpoint(scene.window.low.x, scene.window.high.x),
        y: middle,
    };
    let marked = mark.map(|mark| {
        let at = scene.anchor(mark).unwrap_or(centre);
        label(mark.label(), true, at)
    });
    let own = |text: &str, place| {
        mark.is_some_and(|mark| Some(mark.place) == place && text.contains(mark.place.word()))
    };
    let (close, others): (Vec<&Note>, Vec<&Note>) = scene
        .notes
        .iter()
        .filter(|note| scene.window.holds(note.at) && !own(&note.text, note.place))
        .partition(|note| mark.is_some_and(|mark| note.place == Some(mark.place)));
    let named = close.into_iter().chain(others);
    let named = named.map(|note| label(note.text.clone(), false, note.at));
    marked.into_iter().chain(named).collect()
}

/// Places as many of `labels` as there is room for, in their order. `column` tells where on the
/// drawing a point lies, `length` how wide a name is.
pub(crate) fn place(
    labels: Vec<Label>,
    room: Room,
    column: impl Fn(Point) -> f64,
    length: impl Fn(&Label) -> f64,
) -> Vec<Placed> {
    let mut placed: Vec<(Placed, f64)> = Vec::new();
    for label in labels {
        let leader = column(label.at);
        let wide = length(&label).min(room.width);
        let most = room.width - wide;
        let starts = [0.5, 0.9, 0.1].map(|share| (leader - wide * share).max(0.0).min(most));
        let rows = |above| {
            if above {
                room.rows_above
            } else {
                room.rows_below
            }
        };
        let far = Some(!label.above).filter(|_| label.turns);
        let free = [Some(label.above), far]
            .into_iter()
            .flatten()
            .flat_map(|above| (0..rows(above)).map(move |row| (above, row)))
            .flat_map(|(above, row)| starts.map(|start| (above, row, start)))
            .find(|(above, row, start)| {
                let mine = Span {
                    above: *above,
                    row: *row,
                    start: *start,
                    end: start + wide,
                    leader,
                };
                placed
                    .iter()
                    .all(|(other, end)| mine.clears(&Span::of(other, *end)))
            });
        if let Some((above, row, start)) = free {
            let label = Label { above, ..label };
            let label = Placed {
                label,
                row,
                start,
                leader,
            };
            placed.push((label, start + wide));
        }
    }
    placed.into_iter().map(|(placed, _)| placed).collect()
}

/// What a name and its leader take up.
struct Span {
    above: bool,
    row: usize,
    start: f64,
    end: f64,
    leader: f64,
}

impl Span {
    fn of(placed: &Placed, end: f64) -> Self {
        Self {
            above: placed.label.above,
            row: placed.row,
            start: placed.start,
            end,
            leader: placed.leader,
        }
    }

    /// Whether both can stand: no text on text, no leader through the text nearer the drawing.
    fn clears(&self, other: &Self) -> bool {
        if self.above != other.above {
            return true;
        }
        let over = |text: &Self, leader: f64| (text.start - 1.0..text.end + 1.0).contains(&leader);
        match self.row.cmp(&other.row) {
            std::cmp::Ordering::Equal => {
                self.end + GAP <= other.start || other.end + GAP <= self.start
            }
            std::cmp::Ordering::Less => !over(self, other.leader),
            std::cmp::Ordering::Greater => !over(other, self.leader),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn label(text: &str, x: f64) -> Label {
        Label {
            text: text.to_owned(),
            marked: false,
            turns: false,
            at: Point { x, y: 0.0 },
            above: true,
        }
    }

    fn placed(labels: &[(&str, f64)], width: f64, rows: usize) -> Vec<(String, usize, f64)> {
        let room = Room {
            width,
            rows_above: rows,
            rows_below: 0,
        };
        let labels = labels.iter().map(|(text, x)| label(text, *x)).collect();
        let length = |label: &Label| f64::from(u16::try_from(label.text.len()).unwrap());
        place(labels, room, |at| at.x, length)
            .into_iter()
            .map(|placed| (placed.label.text, placed.row, placed.start))
            .collect()
    }

    #[test]
    fn names_that_do_not_meet_stand_in_the_nearest_row() {
        let names = placed(&[("ball", 10.0), ("jack", 30.0)], 40.0, 2);
        assert_eq!(names, [("ball".into(), 0, 8.0), ("jack".into(), 0, 28.0)]);
    }

    #[test]
    fn a_name_that_finds_no_room_is_left_out_and_the_first_never_is() {
        let names = placed(&[("COUPLER", 5.0), ("ball", 5.0)], 10.0, 1);
        assert_eq!(names.len(), 1);
        assert_eq!(names[0].0, "COUPLER");
    }

    #[test]
    fn a_name_at_the_edge_slides_inside() {
        assert_eq!(
            placed(&[("lamps", 39.0)], 40.0, 1),
            [("lamps".into(), 0, 35.0)]
        );
        assert_eq!(
            placed(&[("lamps", 0.0)], 3.0, 1),
            [("lamps".into(), 0, 0.0)]
        );
    }
}
