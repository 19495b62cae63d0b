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
    /// `a2` to `a5`, or `WIDTHxHEIGHT` in millimetres, from 60 to 1200.
    pub fn named(name: &str) -> Result<Self> {
        let folded = name.trim().to_lowercase();
        let (width_mm, height_mm) = match folded.as_str() {
            "a2" => (420.0, 594.0),
            "a3" => (297.0, 420.0),
            "a4" => (210.0, 297.0),
            "a5" => (148.0, 210.0),
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
                return Ok(Self { width_mm, height_mm, named: false });
            }
        };
        Ok(Self { width_mm, height_mm, named: true })
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
