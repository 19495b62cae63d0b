//! `strew submit`: the submission for a record office.

use std::path::PathBuf;

use super::{Outcome, StudyArguments};

/// Write the submission for a record office: CSV, GeoPackage and a sheet to print, at the agreed precision
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The study file
    study: PathBuf,
    /// The audience, as named by an [agreement.NAME] of the study file
    #[arg(long = "for", value_name = "AUDIENCE", default_value = "office")]
    audience: String,
    /// The folder to write [default: AUDIENCE-submission beside the study file]
    #[arg(long, short, value_name = "FOLDER")]
    out: Option<PathBuf>,
    /// Print a machine-readable summary on standard output
    #[arg(long)]
    json: bool,
    /// Print nothing but warnings and faults
    #[arg(long, short)]
    quiet: bool,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let common =
            StudyArguments { study: self.study, audience: self.audience, json: self.json, quiet: self.quiet };
        let folder = common.folder(self.out.as_deref(), "-submission");
        super::report::into_folder(&common, &folder, |opened, release, console| {
            crate::run::submission(&opened.public, &opened.ground, release, console)
        })
    }
}
