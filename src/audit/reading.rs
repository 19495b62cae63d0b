//! From layers and vertices to places in the working grid.

use std::collections::BTreeMap;

use super::bytes::couples;
use super::figures::pairs;
use super::notations::{corner, noted};
use super::opening::Opened;
use super::plainly::plainly;
use super::{Form, Frames, Layer, Part, Sight};
use crate::coordinates::{Converter, System};
use crate::fault::Result;

/// Metres of a degree of latitude, near enough for the size of a figure.
const DEGREE_M: f64 = 111_320.0;

/// Ways into the working grid, made as they are needed.
struct Ways<'a> {
    grid: &'a System,
    made: BTreeMap<System, Option<Converter>>,
}

impl Ways<'_> {
    /// A place and the size of its last figures, carried into the working grid, metres.
    fn carry(&mut self, system: &System, (x, y): (f64, f64), unit: (f64, f64)) -> Option<[f64; 4]> {
        let way = self
            .made
            .entry(system.clone())
            .or_insert_with(|| Converter::new(system, self.grid).ok())
            .as_ref()?;
        let (easting_m, northing_m) = way.convert_xy(x, y).ok()?;
        let (east, north) = if system.in_degrees() {
            (unit.0 * DEGREE_M * y.to_radians().cos().abs().max(0.01), unit.1 * DEGREE_M)
        } else {
            unit
        };
        Some([easting_m, northing_m, east, north])
    }
}

/// Every place that can be read out of what was opened.
pub fn read(opened: &Opened, frames: &Frames) -> Result<Vec<Sight>> {
    let mut ways = Ways { grid: &frames.grid, made: BTreeMap::new() };
    let mut sights = Vec::new();
    for vertex in &opened.vertices {
        let (at, unit) = ((vertex.x, vertex.y), (vertex.unit, vertex.unit));
        let place = match &vertex.system {
            Some(system) => ways.carry(system, at, unit),
            None => frames
                .frames
                .iter()
                .filter(|frame| {
                    frame.plain
                        && (frame.x.0..=frame.x.1).contains(&at.0)
                        && (frame.y.0..=frame.y.1).contains(&at.1)
                })
                .find_map(|frame| ways.carry(&frame.system, at, unit)),
        };
        let camera = vertex.part == Part::Camera;
        let [easting_m, northing_m, east_m, north_m] = match place {
            Some(place) => place,
            // A camera's position is told even where the working grid does not reach.
            None if camera => [f64::MAX, f64::MAX, 0.0, 0.0],
            None => continue,
        };
        if camera || frames.holds(easting_m, northing_m) {
            sights.push(Sight {
                within: vertex.within.clone(),
                through: Vec::new(),
                kind: vertex.kind,
                easting_m,
                northing_m,
                east_m,
                north_m,
                side_m: None,
                plain: true,
                part: vertex.part,
                westward: vertex.x < 0.0,
                in_name: false,
            });
        }
    }
    for layer in &opened.layers {
        read_layer(layer, frames, &mut ways, &mut sights);
    }
    Ok(sights)
}

fn read_layer(layer: &Layer, frames: &Frames, ways: &mut Ways<'_>, sights: &mut Vec<Sight>) {
    let visible = matches!(layer.form, Form::Text | Form::Name);
    let mut add = |kind: &'static str, westward: bool, place: [f64; 4], side_m: Option<f64>, plain: bool| {
        let [easting_m, northing_m, east_m, north_m] = place;
        if frames.holds(easting_m, northing_m) {
            sights.push(Sight {
                within: layer.within.clone(),
                through: layer.through.clone(),
                kind,
                easting_m,
                northing_m,
                east_m,
                north_m,
                side_m,
                plain: plain && visible,
                part: Part::Place,
                westward,
                in_name: layer.form == Form::Name,
            });
        }
    };
    if layer.form == Form::Bytes {
        for couple in couples(&layer.bytes, frames) {
            let Some(frame) = frames.frames.get(couple.frame) else { continue };
            if let Some(place) =
                ways.carry(&frame.system, (couple.x, couple.y), (couple.unit_x, couple.unit_y))
            {
                add("audit-kind-numbers", couple.x < 0.0, place, None, false);
            }
        }
        return;
    }
    let text = without_long_runs(&String::from_utf8_lossy(&layer.bytes));
    let text = if layer.form == Form::Drawing { text.into() } else { plainly(&text) };
    for pair in pairs(&text, frames) {
        let Some(frame) = frames.frames.get(pair.frame) else { continue };
        // Places of a page are five figures too.
        if layer.form == Form::Drawing && frame.added != (0.0, 0.0) {
            continue;
        }
        let whole = (pair.x + frame.added.0, pair.y + frame.added.1);
        if let Some(place) = ways.carry(&frame.system, whole, (pair.unit_x, pair.unit_y)) {
            let kind = match (pair.sexagesimal, frame.degrees) {
                (true, _) => "audit-kind-minutes",
                (false, true) => "audit-kind-degrees",
                (false, false) => "audit-kind-metres",
            };
            let signed = pair.sexagesimal || frame.degrees;
            let plain = pair.plain && (signed || frames.holds_bare(place[0], place[1]));
            add(kind, pair.x < 0.0, place, None, plain);
        }
    }
    if layer.form == Form::Drawing {
        return;
    }
    for place in noted(&text, frames) {
        let written = &place.written;
        if let Some(at) = ways.carry(&written.system, corner(written), (0.0, 0.0)) {
            let [easting_m, northing_m, ..] = at;
            let side = written.square_m;
            let kind = match written.understood_as {
                "notation-letter-reference" => "audit-kind-reference",
                "notation-mgrs" => "audit-kind-military",
                _ => "audit-kind-other-notation",
            };
            add(kind, false, [easting_m, northing_m, side, side], Some(side), !place.swapped);
        }
    }
}

/// Text without runs that are packed bytes in letters: what they hold was unpacked, and letters and figures stand in
/// them by chance.
fn without_long_runs(text: &str) -> String {
    const LONGEST: usize = 200;
    let packed = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'+' | b'/' | b'=');
    let mut kept = String::with_capacity(text.len());
    let (mut start, mut last) = (0, 0);
    let bytes = text.as_bytes();
    for at in 0..=bytes.len() {
        if bytes.get(at).is_some_and(|byte| packed(*byte)) {
            continue;
        }
        if at - start > LONGEST
            && bytes.get(start..at).is_some_and(|run| run.iter().any(|byte| !byte.is_ascii_digit()))
        {
            kept.push_str(text.get(last..start).unwrap_or(""));
            kept.push(' ');
            last = at;
        }
        start = at + 1;
    }
    kept.push_str(text.get(last..).unwrap_or(""));
    kept
}
