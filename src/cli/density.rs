//! `strew density` and `strew concentrations`: one analysis each, as layers, tables and a sheet.

use std::path::PathBuf;

use super::{Outcome, StudyArguments};
use crate::run::Analysis;

/// Write the density surface: GeoTIFF, contours, table and sheet
#[derive(clap::Args)]
pub(super) struct DensityArguments {
    #[command(flatten)]
    common: StudyArguments,
    /// Draw the same finds at other bandwidths too: half, twice, and what each selector takes
    #[arg(long)]
    compare_bandwidths: bool,
    /// The folder to write [default: AUDIENCE-density beside the study file]
    #[arg(long, short, value_name = "FOLDER")]
    out: Option<PathBuf>,
}

/// Write the concentrations: outlines along square edges, tables and a sheet
#[derive(clap::Args)]
pub(super) struct ConcentrationsArguments {
    #[command(flatten)]
    common: StudyArguments,
    /// The folder to write [default: AUDIENCE-concentrations beside the study file]
    #[arg(long, short, value_name = "FOLDER")]
    out: Option<PathBuf>,
}

impl DensityArguments {
    pub(super) fn go(self) -> Outcome {
        let folder = self.common.folder(self.out.as_deref(), "-density");
        analyse(Analysis::Density { compare: self.compare_bandwidths }, &self.common, &folder)
    }
}

impl ConcentrationsArguments {
    pub(super) fn go(self) -> Outcome {
        let folder = self.common.folder(self.out.as_deref(), "-concentrations");
        analyse(Analysis::Concentrations, &self.common, &folder)
    }
}

/// Runs one analysis into `folder` and says what was written.
pub(super) fn analyse(analysis: Analysis, common: &StudyArguments, folder: &std::path::Path) -> Outcome {
    super::report::into_folder(common, folder, |opened, release, console| {
        crate::run::one_analysis(analysis, &opened.public, &opened.ground, release, console)
    })
}
