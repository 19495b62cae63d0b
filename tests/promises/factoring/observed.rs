//! What an audience observes of a run, and where two observations differ.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::process::Command;

use super::super::common::said;

/// All that an audience observes: what was said, the exit code, and every file with its mode.
#[derive(Clone, Default)]
pub struct Observed {
    /// Standard output and error and exit code of each command, in order.
    pub said: Vec<(String, String, Option<i32>)>,
    /// Mode and bytes by the path inside the folder; folders have no bytes.
    pub left: BTreeMap<String, (u32, Vec<u8>)>,
}

/// How a sealed file begins (the age format, version 1).
const SEALED: &[u8] = b"age-encryption.org/v1\n";
/// What is sealed is filled up to sizes that are this many bytes apart at least; the head's drawn part is some hundred.
const SEALED_STEP: usize = 4_096;

/// Where and as whom a program runs.
pub struct Surroundings {
    pub zone: &'static str,
    pub user: &'static str,
    pub language: &'static str,
    pub threads: &'static str,
}

/// Two that have nothing in common.
pub const SURROUNDINGS: [Surroundings; 4] = [
    Surroundings { zone: "UTC", user: "a", language: "C", threads: "2" },
    Surroundings { zone: "Pacific/Auckland", user: "somebody-else", language: "fr_FR.UTF-8", threads: "1" },
    Surroundings { zone: "America/St_Johns", user: "b", language: "tr_TR.UTF-8", threads: "3" },
    Surroundings { zone: "Asia/Kathmandu", user: "root", language: "de_DE.UTF-8", threads: "7" },
];

impl Surroundings {
    /// A program there, and nothing of ours.
    pub fn place(&self, command: &mut Command, folder: &Path) {
        command
            .env_clear()
            .env("TZ", self.zone)
            .env("USER", self.user)
            .env("HOME", folder.join("nowhere"))
            .env("LANG", self.language)
            .env("LC_ALL", self.language)
            .env("RAYON_NUM_THREADS", self.threads)
            .current_dir(folder);
    }
}

impl Observed {
    /// Runs command lines in a folder, each as a process of its own, and looks at what they said and left.
    pub fn of(folder: &Path, lines: &[Vec<String>], surroundings: &Surroundings) -> Self {
        let before: BTreeSet<String> = listed(folder).into_keys().collect();
        let mut observed = Self::default();
        for line in lines {
            let mut command = Command::new(env!("CARGO_BIN_EXE_strew"));
            surroundings.place(&mut command, folder);
            let output = command.args(line).stdin(std::process::Stdio::null()).output().unwrap();
            let (out, err) = said(&output);
            observed.said.push((out, err, output.status.code()));
        }
        observed.left = listed(folder);
        // The ledger is the owner's: no audience sees it.
        observed.left.retain(|name, _| !before.contains(name) && !name.starts_with("ledger"));
        observed.set_sealed_bytes_aside();
        observed
    }

    /// What is sealed is sealed under a key drawn anew each time, behind a head of which a part is drawn too: so the
    /// format has it. Of its bytes the size alone is compared, to the step that draws nothing.
    fn set_sealed_bytes_aside(&mut self) {
        let mut sizes = Vec::new();
        for (_, bytes) in self.left.values_mut().filter(|(_, bytes)| bytes.starts_with(SEALED)) {
            sizes.push(bytes.len());
            *bytes = format!("{} steps", bytes.len() / SEALED_STEP).into_bytes();
        }
        for size in sizes {
            for (out, _, _) in &mut self.said {
                let steps = format!("\"size\":\"{} steps\"", size / SEALED_STEP);
                *out = out.replace(&format!("\"size\":{size}"), &steps);
            }
        }
    }

    /// Whether every command did what it was asked for.
    pub fn succeeded(&self) -> bool {
        self.said.iter().all(|(_, _, code)| *code == Some(0))
    }

    /// The first thing that is not the same; `None` where all is.
    pub fn differs_from(&self, other: &Self) -> Option<String> {
        for (one, two) in self.said.iter().zip(&other.said) {
            if one != two {
                return Some(format!("said {one:?}\nand {two:?}"));
            }
        }
        let names = |observed: &Self| observed.left.keys().cloned().collect::<Vec<_>>();
        if names(self) != names(other) || self.said.len() != other.said.len() {
            return Some(format!("left {:?}\nand {:?}", names(self), names(other)));
        }
        let mut both = self.left.iter().zip(other.left.values());
        both.find(|((_, one), two)| one != two).map(|((name, one), two)| {
            format!("{name}: mode {:o} and {:o}, {} B and {} B", one.0, two.0, one.1.len(), two.1.len())
        })
    }
}

/// Every file and folder inside a folder, with its mode and its bytes.
fn listed(folder: &Path) -> BTreeMap<String, (u32, Vec<u8>)> {
    let mut listed = BTreeMap::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(next) = waiting.pop() {
        for entry in fs::read_dir(&next).unwrap() {
            let path = entry.unwrap().path();
            let name = path.strip_prefix(folder).unwrap().to_string_lossy().replace('\\', "/");
            let bytes = if path.is_dir() { Vec::new() } else { fs::read(&path).unwrap() };
            listed.insert(name, (mode(&path), bytes));
            if path.is_dir() {
                waiting.push(path);
            }
        }
    }
    listed
}

#[cfg(unix)]
pub fn mode(path: &Path) -> u32 {
    use std::os::unix::fs::PermissionsExt;
    fs::metadata(path).unwrap().permissions().mode()
}

#[cfg(not(unix))]
pub fn mode(_path: &Path) -> u32 {
    0
}
