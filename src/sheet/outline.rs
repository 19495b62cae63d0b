//! The SVG with its letters as shapes, for pages of HTML whose readers may lack the font: each letter's
//! outline is written once and used by reference, so that the file grows little.
//!
//! It works on the SVG that [`super::canvas::Canvas`] writes, where each text is one line.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use ttf_parser::OutlineBuilder;

use super::Sheet;
use super::text::{Face, face};
use crate::fault::{Fault, Result};

/// A text's place and looks, as the canvas wrote them.
struct Text<'a> {
    attributes: &'a str,
    words: String,
}

/// Letters used so far, by face and glyph, with their outlines.
type Letters = BTreeMap<(usize, u16), String>;

/// The sheet's SVG with its text turned to outlines. Title and description are kept for readers that speak,
/// and every id begins with the sheet's name, since several sheets stand in one page.
/// Faults when the sheet's SVG is not the canvas's own.
pub fn outlined(sheet: &Sheet) -> Result<String> {
    let mut letters = Letters::new();
    let mut body = String::with_capacity(sheet.svg.len() * 2);
    let mut head = String::new();
    for line in sheet.svg.lines() {
        let line = line.trim_start();
        match read(line) {
            Some(text) => draw(&text, sheet, &mut letters, &mut body),
            None => {
                let line = line.replacen(" id=\"", &format!(" id=\"{}-", sheet.name), 1);
                let line = line.replacen("<use href=\"#", &format!("<use href=\"#{}-", sheet.name), 1);
                body.push_str(&line);
                body.push('\n');
            }
        }
        if line.starts_with("<desc>") {
            head = std::mem::take(&mut body);
        }
    }
    if head.is_empty() {
        return Err(Fault::new("sheet-picture").with("why", "the SVG has no description"));
    }
    let mut out = head;
    out.push_str("<defs>\n");
    for ((face, glyph), path) in &letters {
        let _ = writeln!(out, r#"<path id="{}-{face}-{glyph}" d="{path}"/>"#, sheet.name);
    }
    out.push_str("</defs>\n");
    out.push_str(&body);
    Ok(out)
}

fn read(line: &str) -> Option<Text<'_>> {
    let rest = line.strip_prefix("<text ")?;
    let (attributes, rest) = rest.split_once('>')?;
    let words = rest.strip_suffix("</text>")?;
    let words = words.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&");
    Some(Text { attributes, words })
}

impl Text<'_> {
    fn attribute(&self, name: &str) -> Option<&str> {
        let start = self.attributes.find(&format!("{name}=\"")).filter(|at| {
            // "x" must not be found at the end of a longer name.
            *at == 0 || self.attributes.as_bytes()[at - 1] == b' '
        })?;
        self.attributes[start + name.len() + 2..].split('"').next()
    }

    fn number(&self, name: &str) -> f64 {
        self.attribute(name).and_then(|value| value.parse().ok()).unwrap_or(0.0)
    }
}

fn draw(text: &Text<'_>, sheet: &Sheet, letters: &mut Letters, out: &mut String) {
    let which = match (text.attribute("font-weight"), text.attribute("font-style")) {
        (Some("bold"), _) => Face::Bold,
        (_, Some("oblique")) => Face::Oblique,
        _ => Face::Regular,
    };
    let Some((font, em)) = face(which) else { return };
    let scale = text.number("font-size") / em;
    // Letters with the distance of each from the start, in units of the font.
    let mut along = 0.0;
    let mut row: Vec<(u16, f64)> = Vec::new();
    for c in text.words.chars() {
        let glyph = font.glyph_index(c).unwrap_or_default();
        if !c.is_whitespace() {
            row.push((glyph.0, along));
            letters.entry((which as usize, glyph.0)).or_insert_with(|| {
                let mut path = Path::default();
                let _ = font.outline_glyph(glyph, &mut path);
                path.0
            });
        }
        along += f64::from(font.glyph_hor_advance(glyph).unwrap_or_default());
    }
    let shift = match text.attribute("text-anchor") {
        Some("middle") => -along / 2.0,
        Some("end") => -along,
        _ => 0.0,
    };
    let (x, y) = (text.number("x"), text.number("y"));
    let turn = if text.attribute("transform").is_some() { " rotate(-90)" } else { "" };
    let place = format!("translate({x} {y}){turn} scale({scale:.5} -{scale:.5})");
    let mut pass = |look: String| {
        let _ = write!(out, r#"<g transform="{place}"{look}>"#);
        for (glyph, along) in &row {
            let x = (along + shift).round();
            let _ = write!(out, r##"<use href="#{}-{}-{glyph}" x="{x}"/>"##, sheet.name, which as usize);
        }
        out.push_str("</g>\n");
    };
    // All of the halo first, so that no letter's halo lies on its neighbour.
    if let Some(halo) = text.attribute("stroke") {
        let width = (text.number("stroke-width") / scale).round();
        pass(format!(r#" fill="{halo}" stroke="{halo}" stroke-width="{width}" stroke-linejoin="round""#));
    }
    pass(format!(r#" fill="{}""#, text.attribute("fill").unwrap_or("#000000")));
}

/// An outline as path data, in whole units of the font.
#[derive(Default)]
struct Path(String);

impl Path {
    fn step(&mut self, letter: char, numbers: &[f32]) {
        self.0.push(letter);
        for (index, number) in numbers.iter().enumerate() {
            let number = number.round() as i32;
            let space = if index == 0 || number < 0 { "" } else { " " };
            let _ = write!(self.0, "{space}{number}");
        }
    }
}

impl OutlineBuilder for Path {
    fn move_to(&mut self, x: f32, y: f32) {
        self.step('M', &[x, y]);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.step('L', &[x, y]);
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.step('Q', &[x1, y1, x, y]);
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.step('C', &[x1, y1, x2, y2, x, y]);
    }
    fn close(&mut self) {
        self.0.push('Z');
    }
}
