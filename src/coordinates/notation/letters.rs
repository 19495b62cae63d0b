//! References with two letters in the British National Grid ("OV 523 412") and with one in the Irish
//! Grid ("O 159 346").
//!
//! Source of the rules: Ordnance Survey, *A guide to coordinate systems in Great Britain*, section on
//! the national grid: 500 km squares lettered A to Z without I from the north-west, each of 25 squares
//! of 100 km lettered likewise. A reference names the square whose south-west corner it gives:
//! figures are cut off, never rounded. Ireland's 25 squares have one letter each, in the same order
//! (Ordnance Survey of Ireland and of Northern Ireland, *The Irish Grid*).

use super::{Cell, Position, System, Written};
use crate::coordinates::names::{IRISH_GRID, IRISH_GRID_1965};
use crate::fault::{Fault, Result};

/// The 25 letters, from the north-west by rows.
const LETTERS: &[u8; 25] = b"ABCDEFGHJKLMNOPQRSTUVWXYZ";

/// Words that stand before a reference and say no more than that it is one.
const LABELS: &[&str] = &[
    "national grid reference",
    "os grid reference",
    "grid reference",
    "os grid ref",
    "grid ref",
    "os grid",
    "gridref",
    "osgr",
    "ngr",
    "gr",
    "os",
];

/// Reads a reference; `None` where the text does not have the shape of one. One letter is taken for the
/// Irish Grid where `system` is that.
pub fn read(text: &str, system: Option<&System>) -> Option<Result<Written>> {
    let upper = text.to_uppercase();
    let mut upper = upper.as_str();
    for label in LABELS {
        let label = label.to_uppercase();
        if let Some(rest) = upper.strip_prefix(label.as_str())
            && rest.starts_with([':', ' ', '.', '='])
        {
            upper = rest.trim_start_matches([':', ' ', '.', '=']);
            break;
        }
    }
    if let Some(part) = part_of_ten_km(upper) {
        return Some(part);
    }
    let mut letters = Vec::with_capacity(2);
    let mut groups: Vec<String> = Vec::new();
    let mut open = false;
    for c in upper.chars() {
        match c {
            'A'..='Z' if groups.is_empty() && letters.len() < 2 => letters.push(c as u8),
            '0'..='9' => {
                if !open {
                    groups.push(String::new());
                    open = true;
                }
                groups.last_mut()?.push(c);
            }
            ' ' | '-' | '/' | ',' | '_' => open = false,
            _ => return None,
        }
    }
    if groups.is_empty() {
        return None;
    }
    let irish = system.filter(|system| is_irish(system));
    match (&letters[..], irish) {
        (&[first, second], _) => Some(place(System::BritishGrid, &[first, second], &groups)),
        (&[letter], Some(irish)) => Some(place(irish.clone(), &[letter], &groups)),
        // "N 52" alone may be half of a latitude and longitude, and is told so elsewhere.
        (&[_], None) if groups.concat().len() >= 4 => Some(Err(Fault::new("place-ambiguous-one-letter"))),
        _ => None,
    }
}

/// Part of a square of 10 km: "SP39A", its tetrad of 2 km (letters without O, by columns from the
/// south-west), or "SP39NW", its quadrant of 5 km. Common practice of recorders; no standard is known.
fn part_of_ten_km(upper: &str) -> Option<Result<Written>> {
    let text: Vec<u8> = upper.bytes().filter(|byte| *byte != b' ').collect();
    let (&[first, second, east, north], part) = text.split_first_chunk::<4>()?;
    let shape = first.is_ascii_uppercase()
        && second.is_ascii_uppercase()
        && [east, north].iter().all(u8::is_ascii_digit)
        && part.iter().all(u8::is_ascii_uppercase);
    let (column, row, side_m) = match part {
        [letter @ (b'A'..=b'N' | b'P'..=b'Z')] => {
            let index = u32::from(letter - b'A') - u32::from(*letter > b'O');
            (index / 5, index % 5, 2000.0)
        }
        b"SW" => (0, 0, 5000.0),
        b"NW" => (0, 1, 5000.0),
        b"SE" => (1, 0, 5000.0),
        b"NE" => (1, 1, 5000.0),
        _ => return None,
    };
    if !shape {
        return None;
    }
    let figures = [east, north].map(|figure| char::from(figure).to_string());
    Some(place(System::BritishGrid, &[first, second], &figures).map(|whole| {
        let at = |offset_m: f64| match whole.corner {
            Some(Position::Projected { easting_m, northing_m }) => Position::Projected {
                easting_m: easting_m + f64::from(column) * side_m + offset_m,
                northing_m: northing_m + f64::from(row) * side_m + offset_m,
            },
            _ => whole.position,
        };
        Written { position: at(side_m / 2.0), corner: Some(at(0.0)), square_m: side_m, ..whole }
    }))
}

/// Whether references of a system have one letter.
pub fn is_irish(system: &System) -> bool {
    matches!(system, System::Epsg(IRISH_GRID | IRISH_GRID_1965))
}

fn place(system: System, letters: &[u8], groups: &[String]) -> Result<Written> {
    if letters.contains(&b'I') {
        return Err(Fault::new("place-unreadable-letter-i"));
    }
    let figures: String = groups.concat();
    if figures.len() % 2 == 1 {
        return Err(Fault::new("place-unreadable-odd"));
    }
    if figures.len() > 12 {
        return Err(Fault::new("place-unreadable-long"));
    }
    let half = figures.len() / 2;
    // Spaces must not cut the easting off elsewhere than in the middle: "OV 52 3412" lost a figure.
    let mut length = 0;
    let middle = groups.len() == 1
        || groups.iter().any(|group| {
            length += group.len();
            length == half
        });
    if !middle {
        return Err(Fault::new("place-unreadable-halves"));
    }
    let side_m = 10_f64.powi(5 - half as i32);
    let steps = |figures: &str| figures.parse::<u32>().map(f64::from);
    let unreadable = |_| Fault::new("place-unreadable");
    let (east, north) =
        (steps(&figures[..half]).map_err(unreadable)?, steps(&figures[half..]).map_err(unreadable)?);
    let (west_m, south_m) = corner(letters).ok_or_else(|| Fault::new("place-unreadable"))?;
    // Division keeps a tenth of a metre exact where multiplication by 0.1 would not.
    let metres = |steps: f64| if half > 5 { steps / 10_f64.powi(half as i32 - 5) } else { steps * side_m };
    let (easting_m, northing_m) = (west_m + metres(east), south_m + metres(north));
    let inside = system.holds(easting_m, northing_m).unwrap_or(true)
        && system.holds(easting_m + side_m, northing_m + side_m).unwrap_or(true);
    if !inside {
        return Err(Fault::new("place-outside-letters"));
    }
    let at =
        |offset: f64| Position::Projected { easting_m: easting_m + offset, northing_m: northing_m + offset };
    Ok(Written {
        understood_as: "notation-letter-reference",
        system,
        position: at(side_m / 2.0),
        corner: Some(at(0.0)),
        square_m: side_m,
        height_m: None,
        stated_m: None,
    })
}

/// South-west corner of a 100 km square, metres from the grid's false origin (for Britain the corner of
/// SV, for Ireland that of V).
fn corner(letters: &[u8]) -> Option<(f64, f64)> {
    let at = |letter: u8| LETTERS.iter().position(|known| *known == letter).map(|index| index as i32);
    let (column, row) = match *letters {
        [large, small] => {
            let (large, small) = (at(large)?, at(small)?);
            ((large % 5 - 2) * 5 + small % 5, (3 - large / 5) * 5 + 4 - small / 5)
        }
        [letter] => (at(letter)? % 5, 4 - at(letter)? / 5),
        _ => return None,
    };
    Some((f64::from(column) * 1e5, f64::from(row) * 1e5))
}

/// The letter of the Irish 100 km square `column`, `row` from the false origin.
fn irish_square(column: i64, row: i64) -> Option<String> {
    let within = (0..5).contains(&column) && (0..5).contains(&row);
    within.then(|| char::from(LETTERS[((4 - row) * 5 + column) as usize]).to_string())
}

/// The two letters of the British 100 km square `column`, `row` from the false origin.
fn british_square(column: i64, row: i64) -> Option<String> {
    // From the corner of square VV: 1000 km west and 500 km south of the false origin.
    let (column, row) = (column + 10, row + 5);
    if !(0..25).contains(&column) || !(0..25).contains(&row) {
        return None;
    }
    let letter = |column: i64, row: i64| char::from(LETTERS[((4 - row) * 5 + column) as usize]);
    Some([letter(column / 5, row / 5), letter(column % 5, row % 5)].iter().collect())
}

/// Whether a text would be a British reference if a figure 0 among its two letters were an O.
pub fn zero_for_o(text: &str, system: Option<&System>) -> bool {
    let trimmed = text.trim_start();
    let mut front = trimmed.chars();
    let (Some(first), Some(second)) = (front.next(), front.next()) else { return false };
    let letters = match (first, second) {
        ('0', letter) if letter.is_ascii_alphabetic() => format!("O{letter}"),
        (letter, '0') if letter.is_ascii_alphabetic() => format!("{letter}O"),
        _ => return false,
    };
    read(&format!("{letters}{}", front.as_str()), system).is_some_and(|read| read.is_ok())
}

/// The reference of a cell, of its south-west corner, with the figures that its side allows; `None`
/// off the lettered squares.
pub fn reference(system: &System, cell: Cell) -> Option<String> {
    let square = if is_irish(system) { irish_square } else { british_square };
    let side = i64::from(cell.side_m);
    let (west, south) = (i64::from(cell.column) * side, i64::from(cell.row) * side);
    let letters = square(west.div_euclid(100_000), south.div_euclid(100_000))?;
    // The largest power of ten that divides the side: 1 km for 2 km, 10 m for 50 m.
    let step = (0..=5).rev().map(|power| 10_i64.pow(power)).find(|step| side % step == 0)?;
    let width = 5 - step.ilog10() as usize;
    if width == 0 {
        return Some(letters);
    }
    let (east, north) = (west.rem_euclid(100_000) / step, south.rem_euclid(100_000) / step);
    Some(format!("{letters} {east:0width$} {north:0width$}"))
}
