//! A page to draw on, in whole hundredths of a millimetre, that writes a small clean SVG.
//!
//! Coordinates are integers on purpose: a published place is a square, and no digit beyond the print
//! may travel in a file (see `docs/decisions/0040-canvas.md`). Inks are set on groups, so that a shape
//! costs its outline alone.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::Sheet;
pub(super) use super::look::{Anchor, Look, Rect, Type};
use super::placed::Register;
pub(super) use super::placed::Thing;
use super::text::Face;
use super::view::View;
use crate::study::PublicStudy;

/// Canvas units in a millimetre.
pub(super) const MM: f64 = 100.0;
/// Canvas units in a typographic point (1/72 inch).
pub(super) const PT: f64 = 2540.0 / 72.0;

/// A place on the page, units right and down from its upper left corner.
pub(super) type Xy = (i32, i32);

/// The page.
pub(super) struct Canvas {
    width: i32,
    height: i32,
    body: String,
    depth: usize,
    /// Written before the name of each group: maps of one kind on a page have the same groups.
    prefix: String,
    /// Where what is drawn several times over was drawn first.
    shared: BTreeMap<&'static str, Xy>,
    register: Register,
}

impl Canvas {
    /// An empty page of a size in units.
    pub fn new(width: f64, height: f64) -> Self {
        Self {
            width: width.round() as i32,
            height: height.round() as i32,
            body: String::new(),
            depth: 1,
            prefix: String::new(),
            shared: BTreeMap::new(),
            register: Register::default(),
        }
    }

    pub fn size(&self) -> (i32, i32) {
        (self.width, self.height)
    }

    fn line(&mut self, text: &str) {
        for _ in 0..self.depth {
            self.body.push(' ');
        }
        self.body.push_str(text);
        self.body.push('\n');
    }

    /// What is the same on several maps, with the upper left corner of this one: drawn the first time, and shown again
    /// from there the other times. Nothing in it is kept box by box.
    pub fn shared(&mut self, id: &'static str, corner: Rect, draw: impl FnOnce(&mut Self)) {
        let (x, y) = xy(corner.x0, corner.y0);
        if let Some((first_x, first_y)) = self.shared.get(id).copied() {
            let (dx, dy) = (x - first_x, y - first_y);
            return self.line(&format!(r##"<use href="#{id}" x="{dx}" y="{dy}"/>"##));
        }
        self.shared.insert(id, (x, y));
        // Named for all of the maps, and not for the first.
        let prefix = std::mem::take(&mut self.prefix);
        self.bare_group(id, draw);
        self.prefix = prefix;
    }

    /// A named group with a look that its shapes share. A group that stays empty is not written.
    pub fn group(&mut self, id: &str, look: &Look, draw: impl FnOnce(&mut Self)) {
        self.group_with(id, &look.attributes(), draw);
    }

    /// A named group without a look.
    pub fn bare_group(&mut self, id: &str, draw: impl FnOnce(&mut Self)) {
        self.group_with(id, "", draw);
    }

    /// A named group with data that a test or a program can read.
    pub fn group_with(&mut self, id: &str, attributes: &str, draw: impl FnOnce(&mut Self)) {
        let before = self.body.len();
        self.register.enter(id);
        let id = if id.is_empty() { String::new() } else { format!(r#" id="{}{id}""#, self.prefix) };
        self.line(&format!("<g{id}{attributes}>"));
        let opened = self.body.len();
        self.depth += 1;
        draw(self);
        self.depth -= 1;
        self.register.leave();
        if self.body.len() == opened {
            self.body.truncate(before);
        } else {
            self.line("</g>");
        }
    }

    /// A named group for what belongs in the frame of a map: its boxes are kept as that map's.
    pub fn map(&mut self, id: &str, view: &View, draw: impl FnOnce(&mut Self)) {
        self.register.open_map(view.frame, view.unit_m);
        self.bare_group(id, draw);
        self.register.close_map();
    }

    /// The same for one of several maps: the names of groups inside begin with its own.
    pub fn one_of_several_maps(&mut self, id: &str, view: &View, draw: impl FnOnce(&mut Self)) {
        self.map(id, view, |canvas| {
            canvas.prefix = format!("{id}-");
            draw(canvas);
            canvas.prefix.clear();
        });
    }

    /// Keeps the box of something that is drawn in parts: a symbol, a figure.
    pub fn note(&mut self, thing: Thing, name: &str, rect: Rect) {
        self.register.note(thing, name, rect);
    }

    /// One shape of several closed rings (holes by the even-odd rule), in the look of its group.
    pub fn rings(&mut self, rings: &[Vec<Xy>]) {
        self.path(rings, true, "");
    }

    /// One shape of several closed rings with a look of its own.
    pub fn rings_with(&mut self, rings: &[Vec<Xy>], look: &Look) {
        self.path(rings, true, &look.attributes());
    }

    /// Lines, in the look of their group.
    pub fn lines(&mut self, lines: &[Vec<Xy>]) {
        self.path(lines, false, "");
    }

    /// Lines with a look of their own.
    pub fn lines_with(&mut self, lines: &[Vec<Xy>], look: &Look) {
        self.path(lines, false, &look.attributes());
    }

    fn path(&mut self, parts: &[Vec<Xy>], closed: bool, attributes: &str) {
        let data = path_data(parts, closed);
        if !data.is_empty() {
            let rule = if closed && parts.len() > 1 { r#" fill-rule="evenodd""# } else { "" };
            self.line(&format!(r#"<path{attributes}{rule} d="{data}"/>"#));
        }
    }

    /// A rectangle, in the look of its group.
    pub fn rect(&mut self, rect: Rect) {
        self.rect_with_attributes(rect, "");
    }

    /// A rectangle with a look of its own.
    pub fn rect_with(&mut self, rect: Rect, look: &Look) {
        self.rect_with_attributes(rect, &look.attributes());
    }

    fn rect_with_attributes(&mut self, rect: Rect, attributes: &str) {
        let [x0, y0, x1, y1] = [rect.x0, rect.y0, rect.x1, rect.y1].map(|v| v.round() as i32);
        self.line(&format!(
            r#"<rect{attributes} x="{x0}" y="{y0}" width="{}" height="{}"/>"#,
            x1 - x0,
            y1 - y0
        ));
    }

    /// A circle.
    pub fn circle_with(&mut self, x: f64, y: f64, radius: f64, look: &Look) {
        let [x, y, radius] = [x, y, radius].map(|v| v.round() as i32);
        self.line(&format!(r#"<circle{} cx="{x}" cy="{y}" r="{radius}"/>"#, look.attributes()));
    }

    /// A picture (PNG bytes) stretched over a box.
    pub fn picture(&mut self, rect: Rect, png: &[u8]) {
        use base64::Engine as _;
        let data = base64::engine::general_purpose::STANDARD.encode(png);
        let [x, y, w, h] = [rect.x0, rect.y0, rect.width(), rect.height()].map(|v| v.round() as i32);
        self.line(&format!(
            r#"<image x="{x}" y="{y}" width="{w}" height="{h}" preserveAspectRatio="none" href="data:image/png;base64,{data}"/>"#
        ));
    }

    /// A line of text with its baseline at a point.
    pub fn text(&mut self, x: f64, y: f64, text: &str, look: &Type) {
        self.register.note(Thing::Text, text, look.ink_box(x, y, text));
        let (x, y) = (x.round() as i32, y.round() as i32);
        let mut attributes =
            format!(r#" x="{x}" y="{y}" font-size="{}" fill="{}""#, (look.size_pt * PT).round(), look.ink);
        match look.face {
            Face::Regular => {}
            Face::Bold => attributes.push_str(r#" font-weight="bold""#),
            Face::Oblique => attributes.push_str(r#" font-style="oblique""#),
        }
        match look.anchor {
            Anchor::Start => {}
            Anchor::Middle => attributes.push_str(r#" text-anchor="middle""#),
            Anchor::End => attributes.push_str(r#" text-anchor="end""#),
        }
        if let Some((halo, width_pt)) = look.halo {
            let width = (width_pt * 2.0 * PT).round();
            let _ = write!(
                attributes,
                r#" stroke="{halo}" stroke-width="{width}" stroke-linejoin="round" paint-order="stroke""#
            );
        }
        if look.upright {
            let _ = write!(attributes, r#" transform="rotate(-90 {x} {y})""#);
        }
        self.line(&format!("<text{attributes}>{}</text>", escaped(text)));
    }

    /// The finished page. `name` is its file name without ending.
    pub fn sheet(self, name: &str, title: String, description: String, study: &PublicStudy) -> Sheet {
        let svg = self.svg(&format!("{}: {title}", study.title), &description, study.language.code());
        Sheet {
            name: name.to_owned(),
            title,
            description,
            width_mm: f64::from(self.width) / MM,
            height_mm: f64::from(self.height) / MM,
            svg,
            placed: self.register.placed,
            maps: self.register.maps,
        }
    }

    /// The page as SVG. `language` is a code of ISO 639-1.
    fn svg(&self, title: &str, description: &str, language: &str) -> String {
        let (width, height) = (self.width, self.height);
        format!(
            concat!(
                r#"<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" "#,
                r#"viewBox="0 0 {width} {height}" xml:lang="{language}" role="img" "#,
                r#"font-family="'DejaVu Sans Condensed','DejaVu Sans','Liberation Sans Narrow',sans-serif" "#,
                "font-stretch=\"condensed\">\n",
                " <title>{title}</title>\n <desc>{description}</desc>\n{body}</svg>\n"
            ),
            w = f64::from(width) / MM,
            h = f64::from(height) / MM,
            width = width,
            height = height,
            language = language,
            title = escaped(title),
            description = escaped(description),
            body = self.body,
        )
    }
}

/// Path data by relative steps, which are short.
fn path_data(parts: &[Vec<Xy>], closed: bool) -> String {
    let mut out = String::new();
    let mut pen: Xy = (0, 0);
    for part in parts.iter().filter(|part| part.len() >= if closed { 3 } else { 2 }) {
        let start = part[0];
        let _ = write!(out, "M{} {}l", start.0, start.1);
        pen = start;
        let mut first = true;
        let body =
            if closed && part[part.len() - 1] == start { &part[1..part.len() - 1] } else { &part[1..] };
        for &(x, y) in body {
            let (dx, dy) = (x - pen.0, y - pen.1);
            pen = (x, y);
            let space = if first || dx < 0 { "" } else { " " };
            let between = if dy < 0 { "" } else { " " };
            let _ = write!(out, "{space}{dx}{between}{dy}");
            first = false;
        }
        if closed {
            out.push('z');
        }
    }
    let _ = pen;
    out
}

/// Text for XML.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // Characters that XML 1.0 does not allow at all.
            c if (c < ' ' && !matches!(c, '\t' | '\n' | '\r')) || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => out.push(c),
        }
    }
    out
}

/// Whole canvas units.
pub(super) fn xy(x: f64, y: f64) -> Xy {
    (x.round() as i32, y.round() as i32)
}
