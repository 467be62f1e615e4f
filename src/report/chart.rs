//! A series as a small SVG chart: points, limit, line and interval, told apart by shape and stroke,
//! never by colour.

use crate::desk::trend::{asked, day, letters, limit, quiet, rests_on};
use crate::report::page::Chart;
use crate::review::trend::{Frame, Plot, Segment, Series};
use crate::text::escaped;
use crate::units::Exact;
use chrono::Days;
use num_traits::ToPrimitive;
use std::fmt::Write;

/// Size of the picture, and of the field of the chart in it.
const SIZE: (f64, f64) = (250.0, 104.0);
const LEFT: f64 = 42.0;
const RIGHT: f64 = 246.0;
const TOP: f64 = 8.0;
const FOOT: f64 = 86.0;

/// Rows of a chart of letters, with something to ask and without.
const ROWS: (usize, usize) = (10, 6);

/// The chart of a series with its words.
pub(super) fn chart(series: &Series) -> Chart {
    let rows = if series.ask.is_some() { ROWS.0 } else { ROWS.1 };
    let told = if series.ask.is_some() {
        let (question, rests) = (asked(series), rests_on(series));
        let question = question.split_once(": ").map(|(_, asked)| asked.to_owned());
        question
            .into_iter()
            .chain([rests])
            .chain(limit(series))
            .collect()
    } else {
        vec![quiet(series)]
    };
    Chart {
        title: series.name(),
        svg: svg(series, &told.join(" ")),
        letters: letters(series, rows),
        told,
    }
}

fn svg(series: &Series, told: &str) -> Option<String> {
    let plot = series.plot()?;
    let field = Field::of(plot.frame()?);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0} {:.0}\" role=\"img\" \
         font-family=\"sans-serif\" font-size=\"11\">\n<title>{}</title>\n<desc>{} A ring is a \
         reading, a filled square one beyond the limit; the broken line is the limit.</desc>\n\
         <path d=\"M{LEFT:.1} {TOP:.1} V{FOOT:.1} H{RIGHT:.1}\" fill=\"none\" stroke=\"#000\"/>\n",
        SIZE.0,
        SIZE.1,
        escaped(&series.name()),
        escaped(told),
    );
    field.draw(&plot, &mut out);
    field.label(series, &plot, &mut out);
    out.push_str("</svg>\n");
    Some(out)
}

/// Where what is drawn lies in the picture.
struct Field(Frame);

impl Field {
    fn of(frame: Frame) -> Self {
        Self(frame)
    }

    fn to(&self, (day, value): (f64, f64)) -> (f64, f64) {
        let Frame { days, low, high } = self.0;
        let across = (day / days).clamp(0.0, 1.0);
        let down = ((high - value) / (high - low)).clamp(0.0, 1.0);
        (LEFT + (RIGHT - LEFT) * across, TOP + (FOOT - TOP) * down)
    }

    fn line(&self, segment: &Segment, look: &str, out: &mut String) {
        let ((x, y), (to_x, to_y)) = (self.to(segment.from), self.to(segment.to));
        // Writing to a string cannot fail.
        let _ = writeln!(
            out,
            "<path d=\"M{x:.1} {y:.1} L{to_x:.1} {to_y:.1}\" fill=\"none\" stroke=\"#000\" {look}/>"
        );
    }

    fn draw(&self, plot: &Plot, out: &mut String) {
        if let Some(ahead) = &plot.ahead {
            let ((x, y), (low_x, low_y)) = (self.to(ahead.low.from), self.to(ahead.low.to));
            let (high_x, high_y) = self.to(ahead.high.to);
            let _ = writeln!(
                out,
                "<path d=\"M{x:.1} {y:.1} L{low_x:.1} {low_y:.1} L{high_x:.1} {high_y:.1} Z\" \
                 fill=\"#ccc\" stroke=\"none\"/>"
            );
            self.line(&ahead.likely, "stroke-width=\"1\"", out);
        }
        if let Some(limit) = plot.limit {
            let segment = Segment {
                from: (0.0, limit),
                to: (self.0.days, limit),
            };
            self.line(
                &segment,
                "stroke-width=\"1.6\" stroke-dasharray=\"6 3\"",
                out,
            );
        }
        for segment in &plot.lines {
            self.line(segment, "stroke-width=\"1\"", out);
        }
        for dot in &plot.dots {
            let (x, y) = self.to((dot.day, dot.value));
            let _ = if dot.beyond {
                let (left, top) = (x - 2.4, y - 2.4);
                writeln!(
                    out,
                    "<rect x=\"{left:.1}\" y=\"{top:.1}\" width=\"4.8\" height=\"4.8\"/>"
                )
            } else {
                writeln!(
                    out,
                    "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"1.9\" fill=\"#fff\" stroke=\"#000\" \
                     stroke-width=\"0.8\"/>"
                )
            };
        }
    }

    fn label(&self, series: &Series, plot: &Plot, out: &mut String) {
        let (upper, lower) = series.kind.step();
        let told = |value: f64| Exact::nearest(value, &Exact::ratio(upper, lower)?);
        let Frame { low, high, days } = self.0;
        let mut levels = vec![(high, TOP + 7.0), (low, FOOT)];
        if let Some(limit) = plot.limit {
            let (_, y) = self.to((0.0, limit));
            // Not over the two at the ends.
            levels.retain(|(_, at)| (at - y).abs() > 11.0);
            levels.push((limit, y + 3.5));
            let _ = writeln!(
                out,
                "<text x=\"{:.1}\" y=\"{:.1}\" font-size=\"10\">limit</text>",
                LEFT + 3.0,
                if y > FOOT - 14.0 { y - 3.0 } else { y + 9.0 }
            );
        }
        for (value, y) in levels {
            if let Some(value) = told(value) {
                let x = LEFT - 3.0;
                let _ = writeln!(
                    out,
                    "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"end\">{value}</text>"
                );
            }
        }
        let days = Days::new(days.to_u64().unwrap_or(0));
        let last = plot.first.checked_add_days(days).unwrap_or(plot.first);
        let foot = FOOT + 13.0;
        let _ = writeln!(
            out,
            "<text x=\"{:.1}\" y=\"{foot:.1}\" text-anchor=\"end\">{}</text>\n\
             <text x=\"{LEFT:.1}\" y=\"{foot:.1}\">{}</text>\n\
             <text x=\"{RIGHT:.1}\" y=\"{foot:.1}\" text-anchor=\"end\">{}</text>",
            LEFT - 3.0,
            escaped(series.kind.unit().symbol()),
            day(plot.first),
            day(last)
        );
    }
}
