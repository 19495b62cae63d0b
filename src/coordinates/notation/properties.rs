//! What holds for every text and every place, by property test.
#![allow(clippy::panic)] // a test's way to fail

use proptest::prelude::*;

use super::*;

proptest! {
    #[test]
    fn no_text_makes_it_panic(text in "\\PC*", comma: bool) {
        for system in [None, Some(&System::BritishGrid), Some(&System::Lambert93), Some(&System::Wgs84)] {
            let _ = read(&text, system, comma);
        }
        let _ = read_pair(&text, &text, Pair::EastingNorthing, &System::BritishGrid, comma);
        let _ = read_pair(&text, &text, Pair::LatitudeLongitude, &System::Wgs84, comma);
        let _ = cut_places(&text);
    }

    /// The same from the characters that places are made of, which reach deeper.
    #[test]
    fn no_near_place_makes_it_panic(text in "[0-9NSEWOVI°'\" .,;:/+-]{0,24}", comma: bool) {
        for system in [None, Some(&System::BritishGrid), Some(&System::Wgs84)] {
            if let Ok(written) = read(&text, system, comma) {
                let (a, b) = match written.position {
                    Position::Geographic { latitude_deg, longitude_deg } => (latitude_deg, longitude_deg),
                    Position::Projected { easting_m, northing_m } => (easting_m, northing_m),
                };
                prop_assert!(a.is_finite() && b.is_finite() && written.square_m > 0.0);
            }
        }
        let _ = cut_places(&text);
    }

    /// A reference written for a place names a square that holds the place, and reads back as it.
    #[test]
    fn references_hold_their_place(e in 0.0..699_999.0_f64, n in 0.0..1_249_999.0_f64, power in 0_u32..=4) {
        let cell = Cell::holding(e, n, 10_u32.pow(power)).unwrap();
        let written = read(&reference(&System::BritishGrid, cell), None, false).unwrap();
        prop_assert_eq!(written.square_m, f64::from(cell.side_m));
        let corner = Position::Projected { easting_m: cell.west_m(), northing_m: cell.south_m() };
        prop_assert_eq!(written.corner, Some(corner));
        prop_assert!(cell.west_m() <= e && e < cell.east_m() && cell.south_m() <= n && n < cell.north_m());
    }

    #[test]
    fn degrees_read_back(latitude in -89.9..89.9_f64, longitude in -179.9..179.9_f64, decimals in 1_usize..9) {
        let text = format!("{latitude:.decimals$}, {longitude:.decimals$}");
        let written = read(&text, None, false).unwrap();
        let Position::Geographic { latitude_deg, longitude_deg } = written.position else { panic!() };
        let within = 0.6 / 10_f64.powi(decimals as i32);
        prop_assert!((latitude_deg - latitude).abs() < within && (longitude_deg - longitude).abs() < within);
    }

    /// Seconds in letters, both hemispheres.
    #[test]
    fn seconds_read_back(d in 0_u32..89, m in 0_u32..60, s in 0_u32..60, south: bool, west: bool) {
        let (ns, ew) = (if south { 'S' } else { 'N' }, if west { 'W' } else { 'E' });
        let size = f64::from(d) + f64::from(m) / 60.0 + f64::from(s) / 3600.0;
        let written = read(&format!("{d}°{m}'{s}\"{ns} {d}°{m}'{s}\"{ew}"), None, false).unwrap();
        let Position::Geographic { latitude_deg, longitude_deg } = written.position else { panic!() };
        let (latitude, longitude) = (if south { -size } else { size }, if west { -size } else { size });
        prop_assert!((latitude_deg - latitude).abs() < 1e-9);
        prop_assert!((longitude_deg - longitude).abs() < 1e-9);
    }

    /// Reference and reading agree in the military grid, and the square holds the place.
    #[test]
    fn military_references_read_back(e in 100_000.0..899_999.0_f64, latitude in 0.5..83.5_f64, zone in 1_u32..=60,
                                     figures in 1_usize..=5) {
        let n = latitude * 111_000.0 * 0.9996;
        let text = mgrs(zone, latitude, e, n, figures).unwrap();
        let written = read(&text, None, false).unwrap();
        let Some(Position::Projected { easting_m, northing_m }) = written.corner else { panic!() };
        prop_assert!(easting_m <= e && e < easting_m + written.square_m, "{} {}", text, easting_m);
        prop_assert!(northing_m <= n && n < northing_m + written.square_m, "{} {}", text, northing_m);
        prop_assert_eq!(written.system, System::Epsg(32600 + zone));
    }

    /// Whatever is read is cut out of a note: no figure of it stays.
    #[test]
    fn what_is_read_is_cut(e in 0_u32..100_000, n in 0_u32..100_000, d in 0_u32..89, m in 0_u32..60,
                           s in 0_u32..600, f in 1000_u32..100_000, form in 0_usize..24) {
        let (tenths, rest) = (s / 10, s % 10);
        let text = match form {
            0 => format!("OV {e:05} {n:05}"),
            1 => format!("OV{:04}{:04}", e / 10, n / 10),
            2 => format!("ov {:03} {:03}", e / 100, n / 100),
            3 => format!("OV {:02} {:02}", e / 1000, n / 1000),
            4 => format!("O {:03} {:03}", e / 100, n / 100),
            5 => format!("{}.{f:05}, -{}.{f:05}", d, d / 2),
            6 => format!("{d},{f:05} -{d},{f:05}"),
            7 => format!("{d}°{m}'{tenths}.{rest}\"N {d}°{m}'{tenths}.{rest}\"W"),
            8 => format!("{d}° {m}.{f}' N, {d}° {m}.{f}' W"),
            9 => format!("N{d} {m}.{f} W{d} {m}.{f}"),
            10 => format!("{d} {m} {tenths}.{rest} N {d} {m} {tenths}.{rest} W"),
            11 => format!("{} {}", 500_000 + e, 500_000 + n),
            12 => format!("E {} N {}", 500_000 + e, 500_000 + n),
            13 => format!("{} {}", 600_000 + e, 6_800_000 + n),
            14 => format!("EPSG:2154 {} {}", 600_000 + e, 6_800_000 + n),
            15 => format!("30U {} {}", 600_000 + e, 5_700_000 + n),
            16 => format!("31UDQ{e:05}{n:05}"),
            17 => format!("1kmN{}E{}", 2000 + e / 1000, 4000 + n / 1000),
            18 => format!("+{:02}.{f:05}-{:03}.{f:05}/", d, d),
            19 => format!("geo:{d}.{f:05},-{d}.{f:05}"),
            20 => format!("{}.{} {}.{}", 500_000 + e, rest, 500_000 + n, rest),
            21 => format!("lat {d}.{f:05} lon -{d}.{f:05}"),
            22 => format!("{}E {}N", 500_000 + e, 500_000 + n),
            _ => format!("{d}d{m}m{tenths}s N {d}d{m}m{tenths}s W"),
        };
        let cut = cut_places(&format!("a flake ({text}) by the hedge"));
        prop_assert!(!cut.chars().any(|c| c.is_ascii_digit()), "{} -> {}", text, cut);
    }

    #[test]
    fn figures_read_back(e in 100_000_u32..700_000, n in 100_000_u32..1_250_000, decimals in 0_usize..4) {
        let text = format!("{:.decimals$} {:.decimals$}", f64::from(e), f64::from(n));
        let written = read(&text, Some(&System::BritishGrid), false).unwrap();
        let expected = Position::Projected { easting_m: f64::from(e), northing_m: f64::from(n) };
        prop_assert_eq!(written.position, expected);
    }
}
