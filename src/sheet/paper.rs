//! Paper by name.

use crate::fault::{Fault, Result};

/// A paper: millimetres, and whether it may be turned to suit the map.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Paper {
    pub width_mm: f64,
    pub height_mm: f64,
    /// A named paper is turned as the map needs, and its scale may be printed as a ratio; a size given
    /// in figures is kept (a journal's image area, which the printer may reduce).
    pub named: bool,
}

impl Paper {
    /// `a2` to `a5`; `figure-wide`, `figure-tall`, `figure-column`; or `WIDTHxHEIGHT` in millimetres, from 60
    /// to 1200.
    pub fn named(name: &str) -> Result<Self> {
        let folded = name.trim().to_lowercase();
        let (width_mm, height_mm) = match folded.as_str() {
            "a2" => (420.0, 594.0),
            "a3" => (297.0, 420.0),
            "a4" => (210.0, 297.0),
            "a5" => (148.0, 210.0),
            // Image areas that journals ask for: across a page (Archaeologia Cantiana), a page (Archaeology in New
            // Zealand), and one column of two.
            "figure-wide" => return Ok(Self::kept(170.0, 105.0)),
            "figure-tall" => return Ok(Self::kept(110.0, 162.0)),
            "figure-column" => return Ok(Self::kept(80.0, 120.0)),
            _ => {
                let size =
                    folded.trim_end_matches("mm").trim_end().split_once(['x', '×']).and_then(|(w, h)| {
                        let w: f64 = w.trim().parse().ok()?;
                        let h: f64 = h.trim().parse().ok()?;
                        let fits = |side: f64| (60.0..=1200.0).contains(&side);
                        (fits(w) && fits(h)).then_some((w, h))
                    });
                let (width_mm, height_mm) =
                    size.ok_or_else(|| Fault::new("sheet-paper-unknown").with("name", name))?;
                return Ok(Self::kept(width_mm, height_mm));
            }
        };
        Ok(Self { width_mm, height_mm, named: true })
    }

    /// A size that is kept as it is.
    fn kept(width_mm: f64, height_mm: f64) -> Self {
        Self { width_mm, height_mm, named: false }
    }

    /// The ways it may lie.
    pub fn ways(self) -> Vec<(f64, f64)> {
        if self.named {
            vec![(self.width_mm, self.height_mm), (self.height_mm, self.width_mm)]
        } else {
            vec![(self.width_mm, self.height_mm)]
        }
    }
}
