//! Styles: looks only (inks, widths, sizes of text and symbols), from the TOML files in `styles/`,
//! which travel inside the program. Described in `docs/styles.md`.

use serde::Deserialize;

use super::canvas::{Look, Type};
use super::colour::Colour;
use crate::fault::{Fault, Result};

/// Each style by its name.
pub(super) const STYLES: [(&str, &str); 3] = [
    ("colour", include_str!("../../styles/colour.toml")),
    ("ink", include_str!("../../styles/ink.toml")),
    ("contrast", include_str!("../../styles/contrast.toml")),
];

/// A style.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Style {
    pub page: Page,
    pub text: TextSizes,
    pub sea: Area,
    pub land: Area,
    pub relief: Relief,
    pub beach: Area,
    pub water: Area,
    pub streams: Line,
    pub roads: Line,
    pub parishes: Line,
    pub grid: Line,
    pub frame: Line,
    pub names: Names,
    pub unwalked: Hatching,
    pub cells: Cells,
    pub counts: Counts,
    pub density: Density,
    pub concentrations: Concentrations,
    pub symbols: Symbols,
    pub periods: Periods,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Page {
    pub paper: Colour,
    /// Words and lines that carry the message.
    pub ink: Colour,
    /// Words and lines that stand back.
    pub quiet: Colour,
    /// The mark that a sheet is not for publication.
    pub warning: Colour,
    /// White around the page, millimetres.
    pub margin_mm: f64,
}

/// Sizes in points on A4; larger paper has larger text, and none is under 6.5 points.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TextSizes {
    pub title_pt: f64,
    pub subtitle_pt: f64,
    pub heading_pt: f64,
    pub key_pt: f64,
    pub note_pt: f64,
    pub label_pt: f64,
    pub letter_pt: f64,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Area {
    pub fill: Colour,
    pub line: Option<Line>,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Line {
    pub ink: Colour,
    pub width_pt: f64,
    #[serde(default)]
    pub dash_mm: Vec<f64>,
}

impl Line {
    pub fn look(&self) -> Look {
        Look::line(self.ink, self.width_pt).dashed(&self.dash_mm)
    }
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Relief {
    pub ink: Colour,
    /// Share of ink in the deepest shade, 0 (no shade shown) to 1.
    pub strongest: f64,
    /// Contours of the land, where they are drawn.
    pub contour: Option<Line>,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Names {
    pub places: Colour,
    pub parishes: Colour,
    pub halo: Colour,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Hatching {
    pub line: Line,
    pub spacing_mm: f64,
}

/// Squares by the band of their count, from the lowest band to the highest.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Cells {
    pub bands: [Colour; 4],
    pub outline: Line,
    /// Squares larger than the smallest side are hatched: spacing for each band.
    pub hatch_spacing_mm: [f64; 4],
    pub hatch: Line,
    pub hatch_outline: Line,
}

/// Parishes by classes of their count: none, then from the lowest class to the highest.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Counts {
    pub none: Colour,
    pub fills: [Colour; 5],
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Density {
    /// From the lowest level to the highest.
    pub fills: [Colour; 5],
    pub contour: Line,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Concentrations {
    pub line: Line,
    pub halo: Line,
    pub cells: Colour,
    pub letter: Colour,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Symbols {
    pub outline: Line,
    /// The inside of symbols that are open.
    pub open: Colour,
    /// Size for each band of the count.
    pub sizes_mm: [f64; 4],
    pub square: Line,
}

/// A colour and a way of filling for each group of periods.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Periods {
    pub palaeolithic: Dye,
    pub mesolithic: Dye,
    pub mesolithic_early_neolithic: Dye,
    pub early_neolithic: Dye,
    pub neolithic: Dye,
    pub late_neolithic_early_bronze_age: Dye,
    pub bronze_age: Dye,
    pub undated: Dye,
}

#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Dye {
    pub ink: Colour,
    #[serde(default)]
    pub filling: Filling,
}

/// How a symbol is filled, so that periods are told apart where there is one ink.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Filling {
    /// All over.
    #[default]
    Solid,
    /// The outline alone.
    Open,
    /// The left half.
    Left,
    /// The lower half.
    Lower,
    /// A dot in the middle.
    Dot,
    /// Ruled across.
    Ruled,
}

impl Style {
    /// The style of a name. The fault names those that there are.
    pub fn named(name: &str) -> Result<Self> {
        let Some((_, text)) = STYLES.iter().find(|(known, _)| *known == name.trim()) else {
            let known: Vec<&str> = STYLES.iter().map(|(name, _)| *name).collect();
            return Err(Fault::new("sheet-style-unknown").with("name", name).with("known", known.join(", ")));
        };
        toml::from_str(text).map_err(|e| Fault::new("sheet-style-broken").with("why", e.message()))
    }

    /// The same style with text for a paper whose short side is `short_mm`.
    pub fn for_paper(mut self, short_mm: f64) -> Self {
        let factor = (short_mm / 210.0).sqrt().clamp(0.6, 1.6);
        let text = &mut self.text;
        for size in [
            &mut text.title_pt,
            &mut text.subtitle_pt,
            &mut text.heading_pt,
            &mut text.key_pt,
            &mut text.note_pt,
            &mut text.label_pt,
            &mut text.letter_pt,
        ] {
            *size = (*size * factor * 4.0).round() / 4.0;
            *size = size.max(6.5);
        }
        let margin = &mut self.page.margin_mm;
        *margin = (*margin * factor * factor).round().clamp(3.0, 15.0);
        self
    }

    /// Whether the paper is small, so that white is dear.
    pub fn compact(&self) -> bool {
        self.page.margin_mm < 7.0
    }

    pub fn title(&self) -> Type {
        Type::new(self.text.title_pt, self.page.ink).bold()
    }
    pub fn subtitle(&self) -> Type {
        Type::new(self.text.subtitle_pt, self.page.quiet)
    }
    pub fn heading(&self) -> Type {
        Type::new(self.text.heading_pt, self.page.ink).bold()
    }
    pub fn key(&self) -> Type {
        Type::new(self.text.key_pt, self.page.ink)
    }
    pub fn note(&self) -> Type {
        Type::new(self.text.note_pt, self.page.quiet)
    }
    pub fn label(&self, ink: Colour) -> Type {
        Type::new(self.text.label_pt, ink).haloed(self.names.halo, 1.0)
    }
}
