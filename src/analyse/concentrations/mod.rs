//! Patches where finds lie thick, each with its peak, its outline along the edges of squares, and how firm it is.
//!
//! ```text
//! field      the surface as means over squares
//! basins     each square drains to its peak; lesser peaks are merged by persistence
//! region     the squares that belong: those of highest density, in pieces that hang together
//! even, envelope   or those that an even scatter of the records would hardly reach
//! blur       the density by squares for any weights, thousands of times
//! firm       in how many resamples each patch stays
//! describe, table   what each is made of
//! ```
//!
//! `docs/method.md` gives the steps and the works they rest on.

mod basins;
mod blur;
mod describe;
mod envelope;
mod even;
mod field;
mod firm;
mod region;
mod table;

pub(in crate::analyse) use describe::{Extent, Held};
pub use describe::{in_one_square, told_densities};
pub use even::Over;
pub use table::concentration_table;

use std::cmp::Reverse;

use blur::Blur;
use describe::{describe, letter, peaks};
use envelope::Envelope;
use even::{Record, Scatter, evenly_over, records};
use field::Field;

use super::kde::Edge;
use super::{Chance, Concentration, Surface};
use crate::exact::{Published, ReleasedFind};
use crate::fault::Result;
use crate::ground::Ground;
use crate::study::{Bound, ConcentrationSettings, EdgeCorrection, Precision, PublicStudy};

/// What was found.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Concentrations {
    /// The patches, richest first.
    pub list: Vec<Concentration>,
    /// What simulations say of the whole, where they bound the patches.
    pub test: Option<EvenTest>,
}

/// The finds against an even scatter, over all squares at once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EvenTest {
    /// The ground that the scatter falls over.
    pub over: Over,
    /// (1 + b) / (1 + N).
    pub p: f64,
}

/// The concentrations of a surface, richest first. None where the audience is shown parishes alone.
///
/// # Errors
/// When an envelope is asked for and there is neither land nor public walked ground to scatter over.
pub fn concentrations(
    published: &Published,
    study: &PublicStudy,
    ground: &Ground,
    surface: &Surface,
) -> Result<Concentrations> {
    let Precision::Square { side_m } = study.agreement.precision else {
        return Ok(Concentrations::default());
    };
    let settings = &study.concentrations;
    let field = Field::of(surface, side_m);
    let held: Vec<(Record, &ReleasedFind)> = records(published, study, surface);
    let records: Vec<Record> = held.iter().map(|(record, _)| *record).collect();
    let edge = match surface.made.edge {
        EdgeCorrection::Diggle => Edge::Diggle,
        EdgeCorrection::Uniform => Edge::Uniform,
        EdgeCorrection::None => Edge::None,
    };
    let sides = records.iter().map(|record| record.cell.side_m);
    let blur = Blur::new(&field, sides, surface.made.kernel, edge);
    let (envelope, test) = match settings.bound {
        Bound::Share => (None, None),
        Bound::Envelope { simulations, level, pointwise } => {
            let (over, hectares) = evenly_over(&field.lattice, ground, &records)?;
            let scatter = Scatter::new(&blur, &field.lattice, &hectares, &records, settings.seed);
            let mut weights = blur.nothing();
            for record in &records {
                let Some((side, at)) = blur.place(record.cell) else { continue };
                if let Some(weight) = weights.get_mut(&side).and_then(|weights| weights.get_mut(at)) {
                    *weight += f64::from(record.pieces);
                }
            }
            let envelope =
                Envelope::new(&blur, &scatter, &weights, &hectares, simulations, level, !pointwise);
            let test = EvenTest { over, p: envelope.p() };
            (Some(envelope), Some(test))
        }
    };
    let region = match (&envelope, settings.bound) {
        (Some(envelope), Bound::Envelope { level, pointwise, .. }) => {
            let p = if pointwise { &envelope.pointwise } else { &envelope.global };
            p.iter().map(|p| *p <= level * (1.0 + 1e-9)).collect()
        }
        _ => region::densest(&field, settings.share),
    };
    let found = patches_of(&field, &region, settings);
    let peaks = peaks(surface, &field, &found);
    let mut list: Vec<(Vec<usize>, Concentration)> = Vec::new();
    for (patch, peak_per_hectare) in found.into_iter().zip(peaks) {
        let chance = envelope.as_ref().map(|envelope| {
            let least = |p: &[f64]| patch.iter().map(|at| p[*at]).fold(1.0, f64::min);
            Chance { pointwise: least(&envelope.pointwise), global: least(&envelope.global) }
        });
        let described = Concentration { peak_per_hectare, chance, ..describe(&patch, &field, &held) };
        if described.pieces >= u64::from(settings.smallest) {
            list.push((patch, described));
        }
    }
    list.sort_by_key(|(_, patch)| {
        let west = patch.cells.iter().map(|cell| cell.column).min();
        let south = patch.cells.iter().map(|cell| cell.row).min();
        (Reverse(patch.pieces), west, south)
    });
    let (patches, mut list): (Vec<Vec<usize>>, Vec<Concentration>) = list.into_iter().unzip();
    for (index, patch) in list.iter_mut().enumerate() {
        patch.letter = letter(index);
    }
    if settings.resamples > 0 {
        let units = firm::Units::of(&blur, &held);
        let find = |field: &Field| {
            let region = match &envelope {
                Some(envelope) => field.density.iter().zip(&envelope.limit).map(|(d, l)| d > l).collect(),
                None => region::densest(field, settings.share),
            };
            patches_of(field, &region, settings)
        };
        let stays = firm::stays(&patches, &blur, &units, settings.resamples, settings.seed, find);
        for (patch, stays) in list.iter_mut().zip(stays) {
            patch.stays = Some((stays, settings.resamples));
        }
    }
    Ok(Concentrations { list, test })
}

/// The pieces of a region, parted by the peaks that they drain to.
fn patches_of(field: &Field, region: &[bool], settings: &ConcentrationSettings) -> Vec<Vec<usize>> {
    region::patches(&field.lattice, region, &basins::basins(field, settings.prominence))
}
