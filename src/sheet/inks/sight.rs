//! How far apart two colours look, to normal sight, to three kinds of colour blindness and in grey.
//!
//! Difference: CIEDE2000 (CIE 142-2001), checked on the 34 pairs of Sharma, Wu and Dalal 2005, "The CIEDE2000
//! Color-Difference Formula: Implementation Notes, Supplementary Test Data, and Mathematical Observations",
//! Color Research and Application 30(1), table 1. Sight: Machado, Oliveira and Fernandes 2009, "A
//! Physiologically-based Model for Simulation of Color Vision Deficiency", severity 1, in linear light.

use super::super::colour::Colour;

/// CIE L*a*b*.
pub type Lab = [f64; 3];

/// CIE L*a*b* under D65 from linear sRGB.
pub fn lab(linear: [f64; 3]) -> Lab {
    let [r, g, b] = linear.map(|v| v.clamp(0.0, 1.0));
    let f = |t: f64| if t > 216.0 / 24_389.0 { t.cbrt() } else { (24_389.0 / 27.0 * t + 16.0) / 116.0 };
    let x = f((0.412_456_4 * r + 0.357_576_1 * g + 0.180_437_5 * b) / 0.950_47);
    let y = f(0.212_672_9 * r + 0.715_152_2 * g + 0.072_175 * b);
    let z = f((0.019_333_9 * r + 0.119_192 * g + 0.950_304_1 * b) / 1.088_83);
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

/// CIEDE2000 (CIE 142-2001).
pub fn ciede2000([l1, a1, b1]: Lab, [l2, a2, b2]: Lab) -> f64 {
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

/// What two inks need in grey, in the styles that have colour: enough for a photocopy to keep them apart.
pub const GREY_NEED: f64 = 6.0;

/// Normal sight, then protanopia, deuteranopia, tritanopia: matrices on linear light.
pub const SIGHTS: [(&str, [[f64; 3]; 3], f64); 4] = [
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

/// A colour as one kind of sight sees it.
pub fn seen(colour: Colour, sight: &[[f64; 3]; 3]) -> Lab {
    let light = colour.linear();
    lab(sight.map(|row| row[0] * light[0] + row[1] * light[1] + row[2] * light[2]))
}

/// A colour as a photocopier keeps it: its luminance alone.
pub fn grey(colour: Colour) -> Lab {
    let y = colour.luminance();
    lab([y, y, y])
}

/// OKLab lightness, chroma and hue (degrees) as linear sRGB, which may lie outside 0 to 1 (Ottosson 2020, "A
/// perceptual color space for image processing").
pub fn oklch(l: f64, chroma: f64, hue_deg: f64) -> [f64; 3] {
    let (a, b) = (chroma * hue_deg.to_radians().cos(), chroma * hue_deg.to_radians().sin());
    let l_ = l + 0.396_337_777_4 * a + 0.215_803_757_3 * b;
    let m_ = l - 0.105_561_345_8 * a - 0.063_854_172_8 * b;
    let s_ = l - 0.089_484_177_5 * a - 1.291_485_548 * b;
    let [l3, m3, s3] = [l_, m_, s_].map(|v| v * v * v);
    [
        4.076_741_662_1 * l3 - 3.307_711_591_3 * m3 + 0.230_969_929_2 * s3,
        -1.268_438_004_6 * l3 + 2.609_757_401_1 * m3 - 0.341_319_396_5 * s3,
        -0.004_196_086_3 * l3 - 0.703_418_614_7 * m3 + 1.707_614_701 * s3,
    ]
}

/// The nearest sRGB colour of 8 bits; `None` for light that no screen gives.
pub fn shown(linear: [f64; 3]) -> Option<Colour> {
    const SLACK: f64 = 1e-3;
    if linear.iter().any(|v| !(-SLACK..=1.0 + SLACK).contains(v)) {
        return None;
    }
    let part = |v: f64| {
        let v = v.clamp(0.0, 1.0);
        let v = if v <= 0.003_130_8 { 12.92 * v } else { 1.055 * v.powf(1.0 / 2.4) - 0.055 };
        (v * 255.0).round() as u8
    };
    Some(Colour(linear.map(part)))
}

#[test]
fn differences_agree_with_the_published_pairs() {
    #[rustfmt::skip]
    const PAIRS: [([f64; 3], [f64; 3], f64); 34] = [
        ([50.0000, 2.6772, -79.7751], [50.0000, 0.0000, -82.7485], 2.0425),
        ([50.0000, 3.1571, -77.2803], [50.0000, 0.0000, -82.7485], 2.8615),
        ([50.0000, 2.8361, -74.0200], [50.0000, 0.0000, -82.7485], 3.4412),
        ([50.0000, -1.3802, -84.2814], [50.0000, 0.0000, -82.7485], 1.0000),
        ([50.0000, -1.1848, -84.8006], [50.0000, 0.0000, -82.7485], 1.0000),
        ([50.0000, -0.9009, -85.5211], [50.0000, 0.0000, -82.7485], 1.0000),
        ([50.0000, 0.0000, 0.0000], [50.0000, -1.0000, 2.0000], 2.3669),
        ([50.0000, -1.0000, 2.0000], [50.0000, 0.0000, 0.0000], 2.3669),
        ([50.0000, 2.4900, -0.0010], [50.0000, -2.4900, 0.0009], 7.1792),
        ([50.0000, 2.4900, -0.0010], [50.0000, -2.4900, 0.0010], 7.1792),
        ([50.0000, 2.4900, -0.0010], [50.0000, -2.4900, 0.0011], 7.2195),
        ([50.0000, 2.4900, -0.0010], [50.0000, -2.4900, 0.0012], 7.2195),
        ([50.0000, -0.0010, 2.4900], [50.0000, 0.0009, -2.4900], 4.8045),
        ([50.0000, -0.0010, 2.4900], [50.0000, 0.0010, -2.4900], 4.8045),
        ([50.0000, -0.0010, 2.4900], [50.0000, 0.0011, -2.4900], 4.7461),
        ([50.0000, 2.5000, 0.0000], [50.0000, 0.0000, -2.5000], 4.3065),
        ([50.0000, 2.5000, 0.0000], [73.0000, 25.0000, -18.0000], 27.1492),
        ([50.0000, 2.5000, 0.0000], [61.0000, -5.0000, 29.0000], 22.8977),
        ([50.0000, 2.5000, 0.0000], [56.0000, -27.0000, -3.0000], 31.9030),
        ([50.0000, 2.5000, 0.0000], [58.0000, 24.0000, 15.0000], 19.4535),
        ([50.0000, 2.5000, 0.0000], [50.0000, 3.1736, 0.5854], 1.0000),
        ([50.0000, 2.5000, 0.0000], [50.0000, 3.2972, 0.0000], 1.0000),
        ([50.0000, 2.5000, 0.0000], [50.0000, 1.8634, 0.5757], 1.0000),
        ([50.0000, 2.5000, 0.0000], [50.0000, 3.2592, 0.3350], 1.0000),
        ([60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644),
        ([63.0109, -31.0961, -5.8663], [62.8187, -29.7946, -4.0864], 1.2630),
        ([61.2901, 3.7196, -5.3901], [61.4292, 2.2480, -4.9620], 1.8731),
        ([35.0831, -44.1164, 3.7933], [35.0232, -40.0716, 1.5901], 1.8645),
        ([22.7233, 20.0904, -46.6940], [23.0331, 14.9730, -42.5619], 2.0373),
        ([36.4612, 47.8580, 18.3852], [36.2715, 50.5065, 21.2231], 1.4146),
        ([90.8027, -2.0831, 1.4410], [91.1528, -1.6435, 0.0447], 1.4441),
        ([90.9257, -0.5406, -0.9208], [88.6381, -0.8985, -0.7239], 1.5381),
        ([6.7747, -0.2908, -2.4247], [5.8714, -0.0985, -2.2286], 0.6377),
        ([2.0776, 0.0795, -1.1350], [0.9033, -0.0636, -0.5514], 0.9082),
    ];
    for (number, (a, b, expected)) in PAIRS.into_iter().enumerate() {
        // In pair 14 the hues lie exactly opposite, and rounding chooses between the table's 4.8045 and 4.7461.
        let allowed = if number == 13 { 0.06 } else { 5e-5 };
        let found = ciede2000(a, b);
        assert!((found - expected).abs() < allowed, "pair {}: {found:.4}, not {expected}", number + 1);
    }
}

#[test]
fn oklab_agrees_with_srgb() {
    // White and the three primaries by the numbers of Ottosson's page, read from memory: white (1, 0, 0), red
    // (0.628, 0.225, 0.126), green (0.866, -0.234, 0.180), blue (0.452, -0.032, -0.312).
    for (l, a, b, expected) in [
        (1.0, 0.0, 0.0, "#FFFFFF"),
        (0.627_955, 0.224_863, 0.125_846, "#FF0000"),
        (0.866_440, -0.233_888, 0.179_498, "#00FF00"),
        (0.452_014, -0.032_457, -0.311_528, "#0000FF"),
    ] {
        let colour = shown(oklch(l, f64::hypot(a, b), f64::atan2(b, a).to_degrees()));
        assert_eq!(colour.map(|c| c.to_string()).as_deref(), Some(expected));
    }
}
