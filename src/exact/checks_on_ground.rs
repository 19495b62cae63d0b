//! Doubts that need the ground: off the land, in another parish, easting and northing swapped; and the
//! rows that an audience's release sets aside, listed for the owner.

use geo::{BoundingRect, Coord, Intersects, MultiPolygon, Point, Rect};

use super::find::ExactPlace;
use super::register::{Doubt, Field, Matter, Problem, Register};
use super::releasing::Placer;
use super::{ExactFind, Reason, Tally};
use crate::coordinates::{Cell, Converter, System};
use crate::fault::Result;
use crate::ground::{Ground, Partition};
use crate::study::PublicStudy;
use crate::study::vocabulary::{Setting, fold};

/// A larger square than this lies in no one parish and on no one side of the shore.
const LARGEST_SQUARE_M: f64 = 1_000.0;
/// A find from the shore can lie this far off the land layer, metres.
const FORESHORE_M: f64 = 500.0;

impl Register {
    /// Compares every find with the ground, adds what is doubtful, and lists what the release to the
    /// audience of `study` sets aside. Gives that audience's tally.
    pub fn check_on_ground(
        &mut self,
        study: &PublicStudy,
        ground: &Ground,
        partition: &Partition<'_>,
    ) -> Result<Tally> {
        let mut placer = Placer::new(study, partition);
        let mut onto_ground = OntoGround { study, converter: None };
        let land = Land::of(&ground.land);
        let mut tally = self.tally.clone();
        let mut found = Vec::new();
        for find in &self.finds {
            let place = onto_ground.carry(find)?;
            let swapped = || place.is_some_and(|at| land.holds_swapped(at, &find.place, partition));
            match placer.place(find)? {
                Err(reason) => {
                    tally.used -= 1;
                    *tally.set_aside.entry(reason).or_default() += 1;
                    found.push(problem(find, Matter::SetAside(reason), written(find)));
                    if swapped() {
                        found.push(problem(find, Matter::Doubt(Doubt::MaybeSwapped), written(find)));
                    }
                }
                Ok(_) => {
                    let Some(at) = place.filter(|at| at.square_m <= LARGEST_SQUARE_M) else { continue };
                    if !land.reaches(at, from_the_shore(find)) {
                        let doubt = if swapped() { Doubt::MaybeSwapped } else { Doubt::InTheSea };
                        found.push(problem(find, Matter::Doubt(doubt), written(find)));
                    } else if let Some(other) = other_parish(find, at, partition) {
                        let stated = find.parish.as_deref().unwrap_or_default();
                        let text = format!("{stated} / {other}");
                        found.push(problem(find, Matter::Doubt(Doubt::OtherParish), Some(text)));
                    }
                }
            }
        }
        for mut problem in found {
            let fields: &[Field] = match problem.matter {
                Matter::SetAside(Reason::ParishUnknown) | Matter::Doubt(Doubt::OtherParish) => {
                    &[Field::Parish]
                }
                _ => &[Field::Place, Field::Easting, Field::Latitude],
            };
            problem.column = self.heading(problem.file, fields);
            self.problems.add(problem);
        }
        self.problems.sort();
        Ok(tally)
    }
}

/// A find's nominal place in the grid of the ground.
#[derive(Clone, Copy)]
struct At {
    easting_m: f64,
    northing_m: f64,
    square_m: f64,
}

impl At {
    /// The place and the corners of its square, stated uncertainty included.
    fn points(self) -> [(f64, f64); 5] {
        let half = self.square_m / 2.0;
        let (e, n) = (self.easting_m, self.northing_m);
        [(e, n), (e - half, n - half), (e + half, n - half), (e - half, n + half), (e + half, n + half)]
    }
}

struct OntoGround<'a> {
    study: &'a PublicStudy,
    converter: Option<(System, Converter)>,
}

impl OntoGround<'_> {
    /// `None` for a find placed by its parish alone, and for one that cannot be carried.
    fn carry(&mut self, find: &ExactFind) -> Result<Option<At>> {
        let ExactPlace::Point { system, x, y, square_m, uncertainty_m, .. } = &find.place else {
            return Ok(None);
        };
        if self.converter.as_ref().is_none_or(|(known, _)| known != system) {
            self.converter = Some((system.clone(), Converter::new(system, &self.study.grid)?));
        }
        let Some((_, converter)) = &self.converter else { return Ok(None) };
        let square_m = square_m.max(2.0 * uncertainty_m.unwrap_or(0.0));
        let carried = converter.convert_xy(*x, *y).ok();
        Ok(carried.map(|(easting_m, northing_m)| At { easting_m, northing_m, square_m }))
    }
}

/// The land, each polygon with its box.
struct Land<'a> {
    polygons: Vec<(Rect<f64>, &'a geo::Polygon<f64>)>,
}

impl<'a> Land<'a> {
    fn of(land: &'a MultiPolygon<f64>) -> Self {
        let boxed = |polygon: &'a geo::Polygon<f64>| Some((polygon.bounding_rect()?, polygon));
        Self { polygons: land.iter().filter_map(boxed).collect() }
    }

    fn holds(&self, easting_m: f64, northing_m: f64) -> bool {
        let at = Coord { x: easting_m, y: northing_m };
        self.polygons
            .iter()
            .any(|(extent, polygon)| extent.intersects(&at) && polygon.intersects(&Point::from(at)))
    }

    /// Whether the land holds a place or a corner of its square. True without a land layer.
    fn reaches(&self, at: At, from_the_shore: bool) -> bool {
        let wider = At { square_m: at.square_m.max(2.0 * FORESHORE_M), ..at };
        let at = if from_the_shore { wider } else { at };
        self.polygons.is_empty() || at.points().into_iter().any(|(e, n)| self.holds(e, n))
    }

    /// Whether a place would lie on the study's land with its easting and northing swapped.
    fn holds_swapped(&self, at: At, place: &ExactPlace, partition: &Partition<'_>) -> bool {
        // Two figures can be swapped; a reference with letters keeps its square, and swaps within it.
        let ExactPlace::Point { written, system, .. } = place else { return false };
        if *system == System::Wgs84 {
            return false;
        }
        let lettered = written.trim_start().starts_with(|c: char| c.is_ascii_alphabetic());
        let side = 100_000.0;
        let (e, n) = if lettered {
            let (west, south) = ((at.easting_m / side).floor() * side, (at.northing_m / side).floor() * side);
            (west + (at.northing_m - south), south + (at.easting_m - west))
        } else {
            (at.northing_m, at.easting_m)
        };
        if self.polygons.is_empty() {
            return !lettered && Cell::holding(e, n, 1_000).is_some_and(|cell| partition.in_reach(cell));
        }
        self.holds(e, n)
    }
}

fn from_the_shore(find: &ExactFind) -> bool {
    matches!(find.setting, Setting::Beach | Setting::CliffFall | Setting::CliffSection)
}

/// The parish that a find lies in, where no part of its square lies in the stated one.
fn other_parish<'a>(find: &ExactFind, at: At, partition: &'a Partition<'_>) -> Option<&'a str> {
    let stated = find.parish.as_deref()?;
    let stated = partition.parish_named(stated).map_or_else(|| fold(stated), fold);
    let there = partition.parish_at(at.easting_m, at.northing_m)?;
    let anywhere = at
        .points()
        .into_iter()
        .filter_map(|(e, n)| partition.parish_at(e, n))
        .any(|parish| fold(parish) == stated);
    (!anywhere).then_some(there)
}

fn written(find: &ExactFind) -> Option<String> {
    match &find.place {
        ExactPlace::Point { written, .. } => Some(written.to_string()),
        ExactPlace::ParishOnly => find.parish.clone(),
    }
}

fn problem(find: &ExactFind, matter: Matter, text: Option<String>) -> Problem {
    Problem { file: find.file, row: find.row, column: None, matter, text, detail: None }
}
