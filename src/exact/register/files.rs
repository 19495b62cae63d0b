//! Which files make the register.

use std::path::{Path, PathBuf};

use super::spreadsheet::is_spreadsheet;
use crate::fault::{Fault, Result};

/// The files that the patterns name, each once: in the order of the patterns, and sorted within one.
/// Each comes with the name it is shown by, relative to the study file's folder.
pub(super) fn find(root: &Path, patterns: &[String]) -> Result<Vec<(String, PathBuf)>> {
    let mut found: Vec<(String, PathBuf)> = Vec::new();
    for pattern in patterns {
        let wrong = |id| Fault::new(id).with("pattern", pattern).in_column("register.files");
        let whole = root.join(pattern);
        let mut paths = if whole.is_file() {
            vec![whole]
        } else {
            // The folder itself can hold characters that mean something in a pattern.
            let folder = glob::Pattern::escape(&root.display().to_string());
            let glob = Path::new(&folder).join(pattern).display().to_string();
            glob::glob(&glob)
                .map_err(|_| wrong("register-pattern"))?
                .filter_map(|path| path.ok().filter(|path| path.is_file()))
                .collect()
        };
        if paths.is_empty() {
            if root.join(pattern).is_dir() {
                return Err(wrong("register-is-folder"));
            }
            return Err(wrong("register-no-file"));
        }
        paths.sort();
        for path in paths {
            let shown = path.strip_prefix(root).unwrap_or(&path).display().to_string().replace('\\', "/");
            readable(&path).map_err(|fault| fault.in_file(&shown))?;
            if found.iter().all(|(known, _)| *known != shown) {
                found.push((shown, path));
            }
        }
    }
    Ok(found)
}

/// Text tables, spreadsheets and waypoints are read; other kinds have their door here.
pub(super) fn readable(path: &Path) -> Result<()> {
    match ending(path).as_str() {
        "csv" | "txt" | "tsv" | "tab" | "gpx" | "" => Ok(()),
        ending if is_spreadsheet(ending) => Ok(()),
        ending => Err(Fault::new("register-format").with("ending", ending)),
    }
}

/// The ending of a file's name, in small letters.
pub(super) fn ending(path: &Path) -> String {
    path.extension().map(|e| e.to_string_lossy().to_lowercase()).unwrap_or_default()
}
