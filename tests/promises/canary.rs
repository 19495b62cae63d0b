//! No exact figure of the demo's register stands anywhere in its public pack: not as decimal degrees, not as
//! degrees, minutes and seconds, not as a grid reference, not as easting and northing, British or French.

use std::collections::BTreeSet;
use std::fs;
use std::io::Read;

use strew::coordinates::{Converter, Position, System, notation};

use super::common::{demo, files, run, said};

/// Every place of the register finer than 100 m, as (easting, northing) in the British grid and (latitude,
/// longitude).
fn exact_places() -> Vec<((f64, f64), (f64, f64))> {
    let folder = demo().parent().unwrap().to_path_buf();
    let to_grid = Converter::new(&System::Wgs84, &System::BritishGrid).unwrap();
    let to_degrees = Converter::new(&System::BritishGrid, &System::Wgs84).unwrap();
    let mut places = Vec::new();
    let mut take = |written: notation::Written| {
        if written.square_m >= 100.0 {
            return;
        }
        match written.position {
            Position::Projected { easting_m, northing_m } => {
                let (x, y) = to_degrees.convert_xy(easting_m, northing_m).unwrap();
                places.push(((easting_m, northing_m), (y, x)));
            }
            Position::Geographic { latitude_deg, longitude_deg } => {
                if let Ok(place) = to_grid.convert_xy(longitude_deg, latitude_deg) {
                    places.push((place, (latitude_deg, longitude_deg)));
                }
            }
        }
    };
    for file in files(&folder) {
        if file.extension().is_none_or(|e| e != "csv") || file.components().count() > 1 {
            continue;
        }
        let bytes = fs::read(folder.join(&file)).unwrap();
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let separator = if text.contains(';') { ';' } else { ',' };
        for line in text.lines() {
            let cells: Vec<&str> = line.split(separator).map(|cell| cell.trim_matches('"').trim()).collect();
            for (index, cell) in cells.iter().enumerate() {
                if cell.len() > 5 {
                    if let Ok(written) = notation::read(cell, None, separator == ';') {
                        take(written);
                    }
                }
                if let Some(next) = cells.get(index + 1) {
                    for pair in [notation::Pair::LatitudeLongitude, notation::Pair::EastingNorthing] {
                        let system = match pair {
                            notation::Pair::LatitudeLongitude => System::Wgs84,
                            notation::Pair::EastingNorthing => System::BritishGrid,
                        };
                        if let Ok(written) = notation::read_pair(cell, next, pair, &system, separator == ';')
                        {
                            let on_island = match written.position {
                                Position::Projected { easting_m, northing_m } => {
                                    (500_000.0..600_000.0).contains(&easting_m)
                                        && (500_000.0..600_000.0).contains(&northing_m)
                                }
                                Position::Geographic { latitude_deg, longitude_deg } => {
                                    (54.0..55.5).contains(&latitude_deg)
                                        && (-0.5..2.0).contains(&longitude_deg)
                                }
                            };
                            if on_island {
                                take(written);
                            }
                        }
                    }
                }
            }
        }
    }
    places
}

/// The texts by which one exact place could be told.
fn needles(
    ((easting, northing), (latitude, longitude)): ((f64, f64), (f64, f64)),
    lambert: &Converter,
) -> Vec<String> {
    let mut texts = Vec::new();
    // A whole kilometre or hectometre is a cell's own corner and tells nothing.
    let fine = |value: f64| (value.floor() as i64) % 100 != 0;
    for value in [easting, northing] {
        if fine(value) {
            texts.push(format!("{}", value.floor() as i64));
        }
    }
    for value in [latitude, longitude] {
        texts.push(format!("{:.5}", value.abs()));
        // Cut, not rounded, as another program would.
        texts.push(format!("{:.7}", value.abs())[..format!("{:.7}", value.abs()).len() - 2].to_owned());
        let seconds = (value.abs().fract() * 3600.0) % 60.0;
        let minutes = (value.abs().fract() * 60.0).floor();
        texts.push(format!("{}°{:02}′{:04.1}", value.abs().floor(), minutes, seconds));
        texts.push(format!("{}°{:02}'{:04.1}", value.abs().floor(), minutes, seconds));
    }
    let figures = (easting as i64 % 100_000, northing as i64 % 100_000);
    if fine(easting) || fine(northing) {
        for (digits, by) in [(5, 1), (4, 10)] {
            let (e, n) = (figures.0 / by, figures.1 / by);
            texts.push(format!("OV {e:0digits$} {n:0digits$}"));
            texts.push(format!("OV{e:0digits$}{n:0digits$}"));
        }
    }
    if let Ok((x, y)) = lambert.convert_xy(easting, northing) {
        texts.push(format!("{}", x.floor() as i64));
        texts.push(format!("{}", y.floor() as i64));
    }
    texts
}

/// A file's bytes, and those of what is packed inside it (ZIP parts, PDF streams).
fn layers_of(bytes: &[u8]) -> Vec<Vec<u8>> {
    let mut all = vec![bytes.to_vec()];
    if bytes.starts_with(b"PK") {
        let mut archive = zip::ZipArchive::new(std::io::Cursor::new(bytes)).unwrap();
        for index in 0..archive.len() {
            let mut part = Vec::new();
            archive.by_index(index).unwrap().read_to_end(&mut part).unwrap();
            all.push(part);
        }
    }
    if bytes.starts_with(b"%PDF") {
        let mut from = 0;
        while let Some(at) = find(&bytes[from..], b"stream") {
            let start = from + at + 6;
            let start = start + bytes[start..].iter().take_while(|b| matches!(b, b'\r' | b'\n')).count();
            let mut part = Vec::new();
            let _ = flate2::read::ZlibDecoder::new(&bytes[start..]).read_to_end(&mut part);
            if !part.is_empty() {
                all.push(part);
            }
            from = start;
        }
    }
    all
}

fn find(haystack: &[u8], needle: &[u8]) -> Option<usize> {
    haystack.windows(needle.len()).position(|window| window == needle)
}

/// Every run of digits, points, letters and marks that a needle could be: tokens of the bytes.
fn holds(haystack: &[u8], needles: &BTreeSet<Vec<u8>>) -> Option<String> {
    let lengths: BTreeSet<usize> = needles.iter().map(Vec::len).collect();
    let digit = |index: Option<usize>| index.and_then(|i| haystack.get(i)).is_some_and(u8::is_ascii_digit);
    for at in 0..haystack.len() {
        // A needle starts with a digit or OV, and is not the middle of a longer number.
        if !(haystack[at].is_ascii_digit() || haystack[at] == b'O') || digit(at.checked_sub(1)) {
            continue;
        }
        for length in &lengths {
            let Some(window) = haystack.get(at..at + length) else { continue };
            if needles.contains(window) {
                let whole_number = window.iter().all(u8::is_ascii_digit);
                let text = String::from_utf8_lossy(window).into_owned();
                // Whole numbers must end where the needle does; decimals may go on.
                if !(whole_number && digit(Some(at + length))) {
                    return Some(text);
                }
            }
        }
    }
    None
}

#[test]
fn no_exact_figure_stands_in_the_demos_public_pack() {
    let places = exact_places();
    assert!(places.len() > 300, "the demo has exact places: {}", places.len());
    let lambert = Converter::new(&System::BritishGrid, &System::Lambert93);
    let lambert = match lambert {
        Ok(lambert) => lambert,
        // Lambert-93 stops short of the island: search in UTM 31N instead.
        Err(_) => Converter::new(&System::BritishGrid, &System::Epsg(25831)).unwrap(),
    };
    let needles: BTreeSet<Vec<u8>> =
        places.iter().flat_map(|place| needles(*place, &lambert)).map(String::into_bytes).collect();
    // The search finds what is planted.
    let planted = needles.iter().next().unwrap();
    assert!(holds(&[b"x ".as_slice(), planted, b" y"].concat(), &needles).is_some());
    let folder = tempfile::tempdir().unwrap();
    let pack = folder.path().join("pack");
    let output = run(&["report", demo().to_str().unwrap(), "--out", pack.to_str().unwrap()]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{out}{err}");
    let mut searched = 0;
    for file in files(&pack) {
        // Pictures hold pixels, which `factoring` compares; a number by chance in them tells nothing.
        if file.extension().is_some_and(|e| e == "png" || e == "tif") {
            continue;
        }
        for layer in layers_of(&fs::read(pack.join(&file)).unwrap()) {
            searched += layer.len();
            // Check sums are digits by chance; they stand in the manifest alone.
            if file.ends_with("MANIFEST.json") {
                continue;
            }
            if let Some(found) = holds(&layer, &needles) {
                panic!("{}: an exact figure ({} characters)", file.display(), found.len());
            }
        }
    }
    assert!(searched > 100_000);
    for words in [out, err] {
        assert!(holds(words.as_bytes(), &needles).is_none());
    }
}
