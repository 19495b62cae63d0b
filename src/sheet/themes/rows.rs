//! Symbols in rows inside a square: none hides another, and those without room are counted.

use super::band_index;
use super::symbols::Counts;
use crate::sheet::canvas::{MM, Rect};
use crate::sheet::shapes::{Era, Kind};

/// White between symbols.
const GAP: f64 = 0.35 * MM;

/// A symbol's place in a square, and what it stands for.
pub(super) type Row = Vec<(f64, f64, f64, Kind, Era)>;

/// What symbols are set with.
pub(super) struct Room<'a> {
    /// Size for each band of the count.
    pub sizes_mm: &'a [f64; 4],
    /// Room for the number of symbols that found none, units.
    pub corner: (f64, f64),
}

/// Sets the symbols that are drawn in rows inside a box, the rows centred in it. Gives those that fit, and how many do
/// not or are not drawn; for these a corner is kept free, where their number is written.
pub(super) fn pack(
    counts: &Counts,
    rect: Rect,
    room: &Room<'_>,
    draws: &dyn Fn(&(Kind, Era)) -> bool,
) -> (Row, usize) {
    let drawn = counts.iter().filter(|(key, _)| draws(key));
    let mut wanted: Vec<((Kind, Era), f64)> =
        drawn.map(|(key, n)| (*key, room.sizes_mm[band_index(*n)])).collect();
    let not_drawn = counts.len() - wanted.len();
    // The largest first, so that rows waste no height; then by class and period.
    wanted.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let inner = rect.grown(-0.4 * MM);
    let fit = |corner: (f64, f64)| {
        let mut rows: Vec<(f64, f64, Row)> = Vec::new();
        let (mut x, mut y, mut row) = (0.0f64, 0.0f64, Row::new());
        let (mut tall, mut left_out) = (0.0f64, not_drawn);
        for &((kind, era), size_mm) in &wanted {
            let size = size_mm * MM;
            // The last row stops short of the corner that is kept free.
            let limit =
                |y: f64| inner.width() - if y + size > inner.height() - corner.1 { corner.0 } else { 0.0 };
            if x + size > limit(y) + 1.0 && !row.is_empty() {
                rows.push((x - GAP, tall, std::mem::take(&mut row)));
                y += tall + GAP;
                (x, tall) = (0.0, 0.0);
            }
            if y + size > inner.height() + 1.0 || x + size > limit(y) + 1.0 {
                left_out += 1;
                continue;
            }
            row.push((x + size / 2.0, y, size_mm, kind, era));
            x += size + GAP;
            tall = tall.max(size);
        }
        if !row.is_empty() {
            rows.push((x - GAP, tall, row));
        }
        (rows, left_out)
    };
    let (mut rows, mut left_out) = fit((0.0, 0.0));
    if left_out > 0 {
        (rows, left_out) = fit(room.corner);
    }
    let used: f64 = rows.iter().map(|(_, tall, _)| tall + GAP).sum::<f64>() - GAP;
    let down = if left_out > 0 { 0.0 } else { (inner.height() - used).max(0.0) / 2.0 };
    let mut set = Row::new();
    for (wide, tall, row) in rows {
        let across = if left_out > 0 { 0.0 } else { (inner.width() - wide).max(0.0) / 2.0 };
        set.extend(row.into_iter().map(|(x, y, size_mm, kind, era)| {
            (inner.x0 + across + x, inner.y0 + down + y + tall / 2.0, size_mm, kind, era)
        }));
    }
    (set, left_out)
}
