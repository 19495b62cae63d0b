//! The inset that shows where the study lies: wider land from a public layer, and a box for the sheet's map.

use super::Scene;
use super::canvas::{Canvas, Look, MM, Rect, Thing};
use super::layout::{Block, Item};
use super::style::Style;
use super::view::{Extent, View, rings};
use crate::words::Words;

/// Height of the inset, and the widest it may be for its height.
const TALL: f64 = 30.0 * MM;
const WIDEST: f64 = 1.5;
/// The box of the map is never drawn smaller than this.
const LEAST: f64 = 1.6 * MM;
/// In a corner of the map: how far from the frame, and how far from anything that lies there.
const INSIDE: f64 = 1.8 * MM;
const CLEAR: f64 = 2.5 * MM;
/// Goes before all words do.
const RANK: u8 = super::layout::rank::INSET;

/// Where the inset stands: in a corner of the map where nothing lies, or else in the panel.
pub(super) struct Inset<'a> {
    scene: &'a Scene<'a>,
    style: &'a Style,
    map: View,
    extent: Extent,
}

impl<'a> Inset<'a> {
    /// `None` where the study gives no wider land.
    pub fn new(scene: &'a Scene<'a>, style: &'a Style, map: View) -> Option<Self> {
        let extent = extent(scene, &map)?;
        Some(Self { scene, style, map, extent })
    }

    fn aspect(&self) -> f64 {
        (self.extent.width_m() / self.extent.height_m()).clamp(0.6, WIDEST)
    }

    /// A corner of the map where neither ground nor find lies.
    pub fn corner(&self) -> Option<Rect> {
        let f = self.map.frame;
        let tall = (f.height().min(f.width()) * 0.24).min(34.0 * MM);
        let wide = tall * self.aspect();
        if tall < 12.0 * MM {
            return None;
        }
        let (left, right) = (f.x0 + INSIDE, f.x1 - INSIDE - wide);
        let (top, bottom) = (f.y0 + INSIDE, f.y1 - INSIDE - tall);
        let corners = [(right, bottom), (left, bottom), (right, top), (left, top)];
        corners.map(|(x, y)| Rect::new(x, y, wide, tall)).into_iter().find(|rect| self.is_empty(*rect))
    }

    fn is_empty(&self, rect: Rect) -> bool {
        use geo::Intersects;
        let ground = self.scene.ground;
        let r = rect.grown(CLEAR);
        let (west, east) = (self.map.easting(r.x0), self.map.easting(r.x1));
        let (south, north) = (self.map.northing(r.y1), self.map.northing(r.y0));
        let patch = geo::Rect::new((west, south), (east, north));
        let on_finds = self.scene.published.cells().iter().any(|summary| {
            // A square may be joined with its neighbours into one as large again.
            let square = summary.cell.rect();
            let room = square.width().max(self.map.unit_m * CLEAR);
            let (from, to) = (square.min(), square.max());
            geo::Rect::new((from.x - room, from.y - room), (to.x + room, to.y + room)).intersects(&patch)
        });
        let mut shapes =
            ground.parishes.iter().map(|parish| &parish.shape).chain([&ground.land, &ground.beach]);
        !on_finds
            && !shapes.any(|shape| shape.intersects(&patch))
            && !ground.shore.intersects(&patch.to_polygon())
            && !ground.places.iter().any(|place| patch.intersects(&place.at))
    }

    /// Draws it in a corner of the map.
    pub fn draw(&self, canvas: &mut Canvas, rect: Rect) {
        canvas.bare_group("around", |canvas| {
            canvas.rect_with(rect.grown(0.5 * MM), &Look::fill(self.style.page.paper));
            inset(canvas, self.scene, self.style, View::new(rect, self.extent), self.map);
        });
    }

    /// What it says.
    pub fn words(&self, words: &Words) -> String {
        let km = (self.extent.width_m() / 1000.0).round().max(1.0);
        words.say_with("sheet-around", &[("km", words.number(km, 0).into())])
    }

    /// Its block for the panel.
    pub fn block(self, words: &Words) -> Block<'a> {
        let note = self.words(words);
        let aspect = self.aspect();
        let draw = move |canvas: &mut Canvas, rect: Rect| {
            let wide = (TALL * aspect).min(rect.width());
            let frame = Rect::new(rect.x0, rect.y0 + 0.4 * MM, wide, rect.height() - 1.6 * MM);
            inset(canvas, self.scene, self.style, View::new(frame, self.extent), self.map);
        };
        Block {
            id: "around",
            rank: RANK,
            items: vec![
                Item::Heading(words.say("sheet-heading-around")),
                Item::Figure(TALL + 1.6 * MM, Box::new(draw)),
                Item::Note(note),
            ],
        }
    }
}

/// The wider land and the map, with a little room round them.
fn extent(scene: &Scene<'_>, map: &View) -> Option<Extent> {
    use geo::BoundingRect;
    let around = Extent::of(scene.ground.around.bounding_rect()?);
    let f = map.frame;
    let shown = Extent {
        west_m: map.west_m,
        south_m: map.northing(f.y1),
        east_m: map.easting(f.x1),
        north_m: map.north_m,
    };
    let mut extent = around.with(shown);
    let room = extent.width_m().max(extent.height_m()) * 0.03;
    extent.west_m -= room;
    extent.east_m += room;
    extent.south_m -= room;
    extent.north_m += room;
    Some(extent)
}

fn inset(canvas: &mut Canvas, scene: &Scene<'_>, style: &Style, view: View, map: View) {
    canvas.note(Thing::Figure, "inset", view.frame);
    canvas.rect_with(view.frame, &Look::fill(style.sea.fill));
    let mut land = Look::fill(style.land.fill);
    if let Some(line) = &style.land.line {
        land = land.with_line(line.ink, line.width_pt * 0.5);
    }
    canvas.group("", &land, |canvas| {
        for shape in [&scene.ground.around, &scene.ground.land] {
            canvas.rings(&rings(&view.polygons(shape)));
        }
    });
    canvas.rect_with(view.frame, &style.frame.look());
    let corner = |easting: f64, northing: f64| (view.x(easting), view.y(northing));
    let (x0, y0) = corner(map.west_m, map.north_m);
    let (x1, y1) = corner(map.easting(map.frame.x1), map.northing(map.frame.y1));
    let grow = |from: f64, to: f64| ((LEAST - (to - from)) / 2.0).max(0.0);
    let (wide, tall) = (grow(x0, x1), grow(y0, y1));
    let sheet = Rect { x0: x0 - wide, x1: x1 + wide, y0: y0 - tall, y1: y1 + tall };
    canvas.rect_with(sheet, &Look::line(style.page.paper, 2.2));
    canvas.rect_with(sheet, &Look::line(style.page.ink, 0.9));
}
