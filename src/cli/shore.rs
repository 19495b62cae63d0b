//! `strew shore`: finds along the shore.

use std::path::PathBuf;

use super::{Outcome, StudyArguments};
use crate::run::Analysis;

/// Write finds along the shore: per kilometre by class and period, and where each square lies
#[derive(clap::Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    common: StudyArguments,
    /// The folder to write [default: AUDIENCE-shore beside the study file]
    #[arg(long, short, value_name = "FOLDER")]
    out: Option<PathBuf>,
}

impl Arguments {
    pub(super) fn go(self) -> Outcome {
        let folder = self.common.folder(self.out.as_deref(), "-shore");
        super::density::analyse(Analysis::Shore, &self.common, &folder)
    }
}
