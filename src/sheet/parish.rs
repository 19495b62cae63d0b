//! The map of one parish, for a page that is pinned up: zoomed to it, with all that lies round it quiet.

use geo::{BooleanOps as _, BoundingRect as _, MultiPolygon};

use super::base::Base;
use super::canvas::{Canvas, Look, MM, Rect};
use super::labels::Labels;
use super::layout::{ALL, Block, Item, gutter};
use super::notes::precision_block;
use super::style::Style;
use super::themes::{Theme, theme};
use super::view::{Extent, View, rings};
use super::{MapKind, Scene, Sheet, furniture, heights};
use crate::fault::{Fault, Result};
use crate::ground::Parish;
use crate::words::Words;

/// Width of the legend beside the map, millimetres.
const PANEL_MM: f64 = 40.0;
/// How much of the paper lies over what is not the parish.
const VEIL: f64 = 0.72;

/// Draws the finds of one parish by square (or by parish, where no square is shown), without margins: the page
/// that it stands on has them. Millimetres. The scale holds at this size.
pub fn parish_map(scene: &Scene<'_>, parish: &Parish, width_mm: f64, height_mm: f64) -> Result<Sheet> {
    let study = scene.study;
    let words = Words::of(study.language);
    let style = Style::named(&study.sheets.style)?.for_paper(width_mm.min(height_mm));
    let kind = if scene.published.cells().is_empty() { MapKind::Parishes } else { MapKind::Cells };
    let theme = theme(kind, scene, &style, words)?;
    let bounds =
        parish.shape.bounding_rect().ok_or_else(|| Fault::new("sheet-picture").with("why", "empty"))?;
    let gutter = gutter(&style);
    let frame = Rect {
        x0: gutter,
        y0: 0.5 * MM,
        x1: (width_mm - PANEL_MM - 4.0) * MM,
        y1: height_mm * MM - gutter - 0.5 * MM,
    };
    let view = View::new(frame, roomy(Extent::of(bounds)));
    let mut canvas = Canvas::new(width_mm * MM, height_mm * MM);
    let base = Base::new(scene, &style, view).with_contours();
    let mut labels = Labels::new(frame);
    canvas.map("map", &view, |canvas| {
        base.under(canvas);
        theme.under(canvas, &base);
        base.over(canvas, theme.base_names());
        theme.over(canvas, &base, &mut labels);
        base.names(&mut labels, theme.base_names());
        veil(canvas, &view, &style, &parish.shape);
        // Over the veil, which would cut names in two.
        labels.draw(canvas);
    });
    furniture::frame(&mut canvas, &view, &style, words, true);
    panel(&mut canvas, scene, &style, words, theme.as_ref(), view);
    let named = [("parish", parish.name.clone().into())];
    let title = words.say_with("sheet-parish-map", &named);
    let description = words.say_with("sheet-parish-map-shows", &named);
    Ok(canvas.sheet("parish", title, description, study))
}

/// With room round the parish, so that its line does not run along the frame.
fn roomy(extent: Extent) -> Extent {
    let room = extent.width_m().max(extent.height_m()).max(200.0) * 0.05;
    Extent {
        west_m: extent.west_m - room,
        south_m: extent.south_m - room,
        east_m: extent.east_m + room,
        north_m: extent.north_m + room,
    }
}

/// Quiets what lies round the parish, and draws its line.
fn veil(canvas: &mut Canvas, view: &View, style: &Style, shape: &MultiPolygon<f64>) {
    let f = view.frame;
    let frame = geo::Rect::new((f.x0, f.y0), (f.x1, f.y1)).to_polygon();
    let inside = view.polygons(shape);
    let outside = MultiPolygon::new(vec![frame]).difference(&inside);
    canvas.group("veil", &Look::fill(style.page.paper).opacity(VEIL), |c| c.rings(&rings(&outside)));
    canvas.group("parish-line", &Look::line(style.page.ink, 1.3), |c| c.lines(&view.outlines(shape)));
}

/// Legend, scale and precision, beside the map.
fn panel(
    canvas: &mut Canvas,
    scene: &Scene<'_>,
    style: &Style,
    words: &Words,
    theme: &dyn Theme,
    view: View,
) {
    let mut blocks = theme.legend(&view, style, words);
    blocks.push(furniture::scale_block(view, style, words, true));
    blocks.push(precision_block(scene.study, words));
    if let Some(relief) = scene.ground.relief.as_ref().filter(|_| style.relief.contour.is_some())
        && let Some(interval) = heights::interval_m(relief, &view)
    {
        let interval = [("interval", words.number(interval, 0).into())];
        let note = Item::Note(words.say_with("sheet-contours-every", &interval));
        blocks.push(Block { id: "contours", rank: 0, items: vec![note] });
    }
    blocks.push(Block { id: "cautions", rank: 0, items: vec![Item::Note(words.say("sheet-no-symbol"))] });
    let (x, width) = (view.frame.x1 + 4.0 * MM, PANEL_MM * MM);
    let mut y = view.frame.y0;
    canvas.bare_group("panel", |canvas| {
        for block in &blocks {
            let kept = block.kept(ALL);
            block.draw(canvas, style, (x, y), width, &kept);
            y += block.height(style, width, &kept) + 3.4 * MM;
        }
    });
}
