//! A strip chart of finds along the shore: kilometres along it, pieces per kilometre, by period.
//! plotters lays out the axes; the bars are drawn on the same canvas, in the style's inks and fillings.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Once;

use plotters::prelude::*;
use plotters::style::register_font;

use super::canvas::{Canvas, Look, MM, PT, Rect, xy};
use super::layout::{self, Block, Item, Panel, Plan};
use super::plot::Plot;
use super::shapes::{Era, hatching};
use super::style::{Dye, Filling, Style};
use super::{Sheet, notes};
use crate::analyse::ShoreProfile;
use crate::fault::{Fault, Result};
use crate::study::{Attribute, PublicStudy};
use crate::words::Words;

/// Width of the figure: a journal's full width or a report's page.
const WIDTH_MM: f64 = 190.0;
const FONT: &str = "DejaVu Sans Condensed";

/// plotters keeps fonts by name, once a process.
static REGISTER: Once = Once::new();

/// A bar: from and to along the shore (km), pieces per km by era.
struct Bar {
    from_km: f64,
    to_km: f64,
    by_era: BTreeMap<Era, f64>,
}

/// Draws the finds along the shore (`finds-along-the-shore`).
pub fn shore_figure(profile: &ShoreProfile, study: &PublicStudy, style: Option<&str>) -> Result<Sheet> {
    shore_figure_of(WIDTH_MM, profile, study, style)
}

/// The same for a page of this width in millimetres: its words beside the chart, or below it where that is
/// narrow.
pub(super) fn shore_figure_of(
    width_mm: f64,
    profile: &ShoreProfile,
    study: &PublicStudy,
    style: Option<&str>,
) -> Result<Sheet> {
    let words = Words::of(study.language);
    let style = Style::named(style.unwrap_or(&study.sheets.style))?;
    let (style, panel) = match width_mm {
        width if width < 110.0 => (style.for_paper(width), Panel::Below(1)),
        width if width < WIDTH_MM => (style.for_paper(width), Panel::Below(2)),
        _ => (style, Panel::Beside(1)),
    };
    let bars = bars(profile);
    let title = words.say("sheet-shore-title");
    let stretch = words_length(words, study.shore.stretch_m);
    let detail = words.say_with("sheet-shore-detail", &[("stretch", stretch.into())]);
    let heading = notes::heading(study, words, &title, &detail);
    let blocks = blocks(profile, study, &style, words, &bars);
    // As tall as its words need.
    let plan = (9..40)
        .find_map(|tens| {
            let size = (width_mm, f64::from(tens) * 10.0);
            Plan::lay(size, panel, &style, layout::Words::all(&heading, &blocks))
        })
        .ok_or_else(|| Fault::new("sheet-paper-too-small").with("width", width_mm).with("height", 390))?;
    let mut canvas = Canvas::new(plan.page.0, plan.page.1);
    canvas.rect_with(Rect::new(0.0, 0.0, plan.page.0, plan.page.1), &Look::fill(style.page.paper));
    chart(&mut canvas, plan.frame, &bars, &style, words)?;
    plan.draw(&mut canvas, &style, &heading, &blocks);
    let shown = words.say_with("sheet-shown", &[("n", profile.within.into())]);
    let description = format!("{detail} {shown}");
    Ok(canvas.sheet("finds-along-the-shore", title, description, study))
}

fn words_length(words: &Words, metres: f64) -> String {
    notes::side(words, metres.round().clamp(0.0, f64::from(u32::MAX)) as u32)
}

fn bars(profile: &ShoreProfile) -> Vec<Bar> {
    profile
        .stretches
        .iter()
        .filter(|stretch| stretch.to_m > stretch.from_m)
        .map(|stretch| {
            let km = (stretch.to_m - stretch.from_m) / 1000.0;
            let mut by_era = BTreeMap::new();
            for (period, pieces) in &stretch.by_period {
                if *pieces > 0.0 {
                    *by_era.entry(Era::of(*period)).or_default() += pieces / km;
                }
            }
            Bar { from_km: stretch.from_m / 1000.0, to_km: stretch.to_m / 1000.0, by_era }
        })
        .collect()
}

fn blocks<'a>(
    profile: &ShoreProfile,
    study: &PublicStudy,
    style: &'a Style,
    words: &Words,
    bars: &[Bar],
) -> Vec<Block<'a>> {
    let eras: BTreeSet<Era> = bars.iter().flat_map(|bar| bar.by_era.keys().copied()).collect();
    let told = study.agreement.show.contains(&Attribute::Period);
    let heading = if told { "sheet-legend-colour" } else { "sheet-heading-legend" };
    let mut legend = vec![Item::Heading(words.say(heading))];
    // From the top of the bars down, as the eye reads them.
    for era in eras.iter().rev() {
        let dye = era.dye(&style.periods);
        let sample = Box::new(move |canvas: &mut Canvas, rect: Rect| {
            bar(canvas, Rect { y0: rect.y0 + 15.0, y1: rect.y1 - 15.0, ..rect }, dye, style);
        });
        let label = if told { words.say(era.message()) } else { words.say("sheet-shore-all") };
        legend.push(Item::Key(sample, label));
    }
    if eras.is_empty() {
        legend.push(Item::Note(words.say("sheet-no-finds")));
    }
    let km = words.number(profile.length_m / 1000.0, 1);
    let tolerance = words_length(words, profile.simplify_m);
    let mut read = vec![
        Item::Heading(words.say("sheet-heading-cautions")),
        Item::Note(
            words.say_with("sheet-shore-length", &[("km", km.into()), ("tolerance", tolerance.into())]),
        ),
    ];
    if profile.closed {
        read.push(Item::Note(words.say("sheet-shore-closed")));
    }
    if profile.others > 0 {
        read.push(Item::Note(words.say_with("sheet-shore-others", &[("n", profile.others.into())])));
    }
    let within = words_length(words, study.shore.within_m);
    if !profile.beyond.is_nothing() {
        let values = [("n", profile.beyond.into()), ("within", within.into())];
        read.push(Item::Note(words.say_with("sheet-shore-beyond", &values)));
    }
    if !profile.by_parish_only.is_nothing() {
        read.push(Item::Note(
            words.say_with("sheet-by-parish-only", &[("n", profile.by_parish_only.into())]),
        ));
    }
    read.push(Item::Note(words.say("sheet-no-symbol")));
    let precision = notes::precision_block(study, words);
    vec![
        Block { id: "legend", rank: 0, items: legend },
        precision,
        Block { id: "cautions", rank: 0, items: read },
    ]
}

/// A round top for the axis, and how many steps lead to it.
fn round_top(most: f64) -> (f64, usize) {
    if !(most > 0.0 && most.is_finite()) {
        return (1.0, 2);
    }
    let decade = 10f64.powf(most.log10().floor());
    let step = [0.2, 0.5, 1.0, 2.0]
        .map(|s| s * decade)
        .into_iter()
        .find(|s| most / s <= 5.0)
        .unwrap_or(2.0 * decade);
    let steps = (most / step).ceil().max(1.0);
    (step * steps, steps as usize)
}

fn chart(canvas: &mut Canvas, frame: Rect, bars: &[Bar], style: &Style, words: &Words) -> Result<()> {
    REGISTER.call_once(|| {
        // A font that is part of the program always reads.
        let _ = register_font(FONT, FontStyle::Normal, dejavu::sans_condensed::regular());
    });
    let most = bars.iter().map(|bar| bar.by_era.values().sum::<f64>()).fold(0.0, f64::max);
    let (top, steps) = round_top(most);
    let end = bars.iter().map(|bar| bar.to_km).fold(0.0, f64::max).max(0.1);
    let note = style.note();
    let ink = |colour: super::colour::Colour| RGBColor(colour.0[0], colour.0[1], colour.0[2]);
    let font = |colour| (FONT, note.size_pt * PT).into_font().color(&ink(colour));
    let clear = RGBAColor(0, 0, 0, 0.0);
    let decimals = if top / steps as f64 >= 1.0 { 0 } else { 1 + usize::from(top / (steps as f64) < 0.1) };
    let mut boxes: Vec<(Rect, Era)> = Vec::new();
    let wrong = |why: &dyn std::fmt::Display| Fault::new("sheet-picture").with("why", why);
    canvas_group(canvas, |canvas| {
        let whole = Plot(canvas).into_drawing_area();
        let area = whole.shrink(
            ((frame.x0 - 4.0 * MM) as i32, frame.y0 as i32),
            ((frame.width() + 4.0 * MM) as i32, (frame.height() + 4.0 * MM) as i32),
        );
        let mut chart = ChartBuilder::on(&area)
            .margin_right((2.0 * MM) as i32)
            .margin_top((1.5 * MM) as i32)
            .x_label_area_size((10.0 * MM) as i32)
            .y_label_area_size((13.0 * MM) as i32)
            .build_cartesian_2d(0.0..end, 0.0..top)
            .map_err(|e| wrong(&e))?;
        chart
            .configure_mesh()
            .disable_x_mesh()
            .light_line_style(clear)
            .bold_line_style(ink(style.grid.ink).stroke_width((style.grid.width_pt * PT) as u32))
            .axis_style(ink(style.page.quiet).stroke_width((0.5 * PT) as u32))
            .set_all_tick_mark_size((1.2 * MM) as i32)
            .y_labels(steps + 1)
            .x_labels(12)
            .y_label_formatter(&|value| words.number(*value, decimals))
            .x_label_formatter(&|value| words.number(*value, usize::from(value.fract() != 0.0)))
            .label_style(font(style.page.quiet))
            .axis_desc_style(font(style.page.ink))
            .x_desc(words.say("sheet-shore-along"))
            .y_desc(words.say("sheet-shore-per-km"))
            .draw()
            .map_err(|e| wrong(&e))?;
        for one in bars {
            let mut base = 0.0;
            for (era, height) in &one.by_era {
                let (x0, y1) = chart.backend_coord(&(one.from_km, base));
                let (x1, y0) = chart.backend_coord(&(one.to_km, base + height));
                base += height;
                let rect =
                    Rect { x0: f64::from(x0), y0: f64::from(y0), x1: f64::from(x1), y1: f64::from(y1) };
                boxes.push((rect, *era));
            }
        }
        Ok(())
    })?;
    canvas.bare_group("bars", |canvas| {
        for (rect, era) in boxes {
            // A hair of paper between neighbours.
            let gap = (rect.width() * 0.06).min(0.25 * MM);
            let rect = Rect { x0: rect.x0 + gap, x1: rect.x1 - gap, ..rect };
            if rect.width() >= 1.0 && rect.height() >= 1.0 {
                bar(canvas, rect, era.dye(&style.periods), style);
            }
        }
    });
    Ok(())
}

/// The chart's group, which can fail inside.
fn canvas_group(canvas: &mut Canvas, draw: impl FnOnce(&mut Canvas) -> Result<()>) -> Result<()> {
    let mut outcome = Ok(());
    canvas.bare_group("chart", |canvas| outcome = draw(canvas));
    outcome
}

/// A bar, or its sample, filled as the style fills symbols of that period.
fn bar(canvas: &mut Canvas, rect: Rect, dye: Dye, style: &Style) {
    let edge = 0.35;
    let back = if dye.filling == Filling::Solid { dye.ink } else { style.symbols.open };
    canvas.rect_with(rect, &Look::fill(back));
    let line = Look::line(dye.ink, 0.4);
    match dye.filling {
        Filling::Solid | Filling::Open => {}
        Filling::Left => canvas.lines_with(&hatching(&[rect], 0.5), &line),
        Filling::Lower => canvas.lines_with(&hatching(&[rect], 1.1), &line),
        Filling::Dot => {
            let grey = dye.ink.mixed(style.symbols.open, 0.35);
            canvas.rect_with(rect, &Look::fill(grey));
        }
        Filling::Ruled => {
            let step = 0.7 * MM;
            let count = (rect.height() / step) as usize;
            let lines: Vec<_> = (1..=count)
                .map(|i| rect.y0 + i as f64 * step)
                .filter(|y| *y < rect.y1)
                .map(|y| vec![xy(rect.x0, y), xy(rect.x1, y)])
                .collect();
            canvas.lines_with(&lines, &line);
        }
    }
    let ink = if dye.filling == Filling::Solid { style.symbols.outline.ink } else { dye.ink };
    canvas.rect_with(rect, &Look::line(ink, edge));
}
