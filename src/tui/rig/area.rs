//! Which squares of a grid lie inside an outline.

use crate::tui::rig::fit::square;

/// Every square whose middle lies inside the closed outline, by the even-odd rule, within
/// `columns` by `rows`.
pub(crate) fn inside(points: &[(f64, f64)], columns: i32, rows: i32) -> Vec<(i32, i32)> {
    let heights = || points.iter().map(|(_, y)| *y);
    let top = heights().fold(f64::MAX, f64::min).max(0.0);
    let bottom = heights().fold(f64::MIN, f64::max).min(f64::from(rows));
    let (Some(first), Some(last)) = (square(top), square(bottom)) else {
        return vec![];
    };
    (first..=last)
        .filter(|row| *row < rows)
        .flat_map(|row| {
            let edges = crossings(points, f64::from(row) + 0.5);
            spans(&edges, columns)
                .into_iter()
                .map(move |column| (column, row))
        })
        .collect()
}

/// Where the outline crosses a height, from the left.
fn crossings(points: &[(f64, f64)], y: f64) -> Vec<f64> {
    let next = points.iter().cycle().skip(1);
    let mut edges: Vec<f64> = points
        .iter()
        .zip(next)
        .filter(|((_, from), (_, to))| (*from <= y) != (*to <= y))
        .map(|((x0, y0), (x1, y1))| x0 + (x1 - x0) * (y - y0) / (y1 - y0))
        .collect();
    edges.sort_by(f64::total_cmp);
    edges
}

/// The columns between the first and second crossing, the third and fourth, and so on.
fn spans(edges: &[f64], columns: i32) -> Vec<i32> {
    edges
        .chunks_exact(2)
        .filter_map(|pair| match pair {
            [from, to] => {
                let first = square((from - 0.5).max(-1.0).ceil())?;
                let last = square((to - 0.5).min(f64::from(columns)).floor())?;
                Some(first.max(0)..=last.min(columns - 1))
            }
            _ => None,
        })
        .flatten()
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_of_two_by_two_holds_four_squares() {
        let outline = [(1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0)];
        assert_eq!(inside(&outline, 9, 9), [(1, 1), (2, 1), (1, 2), (2, 2)]);
    }

    #[test]
    fn what_lies_outside_the_grid_is_cut_off() {
        let outline = [(-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0)];
        assert_eq!(inside(&outline, 3, 2).len(), 6);
        assert_eq!(inside(&[], 3, 2), []);
    }
}
