//! Whom a submission is sealed to: keys as typed, files of keys, or a passphrase from a file.

use std::path::Path;

use crate::fault::{Fault, Result};
use crate::pack::Seal;

/// A seal to keys. Each word is a key, `age1…`, or a file of keys, one a line, of which blank lines and those that
/// begin with `#` are passed over. Files are looked for from `root`.
pub fn seal_to(words: &[String], root: &Path) -> Result<Seal> {
    let mut keys = Vec::new();
    for word in words {
        let word = word.trim();
        let upper = word.to_ascii_uppercase();
        if upper.starts_with("AGE1") || upper.starts_with("AGE-SECRET-KEY-") || word.starts_with("ssh-") {
            keys.push(word.to_owned());
        } else {
            keys.extend(keys_in(word, root)?);
        }
    }
    Seal::to_keys(keys.iter().map(String::as_str))
}

fn keys_in(name: &str, root: &Path) -> Result<Vec<String>> {
    let text = std::fs::read_to_string(root.join(name))
        .map_err(|why| Fault::new("run-seal-file").with("file", name).because(&why))?;
    let mut keys = Vec::new();
    for (index, line) in text.lines().enumerate() {
        let line = line.trim().trim_start_matches('\u{feff}');
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        // Read here too, so that the fault names file and line.
        Seal::to_keys([line]).map_err(|fault| fault.in_file(name).at_row(index as u64 + 1))?;
        keys.push(line.to_owned());
    }
    if keys.is_empty() {
        return Err(Fault::new("pack-seal-nobody").in_file(name));
    }
    Ok(keys)
}

/// A seal by the passphrase on the first line of a file.
pub fn seal_by_file(path: &Path) -> Result<Seal> {
    let shown = path.display();
    let text = std::fs::read_to_string(path)
        .map_err(|why| Fault::new("run-seal-file").with("file", &shown).because(&why))?;
    let line = text.lines().next().unwrap_or_default().trim_start_matches('\u{feff}');
    Seal::with_passphrase(line.to_owned()).map_err(|fault| fault.in_file(shown))
}
