//! The rig drawn from its own numbers, with the part a step is about marked: a person in a cab
//! looks before reading.
//!
//! A [`Scene`] is made of a rig alone, in inches. Two painters show it: on a terminal, in braille
//! dots or in plain ASCII, and as an SVG picture for paper.
//!
//! Truck and trailer are drawn coupled, and true to scale: where the rig file says how they are
//! sprung they stand as solved, else as its heights say, the truck settled by some inches under the
//! tongue where that makes the trailer level.

mod above;
mod area;
mod backups;
pub(super) mod bars;
mod body;
mod cells;
mod closeup;
mod dots;
mod drawbar;
mod fit;
mod hang;
mod horse;
mod labels;
mod measure;
mod neck;
mod scene;
mod seen;
mod sheet;
mod side;
mod stance;
mod strokes;
mod svg;
mod tire;
mod trailer;
mod truck;
mod view;

pub use scene::{Fill, Form, Mark, Note, Pen, Piece, Point, Scene, Window};
pub use seen::{Seen, seen};
pub use view::View;

use crate::checklist::{Haul, Plan, PlannedStep};
use crate::figures::{AxleLoad, Item, axle_loads};
use crate::rig::{Place, Rig};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::widgets::Widget;

/// A drawing of a rig, ready to be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    scene: Scene,
    title: String,
    mark: Option<Mark>,
    /// Axle loads shown as bars below it.
    loads: Vec<AxleLoad>,
    ascii: bool,
}

/// Where axle loads are what the part is about.
const LOADED: [Place; 4] = [Place::Drawbar, Place::Frame, Place::Tires, Place::Wheels];

/// Fewest rows that are left to a drawing when bars stand below it.
const LEAST_ROWS: u16 = 7;

/// The drawing for a step about `place`: the view that shows it best, with the part marked.
pub fn drawing(plan: &Plan, place: Place, ascii: bool) -> Drawing {
    let rig = plan.rig();
    let drawing = Drawing::on(plan, View::of(place, rig.kind()), rig)
        .marked(place, None)
        .ascii(ascii);
    if LOADED.contains(&place) {
        drawing.loaded(axle_loads(rig))
    } else {
        drawing
    }
}

/// The drawing for a planned step: where it is repeated, its own wheel, axle or chain is marked.
pub fn drawing_of(plan: &Plan, step: &PlannedStep, ascii: bool) -> Drawing {
    let place = step.step.place;
    drawing(plan, place, ascii).marked(place, step.item.as_ref())
}

impl Drawing {
    /// The whole rig from its left.
    pub fn side(rig: &Rig) -> Self {
        Self::new(View::Side, rig)
    }

    /// The hitch close up.
    pub fn hitch(rig: &Rig) -> Self {
        Self::new(View::Hitch, rig)
    }

    /// The trailer from above.
    pub fn above(rig: &Rig) -> Self {
        Self::new(View::Above, rig)
    }

    fn new(view: View, rig: &Rig) -> Self {
        Self::with(view.scene(rig), view, rig)
    }

    /// A view of a rig on the walk of a plan: a rig that is hitched up or unhitched has no horse
    /// aboard.
    fn on(plan: &Plan, view: View, rig: &Rig) -> Self {
        let scene = match plan.checklist().haul {
            Haul::Begins | Haul::Ends => view.scene_unloaded(rig),
            Haul::During | Haul::Apart => view.scene(rig),
        };
        Self::with(scene, view, rig)
    }

    fn with(scene: Scene, view: View, rig: &Rig) -> Self {
        Self {
            scene,
            title: format!("{}: {}", rig.name, view.word()),
            mark: None,
            loads: Vec::new(),
            ascii: false,
        }
    }

    /// The same with a part marked: the one a step is repeated for, or all of its kind where the
    /// view does not tell them apart.
    #[must_use]
    pub fn marked(self, place: Place, item: Option<&Item>) -> Self {
        let item = item.map(|item| item.id.clone());
        let state = None;
        let one = Mark { place, item, state };
        let known = self.scene.pieces.iter().any(|piece| piece.is_marked(&one));
        let all = Mark {
            item: None,
            ..one.clone()
        };
        let mark = Some(if known { one } else { all });
        Self { mark, ..self }
    }

    /// The same with the state of the marked part named beside it.
    #[must_use]
    pub(crate) fn called(self, state: Option<String>) -> Self {
        let mark = self.mark.map(|mark| Mark { state, ..mark });
        Self { mark, ..self }
    }

    /// The same from the other side: what was at the left is at the right.
    #[must_use]
    pub(crate) fn mirrored(self) -> Self {
        let scene = self.scene.mirrored();
        Self { scene, ..self }
    }

    /// Whether a part is drawn here.
    pub(crate) fn shows(&self, place: Place) -> bool {
        let mut pieces = self.scene.pieces.iter();
        pieces.any(|piece| piece.place == Some(place))
    }

    /// The same in characters every terminal has, or in braille dots.
    #[must_use]
    pub fn ascii(self, ascii: bool) -> Self {
        Self { ascii, ..self }
    }

    /// The same with axle loads as bars below it, where there is room and any of them is known.
    #[must_use]
    pub fn loaded(self, loads: Vec<AxleLoad>) -> Self {
        let known = loads.iter().any(|load| load.known().is_some());
        let loads = if known { loads } else { Vec::new() };
        Self { loads, ..self }
    }

    /// What is drawn, in inches.
    pub fn scene(&self) -> &Scene {
        &self.scene
    }

    /// The same as an SVG picture.
    pub fn svg(&self) -> String {
        svg::picture(&self.scene, self.mark.as_ref(), &self.title, &self.loads)
    }
}

impl Widget for &Drawing {
    fn render(self, area: Rect, buffer: &mut Buffer) {
        let bars = bars::lines(&self.loads, area.width.into(), self.ascii);
        let taken = u16::try_from(bars.len() + 1).unwrap_or(u16::MAX);
        let left = area.height.saturating_sub(taken);
        let fits = left >= LEAST_ROWS && !bars.is_empty();
        let height = if fits { left } else { area.height };
        let sheet = Rect { height, ..area };
        cells::paint(&self.scene, self.mark.as_ref(), self.ascii, sheet, buffer);
        if fits {
            let rows = area.rows().skip(usize::from(left) + 1);
            for (row, bar) in rows.zip(bars) {
                buffer.set_stringn(row.x, row.y, bar, row.width.into(), Style::new());
            }
        }
    }
}
