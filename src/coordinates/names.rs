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
    ("jersey-grid", 3109),
    ("guernsey-grid", 3108),
    ("dutch-grid", 28992),
    ("rijksdriehoek", 28992),
    ("rd-new", 28992),
    ("belgian-lambert-1972", 31370),
    ("belgian-lambert-72", 31370),
    ("belgian-lambert-2008", 3812),
    ("swiss-lv95", 2056),
    ("lv95", 2056),
    ("swiss-lv03", 21781),
    ("lv03", 21781),
    ("gauss-kruger-2", 31466),
    ("gauss-kruger-3", 31467),
    ("gauss-kruger-4", 31468),
    ("gauss-kruger-5", 31469),
    ("danish-grid-1", 4093),
    ("dktm1", 4093),
    ("danish-grid-2", 4094),
    ("dktm2", 4094),
    ("danish-grid-3", 4095),
    ("dktm3", 4095),
    ("danish-grid-4", 4096),
    ("dktm4", 4096),
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
    // The form of UTM that the surveys of Germany, Denmark and others keep: on ETRS89.
    if let Some(zone) = name.strip_prefix("etrs89-utm-") {
        let zone: u32 = zone.strip_suffix('n')?.parse().ok()?;
        return (28..=37).contains(&zone).then_some(25800 + zone);
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
        25828..=25837 => Some(format!("etrs89-utm-{}n", code - 25800)),
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
            [("utm-30n", 32630), ("utm-1s", 32701), ("conic-conformal-46", 3946), ("etrs89-utm-32n", 25832)]
        {
            assert_eq!(code(text), Some(expected));
            assert_eq!(code(&name(expected).unwrap()), Some(expected));
        }
        assert_eq!(code("cc50"), Some(3950));
        for text in
            ["etrs89-utm-27n", "utm-61n", "utm-0n", "utm-30", "conic-conformal-41", "lambert-zone-5", ""]
        {
            assert_eq!(code(text), None, "{text}");
        }
    }
}
