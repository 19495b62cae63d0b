//! Two columns of bare figures, as a program writes them: nearly every row of a long table.
//!
//! A short cut and no other way: what it takes, it reads as the whole reader would (a test holds both side by
//! side), and what it does not take is left to that one.

/// Two figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plain {
    /// The first.
    pub first: f64,
    /// The second.
    pub second: f64,
    /// Decimals written of each: with the unit, all that the square depends on.
    pub decimals: (u8, u8),
}

/// More digits after the point than this are left to the whole reader.
const MOST_DECIMALS: usize = 12;

/// Reads latitude and longitude, or (`in_degrees` not set) easting and northing of six whole digits or
/// seven, which bear no mark of a usual slip. `None` for all that is not as plain as that.
pub fn read_plain(first: &[u8], second: &[u8], in_degrees: bool) -> Option<Plain> {
    let one = |text: &[u8], most: f64| {
        let figures = match text {
            [b'-', figures @ ..] if in_degrees => figures,
            _ => text,
        };
        let whole = figures.iter().position(|byte| !byte.is_ascii_digit()).unwrap_or(figures.len());
        let (least, longest) = if in_degrees { (1, 3) } else { (6, 7) };
        if !(least..=longest).contains(&whole) {
            return None;
        }
        let decimals = match figures.get(whole) {
            None => 0,
            Some(b'.') => figures.len() - whole - 1,
            Some(_) => return None,
        };
        let ends_plain = decimals > 0 || figures.len() == whole;
        if !ends_plain
            || decimals > MOST_DECIMALS
            || !figures[figures.len() - decimals..].iter().all(u8::is_ascii_digit)
        {
            return None;
        }
        let value: f64 = std::str::from_utf8(text).ok()?.parse().ok()?;
        (value.abs() <= most).then_some((value, decimals as u8))
    };
    let (first, first_decimals) = one(first, if in_degrees { 90.0 } else { f64::INFINITY })?;
    let (second, second_decimals) = one(second, if in_degrees { 180.0 } else { f64::INFINITY })?;
    Some(Plain { first, second, decimals: (first_decimals, second_decimals) })
}
