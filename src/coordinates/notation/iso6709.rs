//! Latitude and longitude as one run of signed figures, after ISO 6709 (annex H): "+52.6580-001.7161/",
//! "+5239.48-00142.96/", "+523928.8-0014257.8/".

use super::degrees;
use super::{System, Written};
use crate::fault::{Fault, Result};

/// Reads one; `None` where the text does not have its shape: two signs, two figures of degrees of
/// latitude and three of longitude.
pub fn read(text: &str) -> Option<Result<Written>> {
    let (place, end) = match text.split_once('/') {
        Some((place, "")) => (place, true),
        Some(_) => return None,
        None => (text, false),
    };
    let place = place.split_once("CRS").map_or(place, |(place, _)| place);
    let rest = place.strip_prefix(['+', '-'])?;
    let split = rest.find(['+', '-'])? + 1;
    let (latitude, longitude) = place.split_at(split);
    let (longitude, height_m) = match longitude[1..].find(['+', '-']) {
        Some(height) => (&longitude[..height + 1], Some(longitude[height + 1..].parse::<f64>().ok()?)),
        None => (longitude, None),
    };
    let latitude = sexagesimal(latitude, 2)?;
    let longitude = sexagesimal(longitude, 3)?;
    let shape = |angle: &str| angle.matches(' ').count();
    // Without the closing stroke it might be two plain numbers of that width; those read the same.
    if shape(&latitude) != shape(&longitude) || (!end && shape(&latitude) == 0) {
        return (end).then(|| Err(Fault::new("place-unreadable")));
    }
    let read = degrees::read_pair(&latitude, &longitude, &System::Wgs84, false);
    Some(read.map(|place| Written { height_m, ..place }))
}

/// "+5239.48" as "+52 39.48": degrees of `width` figures, then minutes and seconds of two each.
fn sexagesimal(angle: &str, width: usize) -> Option<String> {
    let (sign, figures) = angle.split_at(1);
    let (whole, fraction) = figures.split_once('.').unwrap_or((figures, ""));
    let all_figures = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if !all_figures(whole) || !all_figures(fraction) {
        return None;
    }
    let mut parts = vec![whole.get(..width)?];
    match whole.len().checked_sub(width)? {
        0 => {}
        2 => parts.push(&whole[width..]),
        4 => parts.extend([&whole[width..width + 2], &whole[width + 2..]]),
        _ => return None,
    }
    let point = if fraction.is_empty() { "" } else { "." };
    Some(format!("{sign}{}{point}{fraction}", parts.join(" ")))
}
