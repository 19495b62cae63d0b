//! One analysis at a time, as a small pack of layers, tables and sheets.

use std::collections::BTreeSet;

use super::Progress;
use super::observe::{allow, contents, scene, shore_tables, work};
use crate::analyse::{
    Dimension, concentration_table, cross, shore_cells, surface_table, trials, trials_table,
};
use crate::exact::Release;
use crate::fault::{Fault, Result};
use crate::ground::{Ground, Partition};
use crate::pack::{self, Pack};
use crate::sheet::{self, MapKind};
use crate::study::{Attribute, Giving, LayerKind, PublicStudy};

/// An analysis that has a command of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Analysis {
    /// The density surface.
    Density {
        /// With small maps of other bandwidths beside it.
        compare: bool,
    },
    /// Concentrations (above 100 m cells, richer squares).
    Concentrations,
    /// Finds along the shore.
    Shore,
}

/// Runs one analysis of a release. What the agreement does not give is refused, with a hint.
pub fn one_analysis(
    analysis: Analysis,
    study: &PublicStudy,
    ground: &Ground,
    release: &Release,
    progress: &dyn Progress,
) -> Result<Pack> {
    let layer = match analysis {
        Analysis::Density { .. } => Some(Giving::Density),
        Analysis::Concentrations => Some(Giving::Concentrations),
        Analysis::Shore => None,
    };
    if let Some(giving) = layer {
        allow(study, giving)?;
    }
    if analysis == Analysis::Shore && !study.layers.iter().any(|layer| layer.kind == LayerKind::Shore) {
        return Err(Fault::new("run-no-shore"));
    }
    // The small pack gives no more than the agreement gives, and no more than was asked for.
    let mut study = study.clone();
    let asked: BTreeSet<Giving> = [Giving::Maps, Giving::Tables].into_iter().chain(layer).collect();
    study.agreement.give = study.agreement.give.intersection(&asked).copied().collect();
    let partition = Partition::fix(&study, ground)?;
    let worked = work(&study, ground, &partition, release, progress)?;
    let shows = |attribute| study.agreement.show.contains(&attribute);
    let (mut tables, mut sheets) = (Vec::new(), Vec::new());
    progress.step("step-sheets");
    let scene = scene(&study, ground, &worked);
    match (analysis, &worked.surface, &worked.shore) {
        (Analysis::Density { compare }, Some(surface), _) => {
            tables.push(surface_table(surface, &study));
            sheets.push(sheet::map(MapKind::Density, &scene, None, None)?);
            if compare {
                let trials = trials(&worked.published, &study, ground)?;
                tables.push(trials_table(&trials, &study));
                sheets.extend(sheet::compare_bandwidths(&trials, &scene)?);
            }
        }
        (Analysis::Concentrations, Some(_), _) => {
            tables.push(concentration_table(&worked.concentrations, &worked.published, &study));
            for (attribute, dimension) in
                [(Attribute::Class, Dimension::Class), (Attribute::Period, Dimension::Period)]
            {
                if shows(attribute) {
                    let found = &worked.concentrations.list;
                    let rows = Dimension::Concentration;
                    tables.push(cross(&worked.published, &study, &partition, found, rows, dimension));
                }
            }
            sheets.push(sheet::map(MapKind::Concentrations, &scene, None, None)?);
        }
        (Analysis::Shore, _, Some(shore)) => {
            tables.extend(shore_tables(&study, shore));
            tables.push(shore_cells(shore, &study));
            sheets.push(sheet::shore_figure(shore, &study, None)?);
        }
        _ => return Err(Fault::new("run-nothing-in-squares")),
    }
    progress.step("step-pack");
    pack::compose(&contents(&study, ground, &partition, &worked, &tables, &sheets))
}
