//! A scene as an SVG picture for paper: black on white, the marked part drawn bold and named.

use crate::figures::AxleLoad;
use crate::text::escaped;
use crate::tui::rig::bars;
use crate::tui::rig::labels::{self, Label, Placed, Room};
use crate::tui::rig::scene::{Fill, Form, Mark, Pen, Piece, Point, Scene};
use std::fmt::Write;

/// Width of the picture in its own units; print and screens scale it.
const WIDTH: f64 = 960.0;

/// Height of a name, and the width of its average letter.
const TEXT: f64 = 15.0;
const LETTER: f64 = 0.62;

/// Height of a row of names, and how many there may be above and below.
const ROW: f64 = 24.0;
const ROWS: usize = 3;

/// White border.
const BORDER: f64 = 10.0;

/// The picture as text; the same scene always gives the same bytes.
pub(crate) fn picture(
    scene: &Scene,
    mark: Option<&Mark>,
    title: &str,
    loads: &[AxleLoad],
) -> String {
    let picture = Picture::new(scene);
    let names = picture.names(scene, mark);
    picture
        .below(rows(&names, true))
        .draw(scene, mark, &names, title, loads)
}

struct Picture {
    low: Point,
    /// Units an inch.
    scale: f64,
    /// Top and foot of the drawing.
    top: f64,
    foot: f64,
}

impl Picture {
    /// The drawing as wide as the picture, below the names that stand above it.
    fn new(scene: &Scene) -> Self {
        let (width, height) = scene.window.size();
        let scale = (WIDTH - 2.0 * BORDER) / width;
        Self {
            low: scene.window.low,
            scale,
            top: BORDER,
            foot: BORDER + height * scale,
        }
    }

    /// The same, lower by so many rows of names.
    fn below(self, rows: f64) -> Self {
        Self {
            top: self.top + rows * ROW,
            foot: self.foot + rows * ROW,
            ..self
        }
    }

    fn to(&self, point: Point) -> (f64, f64) {
        (
            BORDER + (point.x - self.low.x) * self.scale,
            self.foot - (point.y - self.low.y) * self.scale,
        )
    }

    fn draw(
        &self,
        scene: &Scene,
        mark: Option<&Mark>,
        names: &[Placed],
        title: &str,
        loads: &[AxleLoad],
    ) -> String {
        let bottom = self.foot + rows(names, false) * ROW + ROW;
        let (bars, depth_of_bars) = bars(loads, bottom);
        let height = bottom + depth_of_bars + BORDER;
        let bar = self.bar(scene, bottom);
        let title = escaped(title);
        let mut out = String::new();
        let is_marked = |piece: &&Piece| mark.is_some_and(|mark| piece.is_marked(mark));
        let plain: String = scene
            .pieces
            .iter()
            .map(|piece| self.piece(piece, false))
            .collect();
        let marked: String = scene
            .pieces
            .iter()
            .filter(is_marked)
            .map(|piece| self.piece(piece, true))
            .collect();
        let desc = escaped(&described(names));
        let names: String = names.iter().map(|name| self.name(name)).collect();
        let (inner, depth) = (WIDTH - 2.0 * BORDER, self.foot - self.top + 2.0);
        // Writing to a string cannot fail.
        let _ = write!(
            out,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH:.0} {height:.0}\" \
             role=\"img\">\n<title>{title}</title>\n<desc>{desc}</desc>\n\
             <rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n\
             <clipPath id=\"sheet\"><rect x=\"{BORDER:.0}\" y=\"{:.1}\" width=\"{inner:.0}\" \
             height=\"{depth:.1}\"/></clipPath>\n\
             <g clip-path=\"url(#sheet)\" stroke=\"black\" stroke-linejoin=\"round\" \
             stroke-linecap=\"round\">\n{plain}{marked}</g>\n\
             <g font-family=\"DejaVu Sans, Arial, sans-serif\" font-size=\"{TEXT:.0}\">\n\
             {names}{bar}{bars}</g>\n</svg>\n",
            self.top,
        );
        out
    }

    /// A rule that tells how large the drawing is.
    fn bar(&self, scene: &Scene, bottom: f64) -> String {
        let (inches, words) = if scene.window.size().0 < 150.0 {
            (12.0, "1 ft")
        } else {
            (60.0, "5 ft")
        };
        let (right, tip) = (WIDTH - BORDER, bottom - 6.0);
        let left = right - inches * self.scale;
        let text = left - 8.0;
        format!(
            "<path d=\"M{left:.1} {tip:.1} V{bottom:.1} H{right:.1} V{tip:.1}\" fill=\"none\" \
             stroke=\"black\" stroke-width=\"1.6\"/>\n\
             <text x=\"{text:.1}\" y=\"{bottom:.1}\" text-anchor=\"end\">{words}</text>\n"
        )
    }

    fn piece(&self, piece: &Piece, marked: bool) -> String {
        let width = match (marked, piece.pen) {
            (true, _) => 4.5,
            (false, Pen::Fine) => 0.8,
            (false, Pen::Plain) => 1.6,
            (false, Pen::Links) => 2.6,
        };
        let fill = match piece.fill {
            _ if matches!(piece.form, Form::Line(_)) => "none",
            Fill::Open => "none",
            // What is marked lies on top and must not hide what is inside it.
            Fill::Blank if marked => "none",
            Fill::Blank => "white",
            Fill::Shade => "#bbb",
            Fill::Solid if marked => "black",
            Fill::Solid => "#444",
        };
        let dash = match piece.pen {
            Pen::Links => " stroke-dasharray=\"7 5\"",
            Pen::Fine => " stroke-dasharray=\"3 3\"",
            Pen::Plain => "",
        };
        let look = format!("fill=\"{fill}\" stroke-width=\"{width:.1}\"{dash}");
        match &piece.form {
            Form::Circle { centre, radius } => {
                let (x, y) = self.to(*centre);
                let radius = radius * self.scale;
                format!("<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{radius:.1}\" {look}/>\n")
            }
            Form::Line(points) => format!("<polyline points=\"{}\" {look}/>\n", self.list(points)),
            Form::Outline(points) => {
                format!("<polygon points=\"{}\" {look}/>\n", self.list(points))
            }
        }
    }

    fn list(&self, points: &[Point]) -> String {
        let pairs: Vec<String> = points
            .iter()
            .map(|point| {
                let (x, y) = self.to(*point);
                format!("{x:.1},{y:.1}")
            })
            .collect();
        pairs.join(" ")
    }

    fn names(&self, scene: &Scene, mark: Option<&Mark>) -> Vec<Placed> {
        let letter = TEXT * LETTER;
        let room = Room {
            width: (WIDTH - 2.0 * BORDER) / letter,
            rows_above: ROWS,
            rows_below: ROWS,
        };
        labels::place(
            labels::labels(scene, mark),
            room,
            |at| (self.to(at).0 - BORDER) / letter,
            columns,
        )
    }

    fn name(&self, placed: &Placed) -> String {
        let letter = TEXT * LETTER;
        let label = &placed.label;
        let away = row(placed) * ROW;
        let (_, end) = self.to(label.at);
        let x = BORDER + placed.leader * letter;
        let middle = BORDER + (placed.start + columns(label) / 2.0) * letter;
        let (begin, line) = if label.above {
            (self.top - 4.0 - away, self.top - 9.0 - away)
        } else {
            (self.foot + 5.0 + away, self.foot + 19.0 + away)
        };
        let text = escaped(&label.text);
        if label.marked {
            let (wide, left) = (
                columns(label) * letter,
                middle - columns(label) * letter / 2.0,
            );
            let box_top = line - 15.0;
            return format!(
                "<path d=\"M{x:.1} {begin:.1} V{end:.1}\" stroke=\"white\" stroke-width=\"6\"/>\n\
                 <path d=\"M{x:.1} {begin:.1} V{end:.1}\" stroke=\"black\" stroke-width=\"2.4\"/>\n\
                 <circle cx=\"{x:.1}\" cy=\"{end:.1}\" r=\"5\" fill=\"white\" stroke=\"black\" \
                 stroke-width=\"2.4\"/>\n\
                 <rect x=\"{left:.1}\" y=\"{box_top:.1}\" width=\"{wide:.1}\" height=\"20\"/>\n\
                 <text x=\"{middle:.1}\" y=\"{line:.1}\" text-anchor=\"middle\" fill=\"white\" \
                 font-weight=\"bold\">{text}</text>\n"
            );
        }
        format!(
            "<path d=\"M{x:.1} {begin:.1} V{end:.1}\" stroke=\"white\" stroke-width=\"3\"/>\n\
             <path d=\"M{x:.1} {begin:.1} V{end:.1}\" stroke=\"black\" stroke-width=\"0.8\"/>\n\
             <text x=\"{middle:.1}\" y=\"{line:.1}\" text-anchor=\"middle\">{text}</text>\n"
        )
    }
}

/// Axle loads as bars below a drawing that ends at `top`, and the height they take.
fn bars(loads: &[AxleLoad], top: f64) -> (String, f64) {
    let mut out = String::new();
    let mut y = top;
    for load in loads {
        y += ROW;
        let (low, high) = (y + 3.0, y - 13.0);
        let full = BAR * BAR_PERCENT / 100.0;
        let length = load
            .percent()
            .map_or(0.0, |percent| (f64::from(percent) / 100.0 * BAR).min(full));
        let beyond = (length - BAR).max(0.0);
        let (left, rated, depth) = (BAR_LEFT, BAR_LEFT + BAR, low - high);
        let (inside, words) = (length - beyond, BAR_LEFT + full + 14.0);
        let (name, text) = (
            escaped(&load.name),
            escaped(&bars::numbers(load, None).replace("  ", ", ")),
        );
        // Writing to a string cannot fail.
        let _ = write!(
            out,
            "<text x=\"{BORDER:.0}\" y=\"{y:.1}\">{name}</text>\n\
             <rect x=\"{left:.0}\" y=\"{high:.1}\" width=\"{inside:.1}\" height=\"{depth:.1}\" \
             fill=\"#bbb\"/>\n\
             <rect x=\"{rated:.0}\" y=\"{high:.1}\" width=\"{beyond:.1}\" height=\"{depth:.1}\" \
             fill=\"black\"/>\n\
             <rect x=\"{left:.0}\" y=\"{high:.1}\" width=\"{full:.1}\" height=\"{depth:.1}\" \
             fill=\"none\" stroke=\"black\" stroke-width=\"0.8\"/>\n\
             <path d=\"M{rated:.0} {:.1} V{:.1}\" stroke=\"black\" stroke-width=\"2.4\"/>\n\
             <text x=\"{words:.1}\" y=\"{y:.1}\">{text}</text>\n",
            high - 3.0,
            low + 3.0,
        );
    }
    (out, y - top)
}

/// Where bars of axle loads begin, how long one is at its rating, and how long it may get.
const BAR_LEFT: f64 = 150.0;
const BAR: f64 = 320.0;
const BAR_PERCENT: f64 = 125.0;

/// What a picture shows, for who does not see it.
fn described(names: &[Placed]) -> String {
    let of = |marked: bool| {
        let labels = names.iter().map(|name| &name.label);
        let texts = labels.filter(|label| label.marked == marked);
        let texts: Vec<String> = texts.map(|label| label.text.to_lowercase()).collect();
        texts.join(", ")
    };
    let (marked, others) = (of(true), of(false));
    let marked = if marked.is_empty() {
        String::new()
    } else {
        format!(" Marked: {marked}.")
    };
    format!("Drawn to scale from the rig's own numbers.{marked} Named: {others}.")
}

/// How many rows the names above or below a drawing take.
fn rows(names: &[Placed], above: bool) -> f64 {
    let side = names.iter().filter(|name| name.label.above == above);
    side.map(|name| row(name) + 1.0).fold(0.0, f64::max)
}

fn row(name: &Placed) -> f64 {
    u32::try_from(name.row).map_or(0.0, f64::from)
}

/// Width of a name, in letters; capitals are wider, and a marked one has a border.
fn columns(label: &Label) -> f64 {
    let letters: f64 = label.text.chars().map(|_| 1.0).sum();
    if label.marked {
        letters * 1.2 + 1.6
    } else {
        letters
    }
}
