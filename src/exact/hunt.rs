//! The door of the audit: whether something that was read out of a file is the register's own.
//!
//! Asked with boxes of ground and with words; the answer says which box holds an exact place and what kind of
//! private word stands in a text, never the place or the word, and is the owner's alone ([`Private`]). `report`
//! and every other command that writes for an audience must not ask: a row that somebody planted would be
//! confirmed (see `docs/decisions/0115-the-audits-door.md`).

use std::collections::BTreeMap;

use aho_corasick::{AhoCorasick, MatchKind};
use rstar::{AABB, RTree};

use super::find::{ExactFind, ExactPlace};
use super::{Private, Register};
use crate::coordinates::{Converter, System};
use crate::fault::{Fault, Result};
use crate::study::{Attribute, PublicStudy};

/// Where a parish is agreed, squares of this side are as coarse as what may be shown, metres.
const SIDE_WITHOUT_SQUARE_M: f64 = 1_000.0;
/// Shorter notes, names and numbers stand in many texts by chance.
const SHORTEST_NOTE: usize = 12;
const SHORTEST_NAME: usize = 6;
const SHORTEST_NUMBER: usize = 5;

/// Where boxes are moved to for comparison, metres east and north: as far as finds of one scatter lie apart.
const MOVES: [(f64, f64); 24] = [
    (31.3, 7.1),
    (-23.7, 29.9),
    (11.9, -41.3),
    (-47.1, -13.7),
    (53.3, 37.9),
    (-61.7, 17.3),
    (19.1, 67.7),
    (71.3, -29.3),
    (-37.9, -73.1),
    (-79.7, 43.3),
    (43.1, 83.3),
    (89.9, 11.3),
    (-13.1, -97.3),
    (101.9, -59.9),
    (-103.3, -31.7),
    (59.3, 107.9),
    (-109.1, 73.7),
    (113.3, 47.9),
    (-67.1, -127.3),
    (131.3, -17.9),
    (23.3, 137.9),
    (-139.7, 61.1),
    (149.3, 79.1),
    (-83.9, 151.7),
];

/// A kind of the register's own words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OwnWord {
    /// The number of a find.
    Number,
    /// A finder's name.
    Finder,
    /// A landowner's name.
    Landowner,
    /// A note.
    Note,
}

/// The register's places and words, ready to be looked for.
pub struct Hunt {
    places: RTree<[f64; 2]>,
    words: Option<AhoCorasick>,
    kinds: Vec<OwnWord>,
}

impl Register {
    /// Makes the register ready to be looked for in what one audience is given. `known` are words that this audience
    /// may know (names on the public map, the study's own title): they are not looked for.
    pub fn hunt(&self, study: &PublicStudy, known: &[String]) -> Result<Hunt> {
        let words = own_words(&self.finds, study, known);
        let (patterns, kinds): (Vec<String>, Vec<OwnWord>) = words.into_iter().unzip();
        let words = match patterns.is_empty() {
            true => None,
            false => Some(
                AhoCorasick::builder()
                    .ascii_case_insensitive(true)
                    .match_kind(MatchKind::Standard)
                    .build(&patterns)
                    .map_err(|_| Fault::new("audit-too-many-words"))?,
            ),
        };
        Ok(Hunt { places: places(&self.finds, study)?, words, kinds })
    }
}

/// Every exact place in the agreed grid that is finer than what was agreed, and is not told by a square's own corner
/// or middle.
fn places(finds: &[ExactFind], study: &PublicStudy) -> Result<RTree<[f64; 2]>> {
    let side = study.agreement.precision.side_m().map_or(SIDE_WITHOUT_SQUARE_M, f64::from);
    let mut converters: BTreeMap<System, Converter> = BTreeMap::new();
    let mut all = Vec::new();
    for find in finds {
        let ExactPlace::Point { system, x, y, square_m, .. } = &find.place else { continue };
        if *square_m >= side {
            continue;
        }
        if !converters.contains_key(system) {
            converters.insert(system.clone(), Converter::new(system, &study.agreement.grid)?);
        }
        let Some(converter) = converters.get(system) else { continue };
        // The place, and the corner that a reference gives for it.
        let half = if system.in_degrees() || *square_m < 2.0 { 0.0 } else { square_m / 2.0 };
        for back in [0.0, half] {
            let Ok((east, north)) = converter.convert_xy(x - back, y - back) else { continue };
            let halves = [east, north].map(|value| (value / (side / 2.0)).round());
            let corner = |value: f64, halves: f64| (value - halves * side / 2.0).abs() < 1e-3;
            let both = (halves[0] - halves[1]) % 2.0 == 0.0;
            if !(corner(east, halves[0]) && corner(north, halves[1]) && both) {
                all.push([east, north]);
            }
            if half == 0.0 {
                break;
            }
        }
    }
    Ok(RTree::bulk_load(all))
}

/// The register's own words that this audience is not shown.
fn own_words(finds: &[ExactFind], study: &PublicStudy, known: &[String]) -> BTreeMap<String, OwnWord> {
    let hidden = |attribute: Attribute| !study.agreement.show.contains(&attribute);
    let known: Vec<String> = known.iter().map(|word| word.to_lowercase()).collect();
    let mut words = BTreeMap::new();
    let mut add = |word: Option<&String>, shortest: usize, kind: OwnWord| {
        let Some(word) = word.map(|word| word.trim()) else { return };
        let letters = word.chars().filter(|c| c.is_alphabetic()).count();
        let figures = word.chars().filter(char::is_ascii_digit).count();
        let enough = match kind {
            // A number that is figures alone is like any other, unless it is long.
            OwnWord::Number => figures > 0 && (letters > 0 && figures > 2 || figures >= 8),
            _ => letters >= 4 && word.contains(' '),
        };
        let lower = word.to_lowercase();
        if enough && word.chars().count() >= shortest && !known.iter().any(|known| known.contains(&lower)) {
            words.entry(lower).or_insert(kind);
        }
    };
    for find in finds {
        if hidden(Attribute::Number) {
            add(find.number.as_ref(), SHORTEST_NUMBER, OwnWord::Number);
        }
        let Some(more) = find.more.as_deref() else { continue };
        if hidden(Attribute::Finder) {
            add(more.finder.as_ref(), SHORTEST_NAME, OwnWord::Finder);
        }
        if hidden(Attribute::Landowner) {
            add(more.landowner.as_ref(), SHORTEST_NAME, OwnWord::Landowner);
        }
        if hidden(Attribute::Note) {
            add(more.note.as_ref(), SHORTEST_NOTE, OwnWord::Note);
        }
    }
    words
}

impl Hunt {
    /// Which of these boxes (west, south, east and north of the agreed grid, metres) hold an exact place, by index.
    ///
    /// `by_chance`: they are so many or so loosely read that some may hold one by chance. Then they count only when
    /// more of them do than of the same boxes moved to anywhere near by.
    pub fn places_in(&self, boxes: &[[f64; 4]], by_chance: bool) -> Private<Vec<usize>> {
        let held = |east: f64, north: f64| -> Vec<usize> {
            let holds = |one: &[f64; 4]| {
                let [west, south, far_east, far_north] = *one;
                let (low, high) = ([west + east, south + north], [far_east + east, far_north + north]);
                self.places.locate_in_envelope(&AABB::from_corners(low, high)).next().is_some()
            };
            boxes.iter().enumerate().filter(|(_, one)| holds(one)).map(|(index, _)| index).collect()
        };
        let here = held(0.0, 0.0);
        let elsewhere = || MOVES.iter().map(|(east, north)| held(*east, *north).len()).max().unwrap_or(0);
        let chance = if by_chance && !here.is_empty() { elsewhere() } else { 0 };
        Private::new(if here.len() > chance { here } else { Vec::new() })
    }

    /// How often the register's own words stand in a text, by kind.
    pub fn words_in(&self, text: &str) -> Private<BTreeMap<OwnWord, u64>> {
        let mut found = BTreeMap::new();
        // Case beyond ASCII is folded; what that does to lengths does not matter here.
        let text = text.to_lowercase();
        let part = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
        for hit in self.words.iter().flat_map(|words| words.find_overlapping_iter(&text)) {
            let before = text.get(..hit.start()).and_then(|text| text.chars().next_back());
            let after = text.get(hit.end()..).and_then(|text| text.chars().next());
            if !part(before)
                && !part(after)
                && let Some(kind) = self.kinds.get(hit.pattern().as_usize())
            {
                *found.entry(*kind).or_default() += 1;
            }
        }
        Private::new(found)
    }
}
