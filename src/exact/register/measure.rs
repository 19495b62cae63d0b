//! Lengths, weights and uncertainties, with the unit that the cell or the heading states.

/// A measure as understood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Measure {
    /// In the unit asked for.
    pub value: f64,
    /// The cell states its unit itself.
    pub unit_stated: bool,
    /// The value in the unit it is written in.
    pub written: f64,
}

/// A unit and what one of it is, in the unit asked for.
type Units = &'static [(&'static str, f64)];

const MILLIMETRES: Units = &[
    ("millimetres", 1.0),
    ("millimètres", 1.0),
    ("mm", 1.0),
    ("centimetres", 10.0),
    ("centimètres", 10.0),
    ("cms", 10.0),
    ("cm", 10.0),
    ("inches", 25.4),
    ("inch", 25.4),
    ("in", 25.4),
    ("\"", 25.4),
];
const GRAMS: Units = &[
    ("kilograms", 1000.0),
    ("kg", 1000.0),
    ("grammes", 1.0),
    ("gramme", 1.0),
    ("grams", 1.0),
    ("gram", 1.0),
    ("gms", 1.0),
    ("gm", 1.0),
    ("gr", 1.0),
    ("g", 1.0),
    ("oz", 28.349_523_125),
];
const METRES: Units = &[
    ("kilometres", 1000.0),
    ("km", 1000.0),
    ("metres", 1.0),
    ("mètres", 1.0),
    ("meters", 1.0),
    ("metre", 1.0),
    ("mètre", 1.0),
    ("mtrs", 1.0),
    ("m", 1.0),
    ("feet", 0.3048),
    ("ft", 0.3048),
    ("pieds", 0.3048),
    ("yards", 0.9144),
    ("yds", 0.9144),
    ("yd", 0.9144),
];

/// Greatest length, millimetres. "34 x 22 x 8" gives 34.
pub(super) fn length_mm(text: &str, heading: &str) -> Option<Measure> {
    read(text, MILLIMETRES, || unit_of(heading, MILLIMETRES, &["mm", "cm", "millimètres", "centimètres"]))
}

/// Every figure of "34 x 22 x 8", the greatest first, millimetres; nothing where one cannot be read.
pub(super) fn sides_mm(text: &str, heading: &str) -> Vec<f64> {
    let Some(greatest) = length_mm(text, heading).filter(|length| length.written > 0.0) else {
        return Vec::new();
    };
    let scale = greatest.value / greatest.written;
    let figures = text.split(['x', 'X', '×', '*']).map(|part| {
        let number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
        let part = part.trim();
        let end = part.find(|c: char| !number(c)).unwrap_or(part.len());
        part.get(..end)?.trim_end_matches(['.', ',']).replace(',', ".").parse::<f64>().ok()
    });
    let mut sides: Vec<f64> =
        figures.map(|side| Some(side? * scale)).collect::<Option<_>>().unwrap_or_default();
    sides.sort_by(|a, b| b.total_cmp(a));
    sides
}

/// Weight, grams.
pub(super) fn weight_g(text: &str, heading: &str) -> Option<Measure> {
    read(text, GRAMS, || unit_of(heading, GRAMS, &["kg", "oz"]))
}

/// Uncertainty, metres.
pub(super) fn uncertainty_m(text: &str, heading: &str) -> Option<f64> {
    let measure = read(text, METRES, || unit_of(heading, METRES, &["km", "feet", "ft", "yards", "yds"]))?;
    // Earth's girth: more is a slip of the pen.
    (measure.value > 0.0 && measure.value < 4e7).then_some(measure.value)
}

/// The unit that a heading states as a word of its own; 1 when none.
fn unit_of(heading: &str, units: Units, among: &[&str]) -> f64 {
    let lower = heading.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).collect();
    among
        .iter()
        .find(|unit| words.contains(unit))
        .and_then(|unit| units.iter().find(|(name, _)| name == unit))
        .map_or(1.0, |(_, factor)| *factor)
}

/// Reads the greatest number of a cell, with its unit; one without has that of its heading.
fn read(text: &str, units: Units, heading_factor: impl FnOnce() -> f64) -> Option<Measure> {
    let plain = text.trim();
    if plain.is_empty() {
        return None;
    }
    if let Ok(written) = plain.parse::<f64>() {
        let good = written.is_finite() && written >= 0.0;
        return good.then(|| Measure { value: written * heading_factor(), unit_stated: false, written });
    }
    // "10 m": most measures are a figure and its unit, and need no closer look.
    let end = plain.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(plain.len());
    if let (Ok(written), Some((_, factor))) =
        (plain[..end].parse::<f64>(), units.iter().find(|(name, _)| *name == plain[end..].trim()))
    {
        return Some(Measure { value: written * factor, unit_stated: true, written });
    }
    let mut lower = text.trim().to_lowercase().replace(['\u{a0}', '\u{202f}'], " ");
    for word in [
        "±",
        "+/-",
        "+-",
        "~",
        "<",
        ">",
        "c.",
        "ca.",
        "circa",
        "about",
        "environ",
        "env.",
        "approx.",
        "approx",
        "within",
        "to within",
        "l=",
        "l:",
        "accuracy",
        "précision",
        "gps",
        "max",
        "(",
        ")",
        "à",
    ] {
        lower = lower.replace(word, " ");
    }
    let mut best: Option<f64> = None;
    let mut stated = None;
    for part in lower.split(['x', '×', '*']) {
        let part = part.trim().trim_end_matches('?').trim();
        if part.is_empty() {
            continue;
        }
        let end = part.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ','))).unwrap_or(part.len());
        let number: f64 = part[..end].trim_end_matches(['.', ',']).replace(',', ".").parse().ok()?;
        let unit = part[end..].trim().trim_end_matches('.');
        if !unit.is_empty() {
            let (_, factor) = units.iter().find(|(name, _)| *name == unit)?;
            stated = Some(*factor);
        }
        best = Some(best.map_or(number, |known: f64| known.max(number)));
    }
    let written = best.filter(|number| number.is_finite() && *number >= 0.0)?;
    let value = written * stated.unwrap_or_else(heading_factor);
    Some(Measure { value, unit_stated: stated.is_some(), written })
}

/// Whether a length looks like another unit than it is taken for: longer than any flint tool of the
/// country (400 mm), shorter than a chip (3 mm), or, where only the heading states millimetres, a few
/// with a decimal, as centimetres are written. Rules of thumb, from common practice.
pub(super) fn length_is_unlikely(length: Measure, small_kind: bool) -> bool {
    let as_centimetres = !length.unit_stated
        && length.written == length.value
        && length.value < 12.0
        && length.value.fract() != 0.0;
    length.value > 400.0 || length.value < 3.0 || as_centimetres && !small_kind
}

/// Whether a weight is hardly that of one row of flint: over 20 kg, or nothing.
pub(super) fn weight_is_unlikely(weight: Measure) -> bool {
    weight.value > 20_000.0 || weight.value < 0.01
}

#[cfg(test)]
mod tests {
    use super::{length_is_unlikely, length_mm, sides_mm, uncertainty_m, weight_g};

    #[test]
    fn units_come_from_the_cell_or_the_heading() {
        let length = |text, heading| length_mm(text, heading).map(|m| m.value);
        assert_eq!(length("34", "Length (mm)"), Some(34.0));
        assert_eq!(length("3,4", "Longueur en cm"), Some(34.0));
        assert_eq!(length("3.5 cm", "Length (mm)"), Some(35.0));
        assert_eq!(length("34 x 22 x 8 mm", "Size"), Some(34.0));
        assert_eq!(length("long", "Length"), None);
        assert_eq!(sides_mm("22 x 3,5 x 8 mm", "Size"), [22.0, 8.0, 3.5]);
        assert_eq!(sides_mm("3.4 x 2.2 cm", "Size"), [34.0, 22.0]);
        assert_eq!(sides_mm("34", "Length (cm)"), [340.0]);
        assert_eq!(weight_g("0,5 kg", "Poids").map(|m| m.value), Some(500.0));
        assert_eq!(uncertainty_m("±10 m", "Accuracy"), Some(10.0));
        assert_eq!(uncertainty_m("10m", ""), Some(10.0));
        assert_eq!(uncertainty_m("6", "Précision (m)"), Some(6.0));
        assert_eq!(uncertainty_m("good", ""), None);
        assert!(length_mm("3.4", "Length (mm)").is_some_and(|m| length_is_unlikely(m, false)));
        assert!(length_mm("520", "Length").is_some_and(|m| length_is_unlikely(m, false)));
        assert!(length_mm("34", "Length").is_some_and(|m| !length_is_unlikely(m, false)));
    }
}
