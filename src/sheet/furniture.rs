//! Frame, grid figures, scale bar: what every map carries.

use super::canvas::{Anchor, Canvas, Look, MM, Rect, Thing, Type, Xy, xy};
use super::layout::{Block, Item, rank};
use super::north::{self, North};
use super::style::Style;
use super::text::wrap;
use super::view::View;
use crate::words::Words;

/// Round lengths for grids and scale bars: 1, 2 or 5 times a power of ten.
fn round_lengths() -> impl DoubleEndedIterator<Item = f64> {
    (0..=6).flat_map(|power| [1.0, 2.0, 5.0].map(|lead| lead * 10f64.powi(power)))
}

/// Distance between grid lines, metres: the first round one at least 24 mm apart on paper.
pub(super) fn grid_interval(view: &View) -> f64 {
    let room = view.units(1.0) * 1.0;
    round_lengths().find(|metres| metres * room >= 24.0 * MM).unwrap_or(1e7)
}

/// Multiples of `step` between two bounds.
fn multiples(from: f64, to: f64, step: f64) -> impl Iterator<Item = f64> {
    let (first, last) = ((from / step).ceil() as i64, (to / step).floor() as i64);
    (first..=last).map(move |n| n as f64 * step)
}

/// Small crosses where grid lines meet: quiet, inside the map.
pub(super) fn grid_crosses(canvas: &mut Canvas, view: &View, style: &Style) {
    let step = grid_interval(view);
    let f = view.frame;
    let arm = 1.1 * MM;
    let mut lines: Vec<Vec<Xy>> = Vec::new();
    for easting in multiples(view.west_m, view.easting(f.x1), step) {
        for northing in multiples(view.northing(f.y1), view.north_m, step) {
            let (x, y) = (view.x(easting), view.y(northing));
            if f.grown(-2.0 * MM).holds(Rect::new(x, y, 0.0, 0.0)) {
                lines.push(vec![xy(x - arm, y), xy(x + arm, y)]);
                lines.push(vec![xy(x, y - arm), xy(x, y + arm)]);
            }
        }
    }
    canvas.group("grid", &style.grid.look(), |canvas| canvas.lines(&lines));
}

/// A map without ground and without finds says so, in words.
pub(super) fn nothing(canvas: &mut Canvas, view: &View, style: &Style, words: &Words) {
    let f = view.frame;
    canvas.rect_with(f, &Look::fill(style.land.fill));
    let look = style.key().anchored(Anchor::Middle);
    let lines = wrap(&words.say("sheet-nothing"), look.face, look.size_pt, f.width() * 0.7);
    let first = (f.y0 + f.y1) / 2.0 - (lines.len() as f64 - 1.0) / 2.0 * look.lead();
    for (index, line) in lines.iter().enumerate() {
        canvas.text((f.x0 + f.x1) / 2.0, first + index as f64 * look.lead(), line, &look);
    }
}

/// The frame, its ticks and their figures in kilometres of the working grid, where there is ground to tell.
pub(super) fn frame(canvas: &mut Canvas, view: &View, style: &Style, words: &Words, ticks: bool) {
    if !ticks {
        return canvas.group("frame", &style.frame.look(), |canvas| canvas.rect(view.frame));
    }
    let step = grid_interval(view);
    let f = view.frame;
    let tick = 1.2 * MM;
    let decimals = if step >= 1000.0 {
        0
    } else if step >= 100.0 {
        1
    } else {
        2
    };
    let figure = |metres: f64| words.number(metres / 1000.0, decimals);
    canvas.group("frame", &style.frame.look(), |canvas| {
        canvas.rect(f);
        let mut ticks: Vec<Vec<Xy>> = Vec::new();
        for easting in multiples(view.west_m, view.easting(f.x1), step) {
            let x = view.x(easting);
            ticks.push(vec![xy(x, f.y0), xy(x, f.y0 + tick)]);
            ticks.push(vec![xy(x, f.y1 - tick), xy(x, f.y1)]);
        }
        for northing in multiples(view.northing(f.y1), view.north_m, step) {
            let y = view.y(northing);
            ticks.push(vec![xy(f.x0, y), xy(f.x0 + tick, y)]);
            ticks.push(vec![xy(f.x1 - tick, y), xy(f.x1, y)]);
        }
        canvas.lines(&ticks);
    });
    let look = style.note().anchored(Anchor::Middle);
    canvas.bare_group("grid-figures", |canvas| {
        // The first figure of each side says what it counts; a figure that would not fit is left out.
        let mut free = f.x0;
        let mut first = true;
        let base = f.y1 + 1.2 * MM + look.rise();
        for easting in multiples(view.west_m, view.easting(f.x1), step) {
            let text = side_figure(words, "sheet-grid-east", figure(easting), first);
            let (x, half) = (view.x(easting), look.width(&text) / 2.0);
            if x - half >= free && x + half <= f.x1 {
                canvas.text(x, base, &text, &look);
                free = x + half + 2.0 * MM;
                first = false;
            }
        }
        let mut free = f.y1;
        let mut first = true;
        for northing in multiples(view.northing(f.y1), view.north_m, step) {
            let text = side_figure(words, "sheet-grid-north", figure(northing), first);
            let (y, half) = (view.y(northing), look.width(&text) / 2.0);
            if y + half <= free && y - half >= f.y0 {
                canvas.text(f.x0 - 1.2 * MM, y, &text, &look.upright());
                free = y - half - 2.0 * MM;
                first = false;
            }
        }
    });
}

fn side_figure(words: &Words, id: &str, figure: String, first: bool) -> String {
    if first { words.say_with(id, &[("km", figure.into())]) } else { figure }
}

/// Length of the scale bar, metres, and how many parts it has.
pub(super) fn bar_length(view: &View, room: f64) -> (f64, usize) {
    let metres =
        round_lengths().rev().find(|metres| view.units(*metres) <= room.min(46.0 * MM)).unwrap_or(1.0);
    let lead = metres / 10f64.powf(metres.log10().floor() + 1e-9).round().max(1.0);
    let parts = if (lead - 5.0).abs() < 0.5 {
        5
    } else if (lead - 2.0).abs() < 0.5 {
        2
    } else {
        4
    };
    (metres, parts)
}

/// The scale bar with its figures, and an arrow to grid north beside it.
pub(super) fn scale_block<'a>(view: View, style: &'a Style, words: &'a Words, ratio: bool) -> Block<'a> {
    scale_and_north(view, style, words, ratio, North { convergence_deg: None, star: false })
}

/// The scale bar with its figures, and the north arrow beside it.
pub(super) fn scale_and_north<'a>(
    view: View,
    style: &'a Style,
    words: &'a Words,
    ratio: bool,
    north: North,
) -> Block<'a> {
    let look = style.note();
    let height = north.height(&look) + 1.2 * MM;
    let draw = move |canvas: &mut Canvas, rect: Rect| {
        let end_room = look.width(&words.say_with("sheet-km", &[("n", "0.00".into())]));
        let arrow = north::width(words, &look);
        // The last figure stands over the bar's end, its unit beyond.
        let (metres, parts) = bar_length(&view, rect.width() - arrow - 0.75 * end_room - 3.0 * MM);
        let length = view.units(metres);
        let x = rect.x0 + look.width("0") / 2.0 + 0.2 * MM;
        let y = rect.y0 + look.lead() + 0.6 * MM;
        let bar = 1.3 * MM;
        canvas.group_with("scale-bar", &format!(r#" data-metres="{metres}""#), |canvas| {
            let whole = Rect::new(x, y, length, bar);
            canvas.note(Thing::Figure, &format!("scale-bar {metres}"), whole);
            canvas.rect_with(whole, &Look::fill(style.page.paper).with_line(style.page.ink, 0.5));
            for part in (0..parts).step_by(2) {
                let part_length = length / parts as f64;
                canvas.rect_with(
                    Rect::new(x + part as f64 * part_length, y, part_length, bar),
                    &Look::fill(style.page.ink),
                );
            }
            figures(canvas, words, &look, metres, x, y - 0.9 * MM, length);
        });
        if ratio {
            let text = words.say_with("sheet-scale", &[("scale", words.number(view.scale(), 0).into())]);
            canvas.text(x, y + bar + 1.4 * MM + look.rise(), &text, &look);
        }
        canvas.bare_group("north", |canvas| {
            // Near the bar, however wide the column.
            let x = (rect.x1 - arrow / 2.0).min(rect.x0 + 62.0 * MM);
            north.draw(canvas, style, words, &look, x, rect.y0);
        });
    };
    let mut items = vec![Item::Figure(height, Box::new(draw))];
    items.extend(north.words(words).map(|text| Item::Lesser(rank::READING, text)));
    Block { id: "scale", rank: 0, items }
}

fn figures(canvas: &mut Canvas, words: &Words, look: &Type, metres: f64, x: f64, y: f64, length: f64) {
    let in_km = metres >= 1000.0;
    let number = |metres: f64| {
        if in_km {
            let km = metres / 1000.0;
            words.number(km, if km.fract().abs() < 1e-9 { 0 } else { 1 })
        } else {
            words.number(metres, 0)
        }
    };
    let end = words.say_with(
        if in_km { "sheet-km" } else { "sheet-m" },
        &[("n", crate::words::Value::Text(number(metres)))],
    );
    let look = look.anchored(Anchor::Middle);
    canvas.text(x, y, &number(0.0), &look);
    let half = number(metres / 2.0);
    if length > 18.0 * MM && (in_km || (metres / 2.0).fract() == 0.0) {
        canvas.text(x + length / 2.0, y, &half, &look);
    }
    // The unit hangs behind the last figure, which stays over the end of the bar.
    let last = number(metres);
    let start = x + length - look.width(&last) / 2.0;
    canvas.text(start, y, &end, &look.anchored(Anchor::Start));
}
