//! A point in well-known text, as map programs copy it: "POINT(1.716 52.658)", east before north.
//!
//! Source: OGC 06-103r4, *Simple feature access*, part 1, clause 7.

use super::{System, Written, degrees, figures};
use crate::fault::{Fault, Result};

/// Reads one; `None` where the text is none. Without a system the figures are longitude and latitude.
pub fn read(text: &str, system: Option<&System>) -> Option<Result<Written>> {
    let lower = text.to_lowercase();
    let rest = lower.strip_prefix("point")?.trim_start();
    let rest = rest.strip_prefix('z').unwrap_or(rest).trim_start();
    let inside = rest.strip_prefix('(')?.strip_suffix(')')?;
    Some(point(&inside.split_whitespace().collect::<Vec<_>>(), system))
}

fn point(figures: &[&str], system: Option<&System>) -> Result<Written> {
    let unreadable = || Fault::new("place-unreadable");
    let (x, y, height_m) = match figures {
        [x, y] => (x, y, None),
        [x, y, z] => (x, y, Some(z.parse::<f64>().ok().filter(|z| z.is_finite()).ok_or_else(unreadable)?)),
        _ => return Err(unreadable()),
    };
    // What fits degrees is too near the corner of any grid to be metres.
    let small = |text: &str, most: f64| text.parse::<f64>().is_ok_and(|value| value.abs() <= most);
    let fits_degrees = small(x, 180.0) && small(y, 90.0);
    let found = match system {
        Some(system) if !system.in_degrees() && fits_degrees => {
            degrees::read_pair(y, x, &System::Wgs84, false)?
        }
        Some(system) if !system.in_degrees() => figures::read_pair(x, y, system, false)?,
        _ => degrees::read_pair(y, x, system.unwrap_or(&System::Wgs84), false)?,
    };
    Ok(Written { understood_as: "notation-wkt-point", height_m, ..found })
}
