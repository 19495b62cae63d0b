//! The one font of every sheet, and how wide its words are.
//!
//! The font travels inside the program; no font of the machine is ever looked for, so that a sheet is
//! the same everywhere and its boxes are known before it is drawn.

use std::borrow::Cow;
use std::sync::{Arc, LazyLock};

use resvg::usvg::fontdb::Database;

use super::canvas::PT;

/// The faces that sheets use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Face {
    /// Upright.
    Regular,
    /// Bold.
    Bold,
    /// Slanted: names of water and places.
    Oblique,
}

struct Metrics {
    face: ttf_parser::Face<'static>,
    em: f64,
    /// Widths of the letters that most words are made of, ems: a page is laid out some hundred times over.
    usual: Vec<f64>,
}

/// As many letters as Latin alphabets have, with their marks.
const USUAL: u32 = 0x250;

fn parse(bytes: &'static [u8]) -> Option<Metrics> {
    let face = ttf_parser::Face::parse(bytes, 0).ok()?;
    let em = f64::from(face.units_per_em());
    let usual = (0..USUAL).map(|c| char::from_u32(c).map_or(0.0, |c| advance(&face, em, c))).collect();
    Some(Metrics { face, em, usual })
}

/// How far a letter moves the pen, ems.
fn advance(face: &ttf_parser::Face<'_>, em: f64, c: char) -> f64 {
    let glyph = face.glyph_index(c).unwrap_or_default();
    f64::from(face.glyph_hor_advance(glyph).unwrap_or_default()) / em
}

static FACES: LazyLock<[Option<Metrics>; 3]> = LazyLock::new(|| {
    use dejavu::sans_condensed as font;
    [parse(font::regular()), parse(font::bold()), parse(font::oblique())]
});

/// The font for the renderers that make PNG and PDF.
pub(super) static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
    use dejavu::sans_condensed as font;
    let mut fonts = Database::new();
    for bytes in [font::regular(), font::bold(), font::oblique()] {
        fonts.load_font_data(bytes.to_vec());
    }
    Arc::new(fonts)
});

fn index(face: Face) -> usize {
    match face {
        Face::Regular => 0,
        Face::Bold => 1,
        Face::Oblique => 2,
    }
}

/// A face and its units to the em.
pub(super) fn face(which: Face) -> Option<(&'static ttf_parser::Face<'static>, f64)> {
    FACES[index(which)].as_ref().map(|metrics| (&metrics.face, metrics.em))
}

/// Width of a line of text, in canvas units, at `size_pt`. Kerning is left out: it only narrows.
pub(super) fn width(text: &str, face: Face, size_pt: f64) -> f64 {
    ems(0.0, text, face) * size_pt * PT
}

/// Width of a line, ems, of which what stands before `text` is `before` wide.
fn ems(before: f64, text: &str, face: Face) -> f64 {
    match &FACES[index(face)] {
        Some(Metrics { face, em, usual }) => text.chars().fold(before, |ems, c| {
            ems + usual.get(c as usize).copied().unwrap_or_else(|| advance(face, *em, c))
        }),
        // Cannot happen with a font that is part of the program; wide enough to be safe.
        None => before + text.chars().count() as f64 * 0.7,
    }
}

/// How far the ink of a line of text reaches above its baseline and below it, in canvas units.
pub(super) fn ink(text: &str, face: Face, size_pt: f64) -> (f64, f64) {
    let Some((face, em)) = self::face(face) else { return (size_pt * PT, size_pt * PT * 0.3) };
    let boxes = text.chars().filter_map(|c| face.glyph_bounding_box(face.glyph_index(c)?));
    let (rise, fall) = boxes.fold((0i16, 0i16), |(rise, fall), glyph| {
        (rise.max(glyph.y_max), fall.max(glyph.y_min.saturating_neg()))
    });
    let units = |height: i16| f64::from(height) / em * size_pt * PT;
    (units(rise), units(fall))
}

/// Breaks a text into lines no wider than `limit` canvas units. A word that is too wide alone is cut.
pub(super) fn wrap(text: &str, face: Face, size_pt: f64, limit: f64) -> Vec<String> {
    let mut lines = Vec::new();
    // A line, and its width in ems: a page is laid out some hundred times over.
    let (mut line, mut wide) = (String::new(), 0.0);
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        for piece in pieces(word, face, size_pt, limit) {
            let longer = ems(ems(wide, " ", face), &piece, face);
            if !line.is_empty() && longer * size_pt * PT <= limit {
                line.push(' ');
                line.push_str(&piece);
                wide = longer;
            } else {
                if !line.is_empty() {
                    lines.push(std::mem::take(&mut line));
                }
                wide = ems(0.0, &piece, face);
                line.push_str(&piece);
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// A word whole, or cut where it would not fit a line.
fn pieces(word: &str, face: Face, size_pt: f64, limit: f64) -> Vec<Cow<'_, str>> {
    if width(word, face, size_pt) <= limit {
        return vec![Cow::Borrowed(word)];
    }
    let mut out = vec![String::new()];
    for c in word.chars() {
        let last = out.len() - 1;
        let longer = format!("{}{c}", out[last]);
        if out[last].is_empty() || width(&longer, face, size_pt) <= limit {
            out[last] = longer;
        } else {
            out.push(c.to_string());
        }
    }
    out.into_iter().map(Cow::Owned).collect()
}
