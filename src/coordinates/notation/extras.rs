//! What people and devices write behind a place: its height, how far off it may be, the side of its square.

use std::sync::LazyLock;

use regex::Regex;

/// What was found behind a place, metres.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Extras {
    /// "alt 24.7 m", or a third figure with its unit.
    pub height_m: Option<f64>,
    /// "± 12 m".
    pub stated_m: Option<f64>,
    /// "(2 km)": the side of the square, where the reference alone reads as a smaller one.
    pub side_m: Option<f64>,
}

/// The forms, each at the end of the text: the figures, and in the last perhaps "k" of a unit.
const FORMS: [&str; 4] = [
    // ± 12 m, +/- 12m
    r"(?i)[\s,;(]*(?:±|\+\s?/\s?-|\+-)\s?(?P<stated>\d+(?:[.,]\d+)?)\s?m\)?$",
    // alt 24.7 m, h=24,7, elevation: 12m
    r"(?i)[\s,;(]+(?:alt(?:itude)?|h(?:eight)?|ele(?:v(?:ation)?)?|hauteur|z)\.?\s?[:=]?\s?(?P<height>-?\d+(?:[.,]\d+)?)\s?m?\)?$",
    // 52.658, 1.716, 24.7 m
    r"(?i)\s?[,;]\s?(?P<height>-?\d+(?:[.,]\d+)?)\s?m$",
    // (2 km), (500 m)
    r"(?i)\s?\((?P<side>[125]0{0,4})\s?(?P<kilo>k?)m\)$",
];

#[allow(clippy::expect_used, reason = "fixed patterns, which a test compiles")]
static PATTERNS: LazyLock<[Regex; 4]> =
    LazyLock::new(|| FORMS.map(|form| Regex::new(form).expect("a pattern")));

/// Cuts off what stands behind a place: what is left, and what it was.
pub fn split(text: &str) -> (&str, Extras) {
    let mut extras = Extras::default();
    let mut rest = text;
    // A look before the patterns: most places end in a figure or a hemisphere's letter.
    if !text.ends_with(['m', 'M', ')']) && !text.contains(|c: char| c.is_alphabetic() && !"NSEWO".contains(c))
    {
        return (rest, extras);
    }
    while let Some(found) = PATTERNS.iter().find_map(|pattern| pattern.captures(rest)) {
        let number =
            |name: &str| found.name(name).and_then(|m| m.as_str().replace(',', ".").parse::<f64>().ok());
        let kilo = found.name("kilo").is_some_and(|kilo| !kilo.is_empty());
        let slot = [
            (number("stated"), &mut extras.stated_m),
            (number("height"), &mut extras.height_m),
            (number("side").map(|side| if kilo { side * 1000.0 } else { side }), &mut extras.side_m),
        ];
        let Some((value, slot)) = slot.into_iter().find(|(value, _)| value.is_some()) else { break };
        if slot.is_some() {
            break;
        }
        *slot = value;
        let start = found.get(0).map_or(0, |whole| whole.start());
        rest = &rest[..start];
    }
    (rest, extras)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_behind_a_place() {
        let of = |text| {
            let (rest, Extras { height_m, stated_m, side_m }) = split(text);
            (rest, height_m, stated_m, side_m)
        };
        assert_eq!(of("52.658, 1.716, 24.7 m"), ("52.658, 1.716", Some(24.7), None, None));
        assert_eq!(of("52.658, 1.716 alt 24,7m"), ("52.658, 1.716", Some(24.7), None, None));
        assert_eq!(of("OV 523 412 h=-3"), ("OV 523 412", Some(-3.0), None, None));
        assert_eq!(of("OV 5234 4123 ± 12 m"), ("OV 5234 4123", None, Some(12.0), None));
        assert_eq!(of("52.6N 1.7E, 24 m (+/- 8 m)"), ("52.6N 1.7E", Some(24.0), Some(8.0), None));
        assert_eq!(of("OV 52 40 (2 km)"), ("OV 52 40", None, None, Some(2000.0)));
        for plain in ["OV 523 412", "52.658, 1.716", "651409, 313177", "E 651409 m N 313177", ""] {
            assert_eq!(of(plain), (plain, None, None, None));
        }
    }
}
