//! The rows of a block whose place is two bare figures, carried together: nearly all of a long table, and
//! several times as fast as one by one. What goes out is what [`Doing::row`] would give (a test compares).

use std::collections::BTreeMap;

use memchr::{memchr, memchr_iter};

use super::cells::put;
use super::columns::Spot;
use super::rows::Work;
use super::task::{Doing, How, plain};
use crate::coordinates::notation::{Pair, Plain, read_plain};
use crate::coordinates::{Position, System};
use crate::fault::Result;
use crate::run::convert::Places;

/// Whether rows can go together, which the first plain one tells.
#[derive(Default)]
pub(super) enum Together {
    /// No row has told yet.
    #[default]
    Unknown,
    /// They cannot: each place has its own system or operation.
    No,
    /// They can.
    By(Way),
}

/// What all the plain rows of a table have in common.
pub(super) struct Way {
    from: System,
    to: System,
    to_degrees: bool,
    has_references: bool,
    /// What depends on the decimals written alone.
    by_decimals: BTreeMap<(u8, u8), Common>,
}

/// What rows with the same decimals have in common.
struct Common {
    square_m: f64,
    /// The added cells from `understood_as` on, with the separators between them and the line's end.
    end: Vec<u8>,
}

/// The plain rows of one block.
#[derive(Default)]
pub(super) struct PlainRows {
    /// For each row, its number among those carried, and its decimals.
    numbers: Vec<Option<(usize, (u8, u8))>>,
    xs: Vec<f64>,
    ys: Vec<f64>,
}

impl PlainRows {
    /// Finds and carries the plain rows among `rows`.
    pub(super) fn of(work: &Work<'_>, rows: &[&[u8]], doing: &mut Doing) -> Result<Self> {
        let mut found = Self::default();
        let (How::Convert(places, together), Spot::Two(first, second, pair)) = (&mut doing.how, work.spot)
        else {
            return Ok(found);
        };
        let in_degrees = pair == Pair::LatitudeLongitude;
        if matches!(together, Together::No) || !places.reads_plain(pair) {
            return Ok(found);
        }
        found.numbers.reserve(rows.len());
        for row in rows {
            let read = cells(row, work.separator, work.width, first, second)
                .and_then(|(a, b)| Some((a, b, read_plain(a, b, in_degrees)?)));
            let number = match read {
                Some((a, b, figures)) => {
                    found.take(figures, pair, Texts { first: a, second: b }, work, places, together)?
                }
                None => None,
            };
            found.numbers.push(number);
            if matches!(together, Together::No) {
                return Ok(Self::default());
            }
        }
        if let Together::By(way) = together {
            places.way(&way.from, &way.to)?.convert_block(&mut found.xs, &mut found.ys);
        }
        Ok(found)
    }

    /// Takes a row's figures; its number, unless it is to go by itself.
    fn take(
        &mut self,
        figures: Plain,
        pair: Pair,
        texts: Texts<'_>,
        work: &Work<'_>,
        places: &mut Places,
        together: &mut Together,
    ) -> Result<Option<(usize, (u8, u8))>> {
        let known = matches!(together, Together::By(way) if way.by_decimals.contains_key(&figures.decimals));
        if !known && !learn(figures, pair, texts, work, places, together)? {
            return Ok(None);
        }
        let (x, y) = match pair {
            Pair::LatitudeLongitude => (figures.second, figures.first),
            Pair::EastingNorthing => (figures.first, figures.second),
        };
        self.xs.push(x);
        self.ys.push(y);
        Ok(Some((self.xs.len() - 1, figures.decimals)))
    }

    /// Writes a row with what was added; `false` where it is to go by itself.
    pub(super) fn put(
        &self,
        index: usize,
        row: &[u8],
        separator: u8,
        doing: &mut Doing,
        out: &mut Vec<u8>,
    ) -> Result<bool> {
        let (How::Convert(places, Together::By(way)), Some(Some((number, decimals)))) =
            (&mut doing.how, self.numbers.get(index))
        else {
            return Ok(false);
        };
        let (x, y) = (self.xs[*number], self.ys[*number]);
        // The place could not be carried; by itself it gets its reason.
        let (false, Some(common)) = (x.is_nan(), way.by_decimals.get(decimals)) else { return Ok(false) };
        out.extend(row);
        let (first, second, places_after) = if way.to_degrees { (y, x, 9) } else { (x, y, 3) };
        for value in [first, second] {
            out.push(separator);
            put_number(out, value, places_after);
        }
        out.push(separator);
        if way.has_references {
            let place = Position::Projected { easting_m: x, northing_m: y };
            if let Some(reference) = places.reference(&way.to, place, common.square_m)? {
                out.extend(reference.as_bytes());
            }
        }
        out.push(separator);
        out.extend(&common.end);
        Ok(true)
    }
}

/// Two cells as written.
#[derive(Clone, Copy)]
struct Texts<'a> {
    first: &'a [u8],
    second: &'a [u8],
}

/// Learns from a row taken by itself what all like it have in common; `false` where that fails.
fn learn(
    figures: Plain,
    pair: Pair,
    texts: Texts<'_>,
    work: &Work<'_>,
    places: &mut Places,
    together: &mut Together,
) -> Result<bool> {
    let text = |cell| String::from_utf8_lossy(cell);
    let Ok(converted) = places.convert_pair(&text(texts.first), &text(texts.second), pair) else {
        return Ok(false);
    };
    let (from, to) = (converted.written.system.clone(), converted.system.clone());
    if !places.way(&from, &to)?.is_steady() {
        *together = Together::No;
        return Ok(false);
    }
    let square_m = converted.written.square_m;
    let has_references = converted.reference.is_some() || to.has_letters();
    let to_degrees = matches!(converted.position, Position::Geographic { .. });
    let mut end = Vec::new();
    for cell in super::task::filled(converted).iter().skip(3) {
        put(&mut end, cell.as_bytes(), work.separator, work.separator);
    }
    end.push(b'\n');
    if !matches!(together, Together::By(_)) {
        *together = Together::By(Way { from, to, to_degrees, has_references, by_decimals: BTreeMap::new() });
    }
    if let Together::By(way) = together {
        way.has_references |= has_references;
        way.by_decimals.insert(figures.decimals, Common { square_m, end });
    }
    Ok(true)
}

/// Two cells of a row that has no quotes, as many cells as there are headings, and is UTF-8.
fn cells(row: &[u8], separator: u8, width: usize, first: usize, second: usize) -> Option<(&[u8], &[u8])> {
    if memchr(b'"', row).is_some() || std::str::from_utf8(row).is_err() {
        return None;
    }
    let (mut found, mut count, mut start) = ((None, None), 0, 0);
    for end in memchr_iter(separator, row).chain([row.len()]) {
        let cell = row.get(start..end);
        if count == first {
            found.0 = cell;
        } else if count == second {
            found.1 = cell;
        }
        count += 1;
        start = end + 1;
    }
    if count != width {
        return None;
    }
    found.0.zip(found.1)
}

/// Writes a number as [`plain`] does, which is left what lies too near the middle between two last digits.
fn put_number(out: &mut Vec<u8>, value: f64, decimals: usize) {
    let scale = 10_u64.pow(decimals as u32);
    let scaled = value.abs() * scale as f64;
    let rounded = scaled.round();
    // Half a unit of rounding error of the product is far below this for what is written here.
    if (scaled.fract() - 0.5).abs() < 1e-3 || scaled > 9e15 {
        out.extend(plain(value, decimals).as_bytes());
        return;
    }
    let whole = rounded as u64;
    if value < 0.0 && whole > 0 {
        out.push(b'-');
    }
    put_whole(out, whole / scale, 1);
    let mut fraction = whole % scale;
    if fraction == 0 {
        return;
    }
    let mut width = decimals;
    while fraction.is_multiple_of(10) {
        fraction /= 10;
        width -= 1;
    }
    out.push(b'.');
    put_whole(out, fraction, width);
}

/// Writes a whole number in at least `width` digits.
fn put_whole(out: &mut Vec<u8>, mut value: u64, width: usize) {
    let mut digits = [b'0'; 20];
    let mut start = digits.len();
    while value > 0 || digits.len() - start < width {
        start -= 1;
        digits[start] = b'0' + (value % 10) as u8;
        value /= 10;
    }
    out.extend(&digits[start..]);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_the_formatter_writes_them() {
        let mut random = 88_172_645_463_325_252_u64;
        for index in 0..200_000_u32 {
            random ^= random << 13;
            random ^= random >> 7;
            random ^= random << 17;
            let size = [1.0, 180.0, 1e6, 1e7][index as usize % 4];
            let value = (random as f64 / u64::MAX as f64 - 0.5) * size;
            // Ends of a few digits are where rounding has its ties.
            let value = if index % 3 == 0 { (value * 1e4).round() / 1e4 } else { value };
            for decimals in [3, 9] {
                let mut out = Vec::new();
                put_number(&mut out, value, decimals);
                assert_eq!(String::from_utf8(out).unwrap(), plain(value, decimals), "{value:?}");
            }
        }
    }
}
