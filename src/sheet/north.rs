//! The north arrow: grid north, and true north beside it.

use super::canvas::{Anchor, Canvas, Look, MM, Rect, Thing, Type, Xy, xy};
use super::style::Style;
use crate::words::Words;

/// True north is drawn apart from grid north from this angle on, degrees; below it the two lines would be one.
const DRAWN_FROM_DEG: f64 = 0.5;
/// Height of the arrow, and how far the star of true north stands from the arrow's foot.
const TALL: f64 = 6.4 * MM;
const STAR_AT: f64 = 8.7 * MM;
const STAR: f64 = 0.75 * MM;

/// Width that the arrow needs at least.
const WIDTH: f64 = 9.0 * MM;

/// Width that the arrow and its words need.
pub(super) fn width(words: &Words, look: &Type) -> f64 {
    words.say("sheet-grid-north-arrow").split(' ').map(|word| look.width(word)).fold(WIDTH, f64::max)
}

/// The north arrow of a map.
#[derive(Debug, Clone, Copy)]
pub(super) struct North {
    /// The bearing of grid north from true north, degrees, where it is known.
    pub convergence_deg: Option<f64>,
    /// Whether there is room for the star of true north; where not, it is said in words alone.
    pub star: bool,
}

impl North {
    /// The angle at which true north is drawn, clockwise from grid north. `None` where it is said alone.
    fn drawn(self) -> Option<f64> {
        self.convergence_deg.map(|angle| -angle).filter(|angle| self.star && angle.abs() >= DRAWN_FROM_DEG)
    }

    /// Room above the arrow that the star of true north takes.
    fn above(self) -> f64 {
        if self.drawn().is_some() { STAR_AT + STAR - TALL } else { 0.0 }
    }

    /// Height of the arrow with the words under it.
    pub fn height(self, look: &Type) -> f64 {
        self.above() + TALL + 0.9 * MM + look.rise() + look.lead()
    }

    /// Where true north lies, in words.
    pub fn words(self, words: &Words) -> Option<String> {
        let angle = self.convergence_deg?;
        let size = angle.abs();
        if size < 0.05 {
            return Some(words.say("sheet-norths-agree"));
        }
        let id = match (self.drawn().is_some(), angle > 0.0) {
            (true, true) => "sheet-true-north-star-west",
            (true, false) => "sheet-true-north-star-east",
            (false, true) => "sheet-true-north-west",
            (false, false) => "sheet-true-north-east",
        };
        Some(words.say_with(id, &[("angle", words.number(size, 1).into())]))
    }

    /// Draws it with the middle of its upper edge at a point.
    pub fn draw(self, canvas: &mut Canvas, style: &Style, words: &Words, look: &Type, x: f64, y: f64) {
        let half = 1.5 * MM;
        let foot = y + self.above() + TALL;
        let (tip, notch) = (xy(x, foot - TALL), xy(x, foot - TALL * 0.22));
        canvas.note(Thing::Figure, "north", Rect::new(x - half, foot - TALL, 2.0 * half, TALL));
        if let Some(angle) = self.drawn() {
            let (sin, cos) = angle.to_radians().sin_cos();
            let at = |length: f64| (x + length * sin, foot - length * cos);
            let (sx, sy) = at(STAR_AT);
            canvas.note(Thing::Figure, "true-north", Rect::new(sx, sy, 0.0, 0.0).grown(STAR));
            let end = at(STAR_AT - STAR);
            let line = vec![xy(x, foot - TALL * 0.22), xy(end.0, end.1)];
            canvas.lines_with(&[line], &Look::line(style.page.ink, 0.4));
            canvas.rings_with(&[star(sx, sy)], &Look::fill(style.page.ink));
        }
        canvas.rings_with(&[vec![tip, xy(x - half, foot), notch]], &Look::fill(style.page.ink));
        canvas.rings_with(
            &[vec![tip, xy(x + half, foot), notch]],
            &Look::fill(style.page.paper).with_line(style.page.ink, 0.4),
        );
        let text = words.say("sheet-grid-north-arrow");
        let look = look.anchored(Anchor::Middle);
        for (index, word) in text.split(' ').enumerate() {
            let base = foot + 0.9 * MM + look.rise() + index as f64 * look.lead() * 0.92;
            canvas.text(x, base, word, &look);
        }
    }
}

/// A five-pointed star.
fn star(x: f64, y: f64) -> Vec<Xy> {
    (0..10)
        .map(|point| {
            let radius = if point % 2 == 0 { STAR } else { STAR * 0.42 };
            let (sin, cos) = (f64::from(point) * std::f64::consts::PI / 5.0).sin_cos();
            xy(x + radius * sin, y - radius * cos)
        })
        .collect()
}
