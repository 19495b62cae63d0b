//! Clean copies of photographs: every picture of a folder, under a name that tells nothing.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use super::Progress;
use crate::audit;
use crate::fault::{Fault, Result};
use crate::pack::{Readers, make_folder, write_new_file};

/// What became of the pictures.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Photographs {
    /// Copies that were written, each with the name of what it was made from.
    pub written: Vec<(PathBuf, String)>,
    /// What was not copied, and why.
    pub refused: Vec<Fault>,
}

/// Writes a clean copy of each picture of a folder (or of one picture) into another folder. Names say the order
/// alone unless `keep_names`. What is no picture that can be cleaned is not copied.
pub fn photographs(
    from: &Path,
    into: &Path,
    keep_names: bool,
    progress: &dyn Progress,
) -> Result<Photographs> {
    let unread = |path: &Path, why: std::io::Error| {
        Fault::new("audit-unreadable").with("path", path.display()).because(&why)
    };
    let mut paths = Vec::new();
    if from.is_dir() {
        for entry in fs::read_dir(from).map_err(|why| unread(from, why))? {
            let path = entry.map_err(|why| unread(from, why))?.path();
            if path.is_file() {
                paths.push(path);
            }
        }
        paths.sort();
    } else {
        paths.push(from.to_path_buf());
    }
    progress.step("step-photographs");
    let mut done = Photographs::default();
    let mut taken = BTreeSet::new();
    let width = paths.len().to_string().len().max(2);
    for path in &paths {
        let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        let bytes = fs::read(path).map_err(|why| unread(path, why))?;
        match audit::clean(&bytes) {
            Ok(copy) => {
                let stem = if keep_names {
                    path.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().into_owned())
                } else {
                    format!("photograph-{:0width$}", done.written.len() + 1)
                };
                let target = into.join(format!("{stem}.{}", copy.ending));
                if !taken.insert(target.clone()) {
                    done.refused.push(Fault::new("photographs-name-taken").in_file(name));
                    continue;
                }
                make_folder(into)?;
                write_new_file(&target, &copy.bytes, Readers::Everyone)?;
                done.written.push((target, name));
            }
            Err(fault) => done.refused.push(fault.in_file(name)),
        }
    }
    Ok(done)
}
