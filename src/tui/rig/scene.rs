//! A drawing before any painter: lines, outlines and circles in inches, each with the part of the
//! rig that it shows.

use crate::rig::Place;

/// A point of a drawing, in inches: `x` rearward from the ball, `y` up the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Rearward from the middle of the ball.
    pub x: f64,
    /// Up the sheet: above the ground from the side, to the right from above.
    pub y: f64,
}

/// The piece of the world a drawing shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Its lower left corner.
    pub low: Point,
    /// Its upper right corner.
    pub high: Point,
}

/// What a piece looks like.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// An open run of straight lines.
    Line(Vec<Point>),
    /// A closed run of straight lines.
    Outline(Vec<Point>),
    /// A circle.
    Circle {
        /// Its middle.
        centre: Point,
        /// Its radius.
        radius: f64,
    },
}

/// What stands inside an outline or circle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Whatever was drawn before.
    Open,
    /// Nothing: it hides what was drawn before.
    Blank,
    /// A grey tone.
    Shade,
    /// The colour of the line.
    Solid,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pen {
    /// For what only helps to find one's way: the ground, the edge of the sheet.
    Fine,
    /// For the parts.
    Plain,
    /// Broken, for chains.
    Links,
}

/// One line, outline or circle of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What it looks like.
    pub form: Form,
    /// The part it shows; nothing for the ground and the load.
    pub place: Option<Place>,
    /// Which of several, by the id used in records, such as `left-front`.
    pub item: Option<String>,
    /// What stands inside it.
    pub fill: Fill,
    /// How it is drawn.
    pub pen: Pen,
}

/// A name with the point it belongs to.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// The name, in lower case.
    pub text: String,
    /// The part it names; nothing for the load.
    pub place: Option<Place>,
    /// The point a leader leads to.
    pub at: Point,
}

/// A drawing of a rig. Later pieces lie over earlier ones.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// What can be seen.
    pub window: Window,
    /// The pieces, the farthest first.
    pub pieces: Vec<Piece>,
    /// The names, the most wanted first.
    pub notes: Vec<Note>,
}

/// The part of a drawing that a step is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The part.
    pub place: Place,
    /// Which of several, where the step is about one.
    pub item: Option<String>,
    /// The state it was seen in, where that is known.
    pub state: Option<String>,
}

/// A point of the sheet.
pub(crate) fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// The four corners of an upright rectangle.
pub(crate) fn corners(low: Point, high: Point) -> Vec<Point> {
    vec![low, at(high.x, low.y), high, at(low.x, high.y)]
}

impl Window {
    /// Its width and height, never nothing.
    pub fn size(&self) -> (f64, f64) {
        let width = self.high.x - self.low.x;
        let height = self.high.y - self.low.y;
        (width.max(1.0), height.max(1.0))
    }

    /// Whether a point can be seen.
    pub fn holds(&self, point: Point) -> bool {
        (self.low.x..=self.high.x).contains(&point.x)
            && (self.low.y..=self.high.y).contains(&point.y)
    }

    /// The nearest point that can be seen.
    pub(crate) fn nearest(&self, point: Point) -> Point {
        at(
            point.x.max(self.low.x).min(self.high.x),
            point.y.max(self.low.y).min(self.high.y),
        )
    }
}

impl Piece {
    /// An open run of straight lines.
    pub(crate) fn line(points: Vec<Point>) -> Self {
        Self::new(Form::Line(points), Fill::Open)
    }

    /// A closed run of straight lines that hides what lies behind it.
    pub(crate) fn outline(points: Vec<Point>) -> Self {
        Self::new(Form::Outline(points), Fill::Blank)
    }

    /// A circle that hides what lies behind it.
    pub(crate) fn circle(centre: Point, radius: f64) -> Self {
        Self::new(Form::Circle { centre, radius }, Fill::Blank)
    }

    fn new(form: Form, fill: Fill) -> Self {
        Self {
            form,
            place: None,
            item: None,
            fill,
            pen: Pen::Plain,
        }
    }

    /// The same, as a part of the rig.
    pub(crate) fn of(self, place: Place) -> Self {
        let place = Some(place);
        Self { place, ..self }
    }

    /// The same, as one of several.
    pub(crate) fn item(self, id: &str) -> Self {
        let item = Some(id.to_owned());
        Self { item, ..self }
    }

    /// The same with another inside.
    pub(crate) fn fill(self, fill: Fill) -> Self {
        Self { fill, ..self }
    }

    /// The same with another line.
    pub(crate) fn pen(self, pen: Pen) -> Self {
        Self { pen, ..self }
    }

    /// Whether the mark means this piece.
    pub fn is_marked(&self, mark: &Mark) -> bool {
        self.place == Some(mark.place) && (mark.item.is_none() || mark.item == self.item)
    }

    /// Its corners; a circle is given as many as the eye needs.
    pub fn points(&self) -> Vec<Point> {
        match &self.form {
            Form::Line(points) | Form::Outline(points) => points.clone(),
            Form::Circle { centre, radius } => (0..CIRCLE_CORNERS)
                .map(|corner| {
                    let turn =
                        std::f64::consts::TAU * f64::from(corner) / f64::from(CIRCLE_CORNERS);
                    at(
                        centre.x + radius * turn.cos(),
                        centre.y + radius * turn.sin(),
                    )
                })
                .collect(),
        }
    }

    /// The smallest upright rectangle round it.
    pub fn bounds(&self) -> Option<Window> {
        let points = self.points();
        let first = *points.first()?;
        let start = Window {
            low: first,
            high: first,
        };
        Some(points.iter().fold(start, |bounds, point| Window {
            low: at(bounds.low.x.min(point.x), bounds.low.y.min(point.y)),
            high: at(bounds.high.x.max(point.x), bounds.high.y.max(point.y)),
        }))
    }

    /// A point in its middle: on a line, or inside an outline.
    pub fn middle(&self) -> Option<Point> {
        if let Form::Line(points) = &self.form {
            return points.get(points.len() / 2).copied();
        }
        let Window { low, high } = self.bounds()?;
        Some(at(
            f64::midpoint(low.x, high.x),
            f64::midpoint(low.y, high.y),
        ))
    }
}

/// A circle drawn with so many corners differs from a round one by less than a dot.
const CIRCLE_CORNERS: u32 = 40;

impl Scene {
    /// An empty sheet.
    pub(crate) fn new(low: Point, high: Point) -> Self {
        Self {
            window: Window { low, high },
            pieces: vec![],
            notes: vec![],
        }
    }

    /// The same seen from behind the sheet.
    pub(crate) fn mirrored(self) -> Self {
        let turn = |point: Point| at(-point.x, point.y);
        let turned = |form| match form {
            Form::Line(points) => Form::Line(points.into_iter().map(turn).collect()),
            Form::Outline(points) => Form::Outline(points.into_iter().map(turn).collect()),
            Form::Circle { centre, radius } => Form::Circle {
                centre: turn(centre),
                radius,
            },
        };
        let Window { low, high } = self.window;
        let pieces = self.pieces.into_iter().map(|piece| Piece {
            form: turned(piece.form),
            ..piece
        });
        let notes = self.notes.into_iter().map(|note| Note {
            at: turn(note.at),
            ..note
        });
        Self {
            window: Window {
                low: at(-high.x, low.y),
                high: at(-low.x, high.y),
            },
            pieces: pieces.collect(),
            notes: notes.collect(),
        }
    }

    /// Lays a piece over the others.
    pub(crate) fn put(&mut self, piece: Piece) {
        self.pieces.push(piece);
    }

    /// Names a part.
    pub(crate) fn note(&mut self, place: Place, text: &str, at: Point) {
        let text = text.to_owned();
        let place = Some(place);
        self.notes.push(Note { text, place, at });
    }

    /// The point a marked part's label leads to; nothing when the drawing does not show it.
    pub fn anchor(&self, mark: &Mark) -> Option<Point> {
        let piece = self.pieces.iter().find(|piece| piece.is_marked(mark));
        let note = self
            .notes
            .iter()
            .find(|note| note.place == Some(mark.place));
        note.filter(|_| mark.item.is_none())
            .map(|note| note.at)
            .or_else(|| piece.and_then(Piece::middle))
            .map(|point| self.window.nearest(point))
    }
}

impl Mark {
    /// The word on the drawing: `TIRES LEFT FRONT`, and the state behind it where one is known.
    pub fn label(&self) -> String {
        let item = self.item.iter().map(|item| item.replace('-', " "));
        let part = std::iter::once(self.place.word().to_owned())
            .chain(item)
            .collect::<Vec<String>>()
            .join(" ")
            .to_uppercase();
        let state = self.state.as_ref();
        state.map_or_else(|| part.clone(), |state| format!("{part}: {state}"))
    }
}
