//! No text makes reading a place panic, and what is understood keeps its promises: a storm of texts, each
//! some lines of the corpus torn and patched together. The same texts in every run. `STREW_STORM_SECONDS`
//! keeps it going for longer; `make fuzz` is guided by what the texts reach, and does not convert.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use rand::seq::IndexedRandom;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use strew::coordinates::notation::{self, Written};
use strew::coordinates::{Converter, Position, System};
use strew::run::coarsen::{Coarsening, Squares};

use super::common::{files, root};
use super::notation_judge::judge;

const TEXTS: usize = 20_000;

/// Characters that places are made of, their look-alikes, and some that fold or grow.
const SIGNS: &[&str] = &[
    "0",
    "1",
    "9",
    "5",
    ".",
    ",",
    " ",
    "-",
    "+",
    "N",
    "S",
    "E",
    "W",
    "O",
    "V",
    "I",
    "n",
    "s",
    "e",
    "°",
    "'",
    "\"",
    "/",
    ":",
    ";",
    "=",
    "(",
    ")",
    "º",
    "˚",
    "′",
    "″",
    "’",
    "”",
    "−",
    "–",
    "\u{a0}",
    "\u{202f}",
    "\u{200b}",
    "\u{feff}",
    "\u{202e}",
    "О",
    "Е",
    "Ν",
    "Ｏ",
    "５",
    "٣",
    "𝟓",
    "İ",
    "ß",
    "ﬁ",
    "é",
    "°N",
    " m",
    "km",
    "CRS",
    "geo:",
    "EPSG:",
    "UTM",
    "utm-30n ",
    "lat",
    "1e9",
    "e5",
    "NaN",
    "∞",
    "½",
    "\u{0}",
    "\t",
    "\n",
    "99999999999999999999",
    "0000000000",
    "00000000000000000000000000000001",
];

fn corpus() -> Vec<String> {
    let folder = root().join("tests/corpus/notation");
    files(&folder)
        .iter()
        .flat_map(|file| {
            let text = std::fs::read_to_string(folder.join(file)).unwrap();
            text.lines().map(str::to_owned).collect::<Vec<_>>()
        })
        .collect()
}

/// One text: a line changed once, half as often twice, and so on to eight times.
fn torn(corpus: &[String], chance: &mut ChaCha8Rng) -> String {
    let mut text: Vec<char> = corpus.choose(chance).unwrap().chars().collect();
    for change in 0..8 {
        if change > 0 && chance.random_bool(0.5) {
            break;
        }
        let at = chance.random_range(0..=text.len());
        let to = chance.random_range(at..=text.len().min(at + 6));
        match chance.random_range(0..8) {
            0 => drop(text.drain(at..to)),
            1 | 2 => drop(text.splice(at..at, SIGNS.choose(chance).unwrap().chars())),
            3 => drop(text.splice(at..to, SIGNS.choose(chance).unwrap().chars())),
            4 => {
                // A part again, here or elsewhere.
                let part: Vec<char> = text[at..to].to_vec();
                let elsewhere = chance.random_range(0..=text.len());
                text.splice(elsewhere..elsewhere, part);
            }
            5 if text.len() > 1 => {
                let (a, b) = (chance.random_range(0..text.len()), chance.random_range(0..text.len()));
                text.swap(a, b);
            }
            6 => {
                // The front of this and the back of another.
                let other: Vec<char> = corpus.choose(chance).unwrap().chars().collect();
                let from = chance.random_range(0..=other.len());
                text.splice(at.., other[from..].iter().copied());
            }
            _ => {
                let figures = chance.random_range(1..=24);
                let run = (0..figures).map(|_| char::from(b'0' + chance.random_range(0..10)));
                text.splice(at..to, run.collect::<Vec<_>>());
            }
        }
    }
    text.truncate(200);
    let text: String = text.into_iter().collect();
    if chance.random_bool(0.9) {
        return text;
    }
    // Byte by byte, as a file in another encoding reads.
    let mut bytes = text.into_bytes();
    let length = bytes.len();
    if length > 0 {
        let byte = &mut bytes[chance.random_range(0..length)];
        *byte = byte.wrapping_add(128);
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

/// Conversions of what was understood; kept from text to text.
#[derive(Default)]
struct Ways {
    ways: BTreeMap<(System, System), Option<Converter>>,
}

impl Ways {
    fn carry(&mut self, from: &System, to: &System, position: Position) -> Option<Position> {
        let way =
            self.ways.entry((from.clone(), to.clone())).or_insert_with(|| Converter::new(from, to).ok());
        way.as_ref()?.convert(position).ok()
    }

    /// Carried to other systems a place is refused or has sound numbers; a military reference is the
    /// one that its square is written by.
    fn check(&mut self, written: &Written) {
        for to in [System::Wgs84, System::BritishGrid, System::Lambert93] {
            match self.carry(&written.system, &to, written.position) {
                Some(Position::Geographic { latitude_deg, longitude_deg }) => {
                    assert!(latitude_deg.abs() <= 90.0 && longitude_deg.is_finite(), "{written:?}");
                }
                Some(Position::Projected { easting_m, northing_m }) => {
                    assert_eq!(to.holds(easting_m, northing_m), Some(true), "{written:?} in {to}");
                }
                None => {}
            }
        }
        if written.understood_as == "notation-mgrs" {
            self.check_military(written);
        }
    }

    fn check_military(&mut self, written: &Written) {
        let Some(Position::Projected { easting_m, northing_m }) = written.corner else {
            panic!("{written:?}")
        };
        let zone = written.system.epsg().unwrap() % 100;
        // The band of the middle; a square of 100 km may lie across two, and be written by either.
        let place = self.carry(&written.system, &System::Wgs84, written.position);
        let (Some(Position::Geographic { latitude_deg, .. }), true) = (place, written.square_m < 1e4) else {
            return;
        };
        let figures = 5 - written.square_m.log10() as usize;
        let reference = notation::mgrs(zone, latitude_deg, easting_m, northing_m, figures);
        // A band's letter beside the right one is taken, as at its edge both are in use.
        let Some(reference) = reference else { return };
        let again = notation::read(&reference, None, false).unwrap();
        assert_eq!((again.corner, again.square_m), (written.corner, written.square_m), "{reference}");
    }
}

/// The square that a text is coarsened to is no smaller than its own, and holds it where the grid is its own.
fn check_coarse(text: &str, squares: &mut Squares) {
    let Ok(coarse) = squares.coarsen(text) else { return };
    let (cell, written) = (coarse.cell, &coarse.written);
    assert!(f64::from(cell.side_m) >= written.square_m * 0.999, "{coarse:?}");
    if coarse.system == written.system
        && let Position::Projected { easting_m, northing_m } = written.position
    {
        let hair = 1e-4;
        assert!(cell.west_m() - hair <= easting_m && easting_m < cell.east_m() + hair, "{coarse:?}");
        assert!(cell.south_m() - hair <= northing_m && northing_m < cell.north_m() + hair, "{coarse:?}");
    }
}

#[test]
fn a_storm_of_texts_breaks_no_promise() {
    let corpus = corpus();
    assert!((100..=200).contains(&corpus.len()), "{} lines", corpus.len());
    let seconds = std::env::var("STREW_STORM_SECONDS").ok().map(|s| s.parse().expect("a number of seconds"));
    let until = seconds.map(|seconds| Instant::now() + Duration::from_secs(seconds));
    let mut chance = ChaCha8Rng::seed_from_u64(52_658);
    let mut ways = Ways::default();
    let how = |from, side_m| Coarsening { from, to: None, side_m, decimal_comma: false };
    let mut squares = [
        Squares::new(how(None, 100)),
        Squares::new(how(Some(System::BritishGrid), 1000)),
        Squares::new(how(Some(System::Lambert93), 2000)),
    ];
    let (mut texts, mut understood) = (0, 0);
    let untorn = corpus.iter().cloned().map(Some).chain(std::iter::repeat(None));
    for line in untorn {
        let over = until.map_or(texts >= TEXTS, |until| texts % 1000 == 0 && Instant::now() >= until);
        if over {
            break;
        }
        let text = line.unwrap_or_else(|| torn(&corpus, &mut chance));
        texts += 1;
        let kept = catch_unwind(AssertUnwindSafe(|| {
            let found = judge(&text);
            found.iter().for_each(|written| ways.check(written));
            squares.iter_mut().for_each(|squares| check_coarse(&text, squares));
            !found.is_empty()
        }));
        match kept {
            Ok(found) => understood += usize::from(found),
            Err(_) => panic!("the text {text:?} breaks a promise: see above"),
        }
    }
    println!("{texts} texts, of which {understood} were understood in some way");
    assert!(understood > texts / 8, "the storm has blown the places away: {understood} of {texts}");
}
