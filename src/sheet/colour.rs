//! Colours as styles write them, and how far one stands from another.

use std::fmt;

use serde::Deserialize;

use crate::fault::Fault;

/// An opaque sRGB colour, written `#RRGGBB`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(try_from = "String")]
pub(super) struct Colour(pub [u8; 3]);

impl TryFrom<String> for Colour {
    type Error = Fault;

    fn try_from(text: String) -> Result<Self, Fault> {
        let wrong = || Fault::new("sheet-colour").with("text", &text);
        let digits = text.strip_prefix('#').filter(|d| d.len() == 6 && d.is_ascii()).ok_or_else(wrong)?;
        let part = |at: usize| u8::from_str_radix(&digits[at..at + 2], 16).map_err(|_| wrong());
        Ok(Self([part(0)?, part(2)?, part(4)?]))
    }
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [r, g, b] = self.0;
        write!(f, "#{r:02X}{g:02X}{b:02X}")
    }
}

impl Colour {
    /// Linear light, 0 to 1 (IEC 61966-2-1).
    pub fn linear(self) -> [f64; 3] {
        self.0.map(|v| {
            let v = f64::from(v) / 255.0;
            if v <= 0.04045 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
        })
    }

    /// Relative luminance, 0 to 1 (WCAG 2.2).
    pub fn luminance(self) -> f64 {
        let [r, g, b] = self.linear();
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    /// Contrast ratio with another colour, 1 to 21 (WCAG 2.2).
    pub fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance() + 0.05, other.luminance() + 0.05);
        a.max(b) / a.min(b)
    }

    /// Mixes in `share` of another colour, in linear light: what the eye sees through a thin wash.
    pub fn mixed(self, other: Self, share: f64) -> Self {
        let (a, b) = (self.linear(), other.linear());
        let mut out = [0; 3];
        for i in 0..3 {
            let v = a[i] * (1.0 - share) + b[i] * share;
            let v = if v <= 0.003_130_8 { 12.92 * v } else { 1.055 * v.powf(1.0 / 2.4) - 0.055 };
            out[i] = (v * 255.0).round().clamp(0.0, 255.0) as u8;
        }
        Self(out)
    }
}
