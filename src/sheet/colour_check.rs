//! Holds every style to what its inks must do: be told apart by everyone, and be read.
//!
//! Difference: CIEDE2000 (CIE 142-2001), checked on pairs of Sharma, Wu and Dalal 2005, "The CIEDE2000
//! Color-Difference Formula". Sight: Machado, Oliveira and Fernandes 2009, severity 1, applied in linear
//! light. Contrast: WCAG 2.2.

use super::colour::Colour;
use super::style::{Filling, STYLES, Style};

type Lab = [f64; 3];

/// CIE L*a*b* under D65 from linear sRGB.
fn lab(linear: [f64; 3]) -> Lab {
    let [r, g, b] = linear.map(|v| v.clamp(0.0, 1.0));
    let f = |t: f64| if t > 216.0 / 24_389.0 { t.cbrt() } else { (24_389.0 / 27.0 * t + 16.0) / 116.0 };
    let x = f((0.412_456_4 * r + 0.357_576_1 * g + 0.180_437_5 * b) / 0.950_47);
    let y = f(0.212_672_9 * r + 0.715_152_2 * g + 0.072_175 * b);
    let z = f((0.019_333_9 * r + 0.119_192 * g + 0.950_304_1 * b) / 1.088_83);
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

fn ciede2000([l1, a1, b1]: Lab, [l2, a2, b2]: Lab) -> f64 {
    let seven = |c: f64| (c.powi(7) / (c.powi(7) + 25f64.powi(7))).sqrt();
    let mean_c = (a1.hypot(b1) + a2.hypot(b2)) / 2.0;
    let stretch = 1.0 + 0.5 * (1.0 - seven(mean_c));
    let (a1, a2) = (a1 * stretch, a2 * stretch);
    let (c1, c2) = (a1.hypot(b1), a2.hypot(b2));
    let hue =
        |a: f64, b: f64| if a == 0.0 && b == 0.0 { 0.0 } else { b.atan2(a).to_degrees().rem_euclid(360.0) };
    let (h1, h2) = (hue(a1, b1), hue(a2, b2));
    let grey = c1 * c2 == 0.0;
    let dh = match h2 - h1 {
        _ if grey => 0.0,
        d if d > 180.0 => d - 360.0,
        d if d < -180.0 => d + 360.0,
        d => d,
    };
    let (dl, dc) = (l2 - l1, c2 - c1);
    let dh_big = 2.0 * (c1 * c2).sqrt() * (dh / 2.0).to_radians().sin();
    let (ml, mc) = ((l1 + l2) / 2.0, (c1 + c2) / 2.0);
    let mh = match (h1 + h2, (h1 - h2).abs()) {
        (sum, _) if grey => sum,
        (sum, apart) if apart <= 180.0 => sum / 2.0,
        (sum, _) if sum < 360.0 => (sum + 360.0) / 2.0,
        (sum, _) => (sum - 360.0) / 2.0,
    };
    let cos = |degrees: f64| degrees.to_radians().cos();
    let t = 1.0 - 0.17 * cos(mh - 30.0) + 0.24 * cos(2.0 * mh) + 0.32 * cos(3.0 * mh + 6.0)
        - 0.20 * cos(4.0 * mh - 63.0);
    let turn = 30.0 * (-((mh - 275.0) / 25.0).powi(2)).exp();
    let sl = 1.0 + 0.015 * (ml - 50.0).powi(2) / (20.0 + (ml - 50.0).powi(2)).sqrt();
    let (sc, sh) = (1.0 + 0.045 * mc, 1.0 + 0.015 * mc * t);
    let rt = -(2.0 * turn).to_radians().sin() * 2.0 * seven(mc);
    let (l, c, h) = (dl / sl, dc / sc, dh_big / sh);
    (l * l + c * c + h * h + rt * c * h).sqrt()
}

/// Normal sight, then protanopia, deuteranopia, tritanopia: matrices on linear light.
const SIGHTS: [(&str, [[f64; 3]; 3], f64); 4] = [
    ("normal", [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]], 15.0),
    (
        "protan",
        [
            [0.152_286, 1.052_583, -0.204_868],
            [0.114_503, 0.786_281, 0.099_216],
            [-0.003_882, -0.048_116, 1.051_998],
        ],
        10.0,
    ),
    (
        "deutan",
        [
            [0.367_322, 0.860_646, -0.227_968],
            [0.280_085, 0.672_501, 0.047_413],
            [-0.011_820, 0.042_940, 0.968_881],
        ],
        10.0,
    ),
    (
        "tritan",
        [
            [1.255_528, -0.076_749, -0.178_779],
            [-0.078_411, 0.930_809, 0.147_602],
            [0.004_733, 0.691_367, 0.303_900],
        ],
        10.0,
    ),
];

fn seen(colour: Colour, sight: &[[f64; 3]; 3]) -> Lab {
    let light = colour.linear();
    lab(sight.map(|row| row[0] * light[0] + row[1] * light[1] + row[2] * light[2]))
}

fn told_apart(what: &str, inks: &[Colour]) {
    for (name, sight, need) in &SIGHTS {
        for (i, a) in inks.iter().enumerate() {
            for b in &inks[i + 1..] {
                let far = ciede2000(seen(*a, sight), seen(*b, sight));
                assert!(far >= *need, "{what}: {a} and {b} are {far:.1} apart in {name} sight");
            }
        }
    }
}

fn grey(colour: Colour) -> Lab {
    let y = colour.luminance();
    lab([y, y, y])
}

fn styles() -> Vec<(&'static str, Style)> {
    STYLES.iter().map(|(name, _)| (*name, Style::named(name).expect("a style reads"))).collect()
}

#[test]
fn ciede2000_agrees_with_its_published_pairs() {
    // Sharma, Wu and Dalal 2005, table 1: pairs 1, 2, 17, 18, 20, 21 and 25.
    for (a, b, expected) in [
        ([50.0, 2.6772, -79.7751], [50.0, 0.0, -82.7485], 2.0425),
        ([50.0, 3.1571, -77.2803], [50.0, 0.0, -82.7485], 2.8615),
        ([50.0, 2.5, 0.0], [73.0, 25.0, -18.0], 27.1492),
        ([50.0, 2.5, 0.0], [61.0, -5.0, 29.0], 22.8977),
        ([50.0, 2.5, 0.0], [58.0, 24.0, 15.0], 19.4535),
        ([50.0, 2.5, 0.0], [50.0, 3.1736, 0.5854], 1.0),
        ([60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644),
    ] {
        assert!((ciede2000(a, b) - expected).abs() < 5e-5, "{a:?} {b:?} {}", ciede2000(a, b));
    }
}

#[test]
fn inks_are_told_apart() {
    for (name, style) in styles() {
        told_apart(&format!("{name} bands"), &style.cells.bands);
        told_apart(&format!("{name} counts"), &style.counts.fills);
        told_apart(&format!("{name} density"), &style.density.fills);
        let p = &style.periods;
        let dyes = [
            p.palaeolithic,
            p.mesolithic,
            p.mesolithic_early_neolithic,
            p.early_neolithic,
            p.neolithic,
            p.late_neolithic_early_bronze_age,
            p.bronze_age,
            p.undated,
        ];
        // Periods of one filling are told apart by ink; others by their filling.
        for filling in
            [Filling::Solid, Filling::Open, Filling::Left, Filling::Lower, Filling::Dot, Filling::Ruled]
        {
            let inks: Vec<Colour> = dyes.iter().filter(|d| d.filling == filling).map(|d| d.ink).collect();
            told_apart(&format!("{name} {filling:?}"), &inks);
            if name == "ink" {
                assert!(filling == Filling::Solid || inks.len() <= 1);
            }
        }
    }
}

#[test]
fn ramps_darken_in_grey_too() {
    for (name, style) in styles() {
        for ramp in [&style.cells.bands[..], &style.counts.fills[..], &style.density.fills[..]] {
            for pair in ramp.windows(2) {
                let far = ciede2000(grey(pair[0]), grey(pair[1]));
                let need = if name == "ink" { 15.0 } else { 9.0 };
                assert!(far >= need, "{name}: {} and {} are {far:.1} apart in grey", pair[0], pair[1]);
                assert!(pair[0].luminance() > pair[1].luminance());
            }
        }
    }
}

#[test]
fn words_can_be_read() {
    for (name, style) in styles() {
        for (what, ink, ground) in [
            ("ink", style.page.ink, style.page.paper),
            ("quiet", style.page.quiet, style.page.paper),
            ("warning", style.page.paper, style.page.warning),
            ("places", style.names.places, style.names.halo),
            ("parishes", style.names.parishes, style.names.halo),
            ("letters", style.concentrations.letter, style.names.halo),
        ] {
            let contrast = ink.contrast(ground);
            assert!(contrast >= 4.5, "{name} {what}: {contrast:.2}");
        }
        for fill in style.counts.fills.iter().chain([&style.counts.none]) {
            let best = fill.contrast(style.page.ink).max(fill.contrast(style.page.paper));
            assert!(best >= 4.5, "{name}: a number on {fill} has {best:.2}");
        }
        let t = &style.text;
        for size in [t.title_pt, t.subtitle_pt, t.heading_pt, t.key_pt, t.note_pt, t.label_pt, t.letter_pt] {
            assert!(size >= 6.5, "{name}: text of {size} pt");
        }
    }
}

#[test]
fn no_line_is_thinner_than_print_keeps() {
    for (name, text) in STYLES {
        for (row, line) in text.lines().enumerate() {
            if let Some((_, after)) = line.split_once("width_pt = ") {
                let number: String = after.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
                let width: f64 = number.parse().expect("a width");
                assert!(width >= 0.25, "{name}, line {}: {width} pt", row + 1);
            }
        }
    }
}

#[test]
fn small_paper_keeps_text_legible() {
    for (_, style) in styles() {
        let small = style.for_paper(80.0);
        assert!(small.text.note_pt >= 6.5 && small.text.label_pt >= 6.5);
    }
}
