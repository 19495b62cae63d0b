//! Names of systems, and the codes of the EPSG dataset that they stand for.

/// Irish Grid on the 1975 adjustment.
pub const IRISH_GRID: u32 = 29903;
/// Irish Grid on the 1965 adjustment, half a metre off the other at most.
pub const IRISH_GRID_1965: u32 = 29902;
/// Europe's equal-area grid, whose cells serve as a reference grid.
pub const EUROPEAN_GRID: u32 = 3035;

/// Names with one code each; the first name of a code is the one it is told by.
const NAMES: &[(&str, u32)] = &[
    ("wgs84", 4326),
    ("wgs-84", 4326),
    ("british-grid", 27700),
    ("lambert-93", 2154),
    ("irish-grid", IRISH_GRID),
    ("itm", 2157),
    ("lambert-zone-1", 27571),
    ("lambert-2-extended", 27572),
    ("lambert-zone-2", 27572),
    ("lambert-zone-3", 27573),
    ("lambert-zone-4", 27574),
];

/// The code of a name in lower case with hyphens.
pub fn code(name: &str) -> Option<u32> {
    if let Some((_, code)) = NAMES.iter().find(|(known, _)| *known == name) {
        return Some(*code);
    }
    if let Some(zone) = name.strip_prefix("conic-conformal-").or_else(|| name.strip_prefix("cc")) {
        let zone: u32 = zone.parse().ok()?;
        return (42..=50).contains(&zone).then_some(3900 + zone);
    }
    let zone = name.strip_prefix("utm-")?;
    let (zone, first) = match (zone.strip_suffix('n'), zone.strip_suffix('s')) {
        (Some(zone), _) => (zone, 32600),
        (_, Some(zone)) => (zone, 32700),
        _ => return None,
    };
    let zone: u32 = zone.parse().ok()?;
    (1..=60).contains(&zone).then_some(first + zone)
}

/// The name of a code.
pub fn name(code: u32) -> Option<String> {
    match code {
        3942..=3950 => Some(format!("conic-conformal-{}", code - 3900)),
        32601..=32660 => Some(format!("utm-{}n", code - 32600)),
        32701..=32760 => Some(format!("utm-{}s", code - 32700)),
        _ => NAMES.iter().find(|(_, known)| *known == code).map(|(name, _)| (*name).to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_codes_agree() {
        for (_, known) in NAMES {
            assert_eq!(code(&name(*known).unwrap()), Some(*known));
        }
        for (text, expected) in
            [("utm-30n", 32630), ("utm-1s", 32701), ("conic-conformal-46", 3946), ("cc50", 3950)]
        {
            assert_eq!(code(text), Some(expected));
            assert_eq!(code(&name(expected).unwrap()), Some(expected));
        }
        for text in ["utm-61n", "utm-0n", "utm-30", "conic-conformal-41", "lambert-zone-5", ""] {
            assert_eq!(code(text), None, "{text}");
        }
    }
}
