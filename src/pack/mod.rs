//! Every file that is written: tables, layers, pictures, report, submission, manifest.
//!
//! A pack is composed whole in memory, then written to a new folder beside its place and renamed, so
//! that it appears whole or not at all.

use std::collections::BTreeMap;
use std::path::Path;

use crate::analyse::{Concentration, ShoreProfile, Surface, Table};
use crate::exact::Published;
use crate::fault::Result;
use crate::ground::{Ground, Partition};
use crate::sheet::Sheet;
use crate::study::PublicStudy;

/// The files written for one audience: path inside the pack (with `/`) to bytes.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Pack {
    files: BTreeMap<String, Vec<u8>>,
}

/// Everything a pack is made from: all of it published.
#[derive(Clone, Copy)]
pub struct Contents<'a> {
    /// The public study.
    pub study: &'a PublicStudy,
    /// Public ground.
    pub ground: &'a Ground,
    /// The partition of the ground.
    pub partition: &'a Partition<'a>,
    /// Published finds.
    pub published: &'a Published,
    /// The density surface, where it could be made.
    pub surface: Option<&'a Surface>,
    /// Concentrations.
    pub concentrations: &'a [Concentration],
    /// The shore, where the study has one.
    pub shore: Option<&'a ShoreProfile>,
    /// Tables in the order of the report.
    pub tables: &'a [Table],
    /// Sheets in the order of the report.
    pub sheets: &'a [Sheet],
}

impl Pack {
    /// The files, in order of path.
    pub fn files(&self) -> &BTreeMap<String, Vec<u8>> {
        &self.files
    }

    /// Adds a file.
    pub fn add(&mut self, path: impl Into<String>, bytes: impl Into<Vec<u8>>) {
        self.files.insert(path.into(), bytes.into());
    }

    /// Writes the pack as `folder`, whole or not at all. An earlier pack of ours there is replaced; any
    /// other folder is refused.
    pub fn write(&self, _folder: &Path) -> Result<()> {
        todo!("helper: pack")
    }
}

/// Composes the whole pack, giving what the agreement gives.
pub fn compose(_contents: &Contents<'_>) -> Result<Pack> {
    todo!("helper: pack")
}

/// Composes the submission for a record office: CSV, GeoPackage and a sheet to print.
pub fn submission(_contents: &Contents<'_>) -> Result<Pack> {
    todo!("helper: pack")
}
