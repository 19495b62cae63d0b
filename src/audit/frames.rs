//! The systems in which figures that name none may be places: those that hold the study's ground.

use std::collections::BTreeSet;

use geo::Rect;

use crate::coordinates::{Converter, System};
use crate::fault::Result;
use crate::ground::Ground;
use crate::study::PublicStudy;

/// How far round the public ground a place is looked for, metres: as far as a find may lie.
const REACH_M: f64 = 20_000.0;

/// One system, and what figures in it look like.
pub(super) struct Frame {
    pub system: System,
    pub degrees: bool,
    /// What a figure is multiplied by to become metres or degrees.
    pub times: f64,
    /// Figures that are a place in this frame alone to one who knows the place: parts of a reference, scaled whole
    /// numbers.
    pub plain: bool,
    pub x: (f64, f64),
    pub y: (f64, f64),
    /// What was cut off the front of each figure (the hundred kilometres of a lettered square), metres.
    pub added: (f64, f64),
}

/// All of them, round one study's ground. Shared by threads: each makes converters of its own.
pub struct Frames {
    /// The working grid.
    pub(super) grid: System,
    pub(super) frames: Vec<Frame>,
    /// Where places are looked for, working grid; `None` for everywhere.
    pub(super) reach: Option<Rect<f64>>,
}

/// Beyond this from the public ground two bare figures are no place to anybody's eyes, metres.
const BARE_M: f64 = 3_000.0;

const MERCATOR: u32 = 3857;

impl Frames {
    /// The frames of a study.
    pub fn of(study: &PublicStudy, ground: &Ground) -> Result<Self> {
        let grid = study.agreement.grid.clone();
        let reach = ground.frame().map(|frame| {
            let (min, max) = (frame.min(), frame.max());
            Rect::new((min.x - REACH_M, min.y - REACH_M), (max.x + REACH_M, max.y + REACH_M))
        });
        let mut frames = Vec::new();
        let mut systems = vec![grid.clone(), System::Wgs84];
        if let Some(reach) = reach {
            let to_degrees = Converter::new(&grid, &System::Wgs84)?;
            let centre = reach.center();
            systems.push(System::Epsg(MERCATOR));
            if let Ok((longitude, latitude)) = to_degrees.convert_xy(centre.x, centre.y) {
                // Near the edge of a zone people use the next one too.
                let zone = |longitude: f64| (((longitude + 180.0) / 6.0).floor() as u32).min(59) + 1;
                let zones: BTreeSet<u32> = [-1.0, 0.0, 1.0].map(|off| zone(longitude + off)).into();
                let hemisphere = if latitude < 0.0 { 32_700 } else { 32_600 };
                systems.extend(zones.into_iter().map(|zone| System::Epsg(hemisphere + zone)));
            }
            let known = [
                System::BritishGrid,
                System::Lambert93,
                System::Epsg(2157),
                System::Epsg(29_903),
                System::Epsg(3035),
            ];
            systems.extend(known.into_iter().filter(|system| {
                *system != grid
                    && Converter::new(&grid, system)
                        .and_then(|way| way.convert_xy(centre.x, centre.y))
                        .is_ok_and(|(x, y)| system.holds(x, y) != Some(false))
            }));
        }
        for system in systems {
            let degrees = system.in_degrees();
            let Some((x, y)) = ranges(&grid, &system, reach) else { continue };
            let frame = |times: f64, plain: bool| Frame {
                system: system.clone(),
                degrees,
                times,
                plain,
                x,
                y,
                added: (0.0, 0.0),
            };
            frames.push(frame(1.0, true));
            if reach.is_none() {
                continue;
            }
            if degrees {
                frames.extend(
                    [1e-7, 1e-6, 1e-5, 180.0 / std::f64::consts::PI].map(|times| frame(times, false)),
                );
            } else {
                // Kilometres, and millimetres and centimetres as whole numbers.
                frames.extend([1e3, 1e-3, 1e-2].map(|times| frame(times, false)));
            }
            if system.has_letters() {
                let squares = |(low, high): (f64, f64)| {
                    let (low, high) = ((low / 1e5).floor() as i64, (high / 1e5).floor() as i64);
                    (low..=high).map(|square| square as f64 * 1e5)
                };
                for east in squares(x) {
                    for north in squares(y) {
                        let within = |(low, high): (f64, f64), start: f64| {
                            ((low - start).max(0.0), (high - start).min(99_999.0))
                        };
                        frames.push(Frame {
                            x: within(x, east),
                            y: within(y, north),
                            added: (east, north),
                            ..frame(1.0, false)
                        });
                    }
                }
            }
        }
        Ok(Self { grid, frames, reach })
    }

    /// Whether a place lies on the public ground or close by, so that two figures that name nothing are taken for one.
    pub(super) fn holds_bare(&self, easting_m: f64, northing_m: f64) -> bool {
        let within = BARE_M - REACH_M;
        self.reach.is_none_or(|reach| {
            let (min, max) = (reach.min(), reach.max());
            easting_m >= min.x - within
                && easting_m <= max.x + within
                && northing_m >= min.y - within
                && northing_m <= max.y + within
        })
    }

    /// Whether a place of the working grid lies in reach.
    pub(super) fn holds(&self, easting_m: f64, northing_m: f64) -> bool {
        self.reach.is_none_or(|reach| {
            let (min, max) = (reach.min(), reach.max());
            easting_m >= min.x && easting_m <= max.x && northing_m >= min.y && northing_m <= max.y
        })
    }
}

type Range = (f64, f64);

/// West and east, south and north of the reach, seen in a system.
fn ranges(grid: &System, system: &System, reach: Option<Rect<f64>>) -> Option<(Range, Range)> {
    let Some(reach) = reach else {
        return if system.in_degrees() {
            Some(((-180.0, 180.0), (-90.0, 90.0)))
        } else {
            Some(((10_000.0, 10_000_000.0), (10_000.0, 10_000_000.0)))
        };
    };
    if grid == system {
        return Some(((reach.min().x, reach.max().x), (reach.min().y, reach.max().y)));
    }
    let way = Converter::new(grid, system).ok()?;
    let nothing = (f64::INFINITY, f64::NEG_INFINITY);
    let (mut x, mut y) = (nothing, nothing);
    for column in 0..=8 {
        for row in 0..=8 {
            let at = |low: f64, high: f64, step: i32| low + (high - low) * f64::from(step) / 8.0;
            let place = way
                .convert_xy(at(reach.min().x, reach.max().x, column), at(reach.min().y, reach.max().y, row));
            let Ok((east, north)) = place else { continue };
            x = (x.0.min(east), x.1.max(east));
            y = (y.0.min(north), y.1.max(north));
        }
    }
    (x.0 < x.1 && y.0 < y.1).then_some((x, y))
}
