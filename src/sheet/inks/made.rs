//! Makes the ramps and the inks of the periods, and holds the styles to them: no ink is chosen by eye.
//!
//! Ramps are runs in OKLab (Ottosson 2020): lightness falls by equal steps, hue turns evenly, chroma swells in the
//! middle along a parabola. Greys stand at equal steps of CIEDE2000.
//!
//! Inks of periods are as far from each other as can be: each in turn is the farthest of its range from those
//! already chosen (Glasbey, van der Heijden, Toh and Gray 2007, "Colour Displays for Categorical Images", Color
//! Research and Application 32(4)); then any that can move farther from the rest moves, until none can.
//! "Far" is the least over normal sight, three kinds of colour blindness and grey, each divided by what it needs.
//!
//! To make them anew: `cargo test --release --lib made -- --nocapture` prints what differs.

use super::super::colour::Colour;
use super::super::style::{Periods, Style};
use super::sight::{GREY_NEED, Lab, SIGHTS, ciede2000, grey, oklch, seen, shown};

/// A run in OKLab, from the lightest to the darkest.
struct Ramp {
    lightness: (f64, f64),
    hue_deg: (f64, f64),
    /// At the light end, in the middle, at the dark end.
    chroma: (f64, f64, f64),
}

const CLAY: Ramp = Ramp { lightness: (0.85, 0.25), hue_deg: (78.0, 25.0), chroma: (0.10, 0.12, 0.06) };
const CLAY_LONG: Ramp = Ramp { lightness: (0.86, 0.24), hue_deg: (80.0, 25.0), chroma: (0.09, 0.13, 0.06) };
const MOSS: Ramp = Ramp { lightness: (0.84, 0.20), hue_deg: (125.0, 150.0), chroma: (0.08, 0.10, 0.04) };
const MOSS_LONG: Ramp = Ramp { lightness: (0.86, 0.20), hue_deg: (115.0, 150.0), chroma: (0.08, 0.13, 0.04) };

impl Ramp {
    fn steps<const N: usize>(&self) -> [Colour; N] {
        std::array::from_fn(|index| {
            let t = index as f64 / (N - 1) as f64;
            let run = |(from, to): (f64, f64)| from + (to - from) * t;
            let (light, middle, dark) = self.chroma;
            let swell = (middle - (light + dark) / 2.0) * 4.0 * t * (1.0 - t);
            let colour = oklch(run(self.lightness), run((light, dark)) + swell, run(self.hue_deg));
            shown(colour).expect("a colour that screens show")
        })
    }
}

fn apart_in_grey(a: u8, b: u8) -> f64 {
    ciede2000(grey(Colour([a; 3])), grey(Colour([b; 3])))
}

/// Greys from a first one on, each the nearest that is a step away. `None` when there are not so many.
fn greys<const N: usize>(first: u8, step: f64, darker: bool) -> Option<[Colour; N]> {
    let mut at = first;
    let mut out = [Colour([first; 3]); N];
    for place in &mut out[1..] {
        let mut next: Box<dyn Iterator<Item = u8>> =
            if darker { Box::new((0..at).rev()) } else { Box::new(at..=255) };
        at = next.find(|v| apart_in_grey(at, *v) >= step)?;
        *place = Colour([at; 3]);
    }
    Some(out)
}

/// Paper and four greys, the steps as large as they can be.
fn four_greys() -> [Colour; 4] {
    let largest = (100..400).rev().find_map(|tenths| greys::<5>(255, f64::from(tenths) / 10.0, true));
    let [_, bands @ ..] = largest.expect("steps of ten there are");
    bands
}

/// Five greys up from black, 15 apart: all that there is room for.
fn five_greys() -> [Colour; 5] {
    let mut fills = greys::<5>(0, 15.0, false).expect("five greys fit");
    fills.reverse();
    fills
}

/// A period's ink may be any of these: ranges of OKLab lightness, chroma and hue.
struct Range {
    lightness: (f64, f64),
    chroma: (f64, f64),
    hue_deg: (f64, f64),
}

/// In the order of [`Periods`]: from indigo for the oldest to plum for the latest, grey for the undated.
#[rustfmt::skip]
const RANGES: [Range; 8] = [
    Range { lightness: (0.20, 0.34), chroma: (0.00, 0.14), hue_deg: (265.0, 310.0) },
    Range { lightness: (0.40, 0.72), chroma: (0.08, 0.22), hue_deg: (240.0, 275.0) },
    Range { lightness: (0.55, 0.86), chroma: (0.06, 0.18), hue_deg: (185.0, 235.0) },
    Range { lightness: (0.35, 0.70), chroma: (0.06, 0.20), hue_deg: (135.0, 170.0) },
    Range { lightness: (0.60, 0.90), chroma: (0.06, 0.22), hue_deg: (95.0, 135.0) },
    Range { lightness: (0.50, 0.80), chroma: (0.10, 0.20), hue_deg: (40.0, 75.0) },
    Range { lightness: (0.30, 0.65), chroma: (0.10, 0.24), hue_deg: (320.0, 380.0) },
    Range { lightness: (0.30, 0.92), chroma: (0.00, 0.00), hue_deg: (0.0, 0.0) },
];

/// A colour as all of them see it.
#[derive(Clone, Copy)]
struct Seen {
    colour: Colour,
    by: [Lab; 5],
}

impl Seen {
    fn of(colour: Colour) -> Self {
        let [a, b, c, d] = SIGHTS.each_ref().map(|(_, sight, _)| seen(colour, sight));
        Self { colour, by: [a, b, c, d, grey(colour)] }
    }

    /// How far apart two are, where 1 is what is needed.
    fn far(&self, other: &Self) -> f64 {
        let needs = SIGHTS.iter().map(|(_, _, need)| *need).chain([GREY_NEED]);
        let apart = self.by.iter().zip(&other.by).map(|(a, b)| ciede2000(*a, *b));
        apart.zip(needs).map(|(apart, need)| apart / need).fold(f64::INFINITY, f64::min)
    }
}

impl Range {
    fn colours(&self) -> Vec<Seen> {
        let steps = |(from, to): (f64, f64), step: f64| -> Vec<f64> {
            (0..=((to - from) / step + 1e-9) as usize).map(|n| from + n as f64 * step).collect()
        };
        let mut out: Vec<Colour> = Vec::new();
        for l in steps(self.lightness, 0.02) {
            for c in steps(self.chroma, 0.02) {
                for h in steps(self.hue_deg, 5.0) {
                    out.extend(shown(oklch(l, c, h)));
                }
            }
        }
        out.sort_by_key(|colour| colour.0);
        out.dedup();
        out.into_iter().map(Seen::of).collect()
    }
}

/// Of a range, the colour that is farthest from all of `others`, and how far.
fn farthest(range: &[Seen], others: &[Seen]) -> (Seen, f64) {
    let least = |one: &Seen| others.iter().map(|other| one.far(other)).fold(f64::INFINITY, f64::min);
    let told = range.iter().map(|one| (*one, least(one)));
    told.reduce(|best, next| if next.1 > best.1 { next } else { best }).expect("a range holds colours")
}

/// Chooses an ink for each range, beginning with the range `first` and its colour number `start`.
fn chosen(ranges: &[Vec<Seen>], first: usize, start: usize) -> Vec<Seen> {
    let mut order: Vec<usize> = (0..ranges.len()).collect();
    order.rotate_left(first);
    let mut inks: Vec<Option<Seen>> = vec![None; ranges.len()];
    inks[first] = Some(ranges[first][start % ranges[first].len()]);
    for k in &order[1..] {
        let others: Vec<Seen> = inks.iter().flatten().copied().collect();
        inks[*k] = Some(farthest(&ranges[*k], &others).0);
    }
    let mut inks: Vec<Seen> = inks.into_iter().flatten().collect();
    loop {
        let moved = (0..inks.len()).any(|k| {
            let mut others = inks.clone();
            let own = others.remove(k);
            let now = others.iter().map(|other| own.far(other)).fold(f64::INFINITY, f64::min);
            let (better, far) = farthest(&ranges[k], &others);
            if far > now + 1e-9 {
                inks[k] = better;
            }
            far > now + 1e-9
        });
        if !moved {
            return inks;
        }
    }
}

/// Range and colour to begin with: what is chosen depends on it. Of some two hundred beginnings (up to forty in each
/// of the first six ranges) two ended best, with 1.496 of what is needed; this one has the quieter greens.
const BEGINNING: (usize, usize) = (5, 22);

fn told(what: &str, style: &str, made: &[Colour], stands: &[Colour]) {
    let list = |colours: &[Colour]| colours.iter().map(|c| format!("\"{c}\"")).collect::<Vec<_>>().join(", ");
    assert!(made == stands, "styles/{style}.toml, {what}: made [{}], stands [{}]", list(made), list(stands));
}

#[test]
fn ramps_are_made_by_the_method() {
    for (name, bands, fills) in [
        ("colour", CLAY.steps(), CLAY_LONG.steps()),
        ("contrast", MOSS.steps(), MOSS_LONG.steps()),
        ("ink", four_greys(), five_greys()),
    ] {
        let style = Style::named(name).unwrap();
        told("bands", name, &bands, &style.cells.bands);
        told("counts", name, &fills, &style.counts.fills);
        told("density", name, &fills, &style.density.fills);
    }
}

fn inks(p: &Periods) -> Vec<Colour> {
    super::held::dyes(p).map(|dye| dye.ink).to_vec()
}

#[test]
fn period_inks_are_made_by_the_method() {
    let ranges: Vec<Vec<Seen>> = RANGES.iter().map(Range::colours).collect();
    let made = chosen(&ranges, BEGINNING.0, BEGINNING.1);
    let made: Vec<Colour> = made.iter().map(|one| one.colour).collect();
    for name in ["colour", "contrast"] {
        told("periods", name, &made, &inks(&Style::named(name).unwrap().periods));
    }
}
