//! The only place where bytes meet the disk: whole or not at all.
#![allow(clippy::disallowed_methods)] // the one file that these are meant for

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Component, Path, PathBuf};

use super::{Pack, manifest};
use crate::fault::{Fault, Result};

/// Who may read what is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Readers {
    /// Everyone on the machine (files 0644, folders 0755).
    Everyone,
    /// The one who ran the program (files 0600, folders 0700).
    Owner,
}

/// Prefix of the hidden folders and files that stand in for what is being written.
const HIDDEN: &str = ".strew-";

impl Pack {
    /// Who may read the pack once written: its owner alone when it is not for publication.
    pub fn readers(&self) -> Readers {
        if self.restricted { Readers::Owner } else { Readers::Everyone }
    }

    /// Refuses a folder that a pack must not replace; asked before the long work, and again on writing.
    pub fn check_folder(folder: &Path) -> Result<()> {
        earlier_pack(folder).map(|_| ())
    }

    /// Writes the pack as `folder`, whole or not at all. An earlier pack of ours there is replaced; any
    /// other folder that is not empty is refused. On a fault nothing is left behind.
    pub fn write(&self, folder: &Path) -> Result<()> {
        let earlier = earlier_pack(folder)?;
        let parent = parent_of(folder);
        let made = make_folders(&parent).map_err(|why| not_written(folder, &why))?;
        let result = self.write_beside(folder, &parent, earlier);
        if result.is_err() {
            // Folders that were made on the way go again, innermost first; one that something else has
            // moved into in the meantime stays.
            for folder in made.iter().rev() {
                let _ = fs::remove_dir(folder);
            }
        }
        result
    }

    fn write_beside(&self, folder: &Path, parent: &Path, earlier: bool) -> Result<()> {
        let failed = |why: io::Error| not_written(folder, &why);
        let hidden = tempfile::Builder::new().prefix(&hidden()).tempdir_in(parent).map_err(failed)?;
        let new = hidden.path().join("new");
        fs::create_dir(&new).map_err(failed)?;
        for (path, bytes) in &self.files {
            if Path::new(path).components().any(|part| !matches!(part, Component::Normal(_))) {
                return Err(Fault::new("pack-path").with("path", path));
            }
            let target = new.join(path);
            if let Some(folder) = target.parent() {
                fs::create_dir_all(folder).map_err(failed)?;
            }
            let mut file = File::create_new(&target).map_err(failed)?;
            file.write_all(bytes).map_err(failed)?;
            file.sync_all().map_err(failed)?;
        }
        settle(&new, self.readers()).map_err(failed)?;
        // Rename old away, new in, old removed with the hidden folder. Between the two renames there is
        // a moment without a pack; a stop there leaves the old one in the hidden folder beside it.
        let old = hidden.path().join("old");
        if earlier {
            fs::rename(folder, &old).map_err(failed)?;
        }
        if let Err(why) = fs::rename(&new, folder) {
            if earlier && fs::rename(&old, folder).is_err() {
                // It could not be put back: keep it where a person can find it rather than delete it.
                let kept = hidden.keep().join("old");
                return Err(Fault::new("pack-old-kept").because(&why).with("folder", kept.display()));
            }
            return Err(failed(why));
        }
        sync_folder(parent).map_err(failed)?;
        // Remains of the old pack that cannot be removed do no harm to the new one.
        let _ = hidden.close();
        clear_killed(parent);
        Ok(())
    }
}

/// The start of the name of what this run is writing: hidden, and with its number, so that a later run knows what
/// a killed one left.
fn hidden() -> String {
    format!("{HIDDEN}{}-", std::process::id())
}

/// Takes away what killed runs left in a folder. What a run that still lives is writing stays: where that cannot be
/// told, all stays.
fn clear_killed(folder: &Path) {
    if !Path::new("/proc/self").exists() {
        return;
    }
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let run = name.strip_prefix(HIDDEN).and_then(|rest| rest.split_once('-')?.0.parse::<u32>().ok());
        if run.is_some_and(|run| !Path::new(&format!("/proc/{run}")).exists()) {
            let path = entry.path();
            let _ = if path.is_dir() { fs::remove_dir_all(&path) } else { fs::remove_file(&path) };
        }
    }
}

/// Writes one file, whole or not at all, over an earlier file of that name.
pub fn write_file(path: &Path, bytes: &[u8], readers: Readers) -> Result<()> {
    one_file(path, bytes, readers, true)
}

/// Writes one file, whole or not at all; a file of that name is refused.
pub fn write_new_file(path: &Path, bytes: &[u8], readers: Readers) -> Result<()> {
    one_file(path, bytes, readers, false)
}

/// Writes one file piece by piece, whole or not at all, over an earlier file of that name: nothing of it
/// appears where `fill` fails.
pub fn write_pieces<T>(
    path: &Path,
    readers: Readers,
    fill: impl FnOnce(&mut dyn io::Write) -> Result<T>,
) -> Result<T> {
    begin_file(path, readers, true, fill)
}

/// Makes a folder, and those above it, where they are not there.
pub fn make_folder(folder: &Path) -> Result<()> {
    make_folders(folder).map(|_| ()).map_err(|why| not_written(folder, &why))
}

fn one_file(path: &Path, bytes: &[u8], readers: Readers, over: bool) -> Result<()> {
    begin_file(path, readers, over, |file| file.write_all(bytes).map_err(|why| not_written(path, &why)))
}

fn begin_file<T>(
    path: &Path,
    readers: Readers,
    over: bool,
    fill: impl FnOnce(&mut dyn io::Write) -> Result<T>,
) -> Result<T> {
    let failed = |why: io::Error| not_written(path, &why);
    if path.is_dir() {
        return Err(Fault::new("pack-file-is-folder").with("path", path.display()));
    }
    let parent = parent_of(path);
    let mut file = tempfile::Builder::new().prefix(&hidden()).tempfile_in(&parent).map_err(failed)?;
    let mut buffered = io::BufWriter::new(file.as_file_mut());
    let filled = fill(&mut buffered)?;
    buffered.flush().map_err(failed)?;
    drop(buffered);
    set_mode(file.path(), mode(readers, false)).map_err(failed)?;
    file.as_file().sync_all().map_err(failed)?;
    if over {
        file.persist(path).map_err(|e| failed(e.error))?;
    } else {
        file.persist_noclobber(path).map_err(|e| match e.error.kind() {
            io::ErrorKind::AlreadyExists => Fault::new("pack-file-exists").with("path", path.display()),
            _ => failed(e.error),
        })?;
    }
    sync_folder(&parent).map_err(failed)?;
    clear_killed(&parent);
    Ok(filled)
}

/// Whether `folder` holds an earlier pack of ours (or nothing). Anything else is a fault: a folder of
/// somebody's work is never removed.
fn earlier_pack(folder: &Path) -> Result<bool> {
    let foreign = || Fault::new("pack-folder-foreign").with("folder", folder.display());
    let Ok(kind) = fs::symlink_metadata(folder) else { return Ok(false) };
    if !kind.is_dir() {
        return Err(Fault::new("pack-folder-is-file").with("folder", folder.display()));
    }
    let present = listing(folder).map_err(|why| not_written(folder, &why))?;
    if present.is_empty() {
        return Ok(true);
    }
    let text = fs::read(folder.join(manifest::NAME)).map_err(|_| foreign())?;
    let listed = manifest::read_listed(&text).ok_or_else(foreign)?;
    match present.iter().find(|path| *path != manifest::NAME && !listed.contains(*path)) {
        None => Ok(true),
        Some(path) => {
            Err(Fault::new("pack-folder-additions").with("folder", folder.display()).with("file", path))
        }
    }
}

/// Every file under `folder`, by its path inside it with `/`. Links are listed, never followed.
fn listing(folder: &Path) -> io::Result<Vec<String>> {
    let mut found = Vec::new();
    let mut waiting = vec![(folder.to_path_buf(), String::new())];
    while let Some((folder, front)) = waiting.pop() {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let path = format!("{front}{}", entry.file_name().to_string_lossy());
            if entry.file_type()?.is_dir() {
                waiting.push((entry.path(), format!("{path}/")));
            } else {
                found.push(path);
            }
        }
    }
    found.sort();
    Ok(found)
}

/// Sets the modes of a finished folder and syncs it, innermost first.
fn settle(folder: &Path, readers: Readers) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            settle(&entry.path(), readers)?;
        } else {
            set_mode(&entry.path(), mode(readers, false))?;
        }
    }
    set_mode(folder, mode(readers, true))?;
    sync_folder(folder)
}

fn mode(readers: Readers, folder: bool) -> u32 {
    match (readers, folder) {
        (Readers::Everyone, false) => 0o644,
        (Readers::Everyone, true) => 0o755,
        (Readers::Owner, false) => 0o600,
        (Readers::Owner, true) => 0o700,
    }
}

#[cfg(unix)]
fn set_mode(path: &Path, mode: u32) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    fs::set_permissions(path, fs::Permissions::from_mode(mode))
}

#[cfg(not(unix))]
fn set_mode(_path: &Path, _mode: u32) -> io::Result<()> {
    Ok(())
}

#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}

#[cfg(not(unix))]
fn sync_folder(_folder: &Path) -> io::Result<()> {
    Ok(())
}

fn parent_of(path: &Path) -> PathBuf {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
        _ => PathBuf::from("."),
    }
}

/// Makes `folder` and what is missing above it; says which were made, outermost first.
fn make_folders(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let missing: Vec<PathBuf> = folder
        .ancestors()
        .take_while(|above| !above.as_os_str().is_empty() && !above.exists())
        .map(Path::to_path_buf)
        .collect();
    fs::create_dir_all(folder)?;
    Ok(missing.into_iter().rev().collect())
}

fn not_written(path: &Path, why: &io::Error) -> Fault {
    Fault::new("pack-not-written").with("path", path.display()).because(why)
}
