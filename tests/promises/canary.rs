//! No exact figure of the demo's register stands anywhere in its public pack: not as decimal degrees, not as
//! degrees, minutes and seconds, not as a grid reference, not as easting and northing, British or French.

use std::collections::{BTreeMap, BTreeSet};
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
                if cell.len() > 5
                    && let Ok(written) = notation::read(cell, None, separator == ';')
                {
                    take(written);
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

/// The pairs of texts by which one exact place could be told. One figure alone tells nothing: among thousands
/// of squares' corners some share five decimals of a latitude with some find. Both figures close together do.
fn needles(
    ((easting, northing), (latitude, longitude)): ((f64, f64), (f64, f64)),
    carried: &Converter,
) -> Vec<(String, String)> {
    let mut pairs = Vec::new();
    let metres = |value: f64| format!("{}", value.floor() as i64);
    // A whole hectometre is a cell's own corner and tells nothing.
    let fine = |value: f64| (value.floor() as i64) % 100 != 0;
    if fine(easting) && fine(northing) {
        pairs.push((metres(easting), metres(northing)));
    }
    // Cut as written, and rounded as another program would.
    let cut =
        |value: f64| format!("{:.7}", value.abs())[..format!("{:.7}", value.abs()).len() - 2].to_owned();
    let rounded = |value: f64| format!("{:.5}", value.abs());
    for write in [&cut as &dyn Fn(f64) -> String, &rounded] {
        pairs.push((write(latitude), write(longitude)));
    }
    for (minute, tenths) in [("′", true), ("'", true), ("′", false), ("'", false)] {
        let dms = |value: f64| {
            let (minutes, seconds) =
                ((value.abs().fract() * 60.0).floor(), (value.abs().fract() * 3600.0) % 60.0);
            let seconds = if tenths { format!("{seconds:04.1}") } else { format!("{:02}", seconds.floor()) };
            format!("{}°{minutes:02}{minute}{seconds}", value.abs().floor())
        };
        pairs.push((dms(latitude), dms(longitude)));
    }
    let figures = (easting as i64 % 100_000, northing as i64 % 100_000);
    for (digits, by) in [(5, 1), (4, 10)] {
        let (e, n) = (figures.0 / by, figures.1 / by);
        if e % (100 / by) == 0 && n % (100 / by) == 0 {
            continue;
        }
        for reference in [format!("OV {e:0digits$} {n:0digits$}"), format!("OV{e:0digits$}{n:0digits$}")] {
            pairs.push((reference.clone(), reference));
        }
    }
    if let Ok((x, y)) = carried.convert_xy(easting, northing) {
        pairs.push((metres(x), metres(y)));
    }
    pairs
}

/// Needles by their text: each with the pairs that it belongs to.
type Needles = BTreeMap<Vec<u8>, BTreeSet<usize>>;

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

/// How many bytes may lie between the two figures of one place.
const APART: usize = 120;

/// Whether both figures of some pair stand close together.
fn holds(haystack: &[u8], needles: &Needles) -> bool {
    let lengths: BTreeSet<usize> = needles.keys().map(Vec::len).collect();
    let digit = |index: Option<usize>| index.and_then(|i| haystack.get(i)).is_some_and(u8::is_ascii_digit);
    // The pairs seen lately: which figure (by its text) and where.
    let mut seen: BTreeMap<usize, (usize, Vec<u8>)> = BTreeMap::new();
    for at in 0..haystack.len() {
        // A needle starts with a digit or OV, and is not the middle of a longer number.
        if !(haystack[at].is_ascii_digit() || haystack[at] == b'O') || digit(at.checked_sub(1)) {
            continue;
        }
        for length in &lengths {
            let Some(window) = haystack.get(at..at + length) else { continue };
            // Whole numbers must end where the needle does; decimals may go on.
            if window.iter().all(u8::is_ascii_digit) && digit(Some(at + length)) {
                continue;
            }
            for pair in needles.get(window).into_iter().flatten() {
                if window[0] == b'O' {
                    return true;
                }
                if seen.get(pair).is_some_and(|(before, text)| at - before < APART && text != window) {
                    return true;
                }
                seen.insert(*pair, (at, window.to_vec()));
            }
        }
    }
    false
}

#[test]
fn no_exact_figure_stands_in_the_demos_public_pack() {
    let places = exact_places();
    assert!(places.len() > 300, "the demo has exact places: {}", places.len());
    // Projected otherwise: in UTM 31N, since Lambert-93 stops short of the island.
    let carried = Converter::new(&System::BritishGrid, &System::Epsg(25831)).unwrap();
    let pairs: Vec<(String, String)> = places.iter().flat_map(|place| needles(*place, &carried)).collect();
    let mut needles = Needles::new();
    for (index, (first, second)) in pairs.iter().enumerate() {
        for text in [first, second] {
            needles.entry(text.clone().into_bytes()).or_default().insert(index);
        }
    }
    // The search finds what is planted, in every notation, and not one figure alone.
    for (first, second) in &pairs {
        assert!(holds(format!("[{first}, {second}]").as_bytes(), &needles), "{first} {second}");
    }
    let (latitude, _) = &pairs[pairs.iter().position(|(first, _)| first.contains('.')).unwrap()];
    assert!(!holds(format!("[{latitude}, 0.1]").as_bytes(), &needles));
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
            assert!(!holds(&layer, &needles), "{}: an exact place", file.display());
        }
    }
    assert!(searched > 100_000);
    for words in [out, err] {
        assert!(!holds(words.as_bytes(), &needles));
    }
}
