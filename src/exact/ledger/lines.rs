//! The ledger's file: one line a thing told, each with the checksum of all before it. A line is on the disk before
//! what it tells is given to anybody; how many lines there are is kept in another file, so that a cut tail or a
//! copy put back from an earlier day is seen. Its owner alone can read it.
#![allow(clippy::disallowed_methods)] // the ledger is the wall's own file: no room below may write it

use std::fs::{self, File, OpenOptions};
use std::io::{Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::{Body, digest, head_path};
use crate::fault::{Fault, Result};

const NAME: &str = "ledger.jsonl";
/// Names of files that are being written.
const HIDDEN: &str = ".strew-";

/// The open file, locked as long as it lives.
pub(super) struct Lines {
    file: File,
    path: PathBuf,
    head: PathBuf,
    /// Lines that are whole.
    count: u64,
    /// Checksum of the last.
    sum: String,
    /// Bytes of the whole lines: what follows them was torn off in a crash.
    whole: u64,
}

/// What a line says before its body.
#[derive(Deserialize)]
struct Front {
    n: u64,
    before: String,
    sum: String,
}

const BODY: &str = ",\"body\":";

#[derive(Serialize, Deserialize)]
struct Head {
    lines: u64,
    sum: String,
}

impl Lines {
    /// Opens the file, begun where it is not there, and reads it.
    pub fn open(folder: &Path) -> Result<(Self, Vec<(u64, Body)>)> {
        let path = folder.join(NAME);
        let head = head_path(folder);
        let failed =
            |why: std::io::Error| Fault::new("ledger-not-opened").because(&why).in_file(path.display());
        make_private(folder).map_err(failed)?;
        let mut options = OpenOptions::new();
        options.read(true).write(true).create(true).truncate(false);
        owner_alone(&mut options);
        let mut file = options.open(&path).map_err(failed)?;
        file.lock().map_err(failed)?;
        // Nobody else writes here now: what a killed run left half written goes.
        for folder in [folder, &folder.join("releases")] {
            clear(folder);
        }
        let mut text = Vec::new();
        file.read_to_end(&mut text).map_err(failed)?;
        let mut lines = Self { file, path: path.clone(), head, count: 0, sum: String::new(), whole: 0 };
        let mut bodies = Vec::new();
        let spoilt = |n: u64| Fault::new("ledger-spoilt").at_row(n).in_file(path.display());
        for piece in text.split_inclusive(|byte| *byte == b'\n') {
            let n = lines.count + 1;
            // A line without an end was torn off while it was written: what it tells was never given.
            if piece.last() != Some(&b'\n') {
                break;
            }
            let (front, body) = parted(piece).ok_or_else(|| spoilt(n))?;
            if front.n != n || front.before != lines.sum || front.sum != sum_of(n, &front.before, body) {
                return Err(spoilt(n));
            }
            bodies.push((n, serde_json::from_str(body).map_err(|_| spoilt(n))?));
            lines.count = n;
            lines.sum = front.sum;
            lines.whole += piece.len() as u64;
        }
        if !lines.is_told_by_head()? {
            lines.write_head()?;
        }
        if lines.count == 0 {
            let mut salt = [0_u8; 16];
            let drawn = rand::TryRngCore::try_fill_bytes(&mut rand::rngs::OsRng, &mut salt).is_ok();
            // It only keeps digests in the owner's own file from being like those in another's: a machine that
            // gives no random bytes takes the folder's name.
            let salt: String = if drawn {
                salt.iter().map(|byte| format!("{byte:02x}")).collect()
            } else {
                digest(lines.path.to_string_lossy().as_bytes()).chars().take(32).collect()
            };
            lines.append(&Body::Begun { salt: salt.clone() })?;
            bodies.push((1, Body::Begun { salt }));
        }
        Ok((lines, bodies))
    }

    /// Whether the head tells of every line. It may be one line behind: a crash between the two writes. It is never
    /// ahead.
    fn is_told_by_head(&self) -> Result<bool> {
        let Ok(text) = fs::read(&self.head) else {
            return match self.count {
                0 => Ok(true),
                1 => Ok(false),
                // The head was taken away: the ledger may have been cut.
                _ => Err(Fault::new("ledger-no-head").in_file(self.head.display())),
            };
        };
        let head: Head = serde_json::from_slice(&text)
            .map_err(|_| Fault::new("ledger-no-head").in_file(self.head.display()))?;
        if head.lines > self.count || (head.lines == self.count && head.sum != self.sum) {
            return Err(Fault::new("ledger-cut")
                .with("held", self.count)
                .with("told", head.lines)
                .in_file(self.path.display()));
        }
        Ok(head.lines == self.count)
    }

    /// Appends a line, on the disk when this returns.
    pub fn append(&mut self, body: &Body) -> Result<()> {
        let failed = |path: &Path| {
            let path = path.display().to_string();
            move |why: std::io::Error| Fault::new("ledger-not-written").because(&why).in_file(path.clone())
        };
        let body = serde_json::to_string(body)
            .map_err(|why| Fault::new("ledger-not-written").with("why", why).in_file(self.path.display()))?;
        let n = self.count + 1;
        let sum = sum_of(n, &self.sum, &body);
        let before = &self.sum;
        let line =
            format!("{{\"n\":{n},\"before\":\"{before}\",\"sum\":\"{sum}\"{BODY}{body}}}\n").into_bytes();
        self.file.set_len(self.whole).map_err(failed(&self.path))?;
        self.file.seek(SeekFrom::Start(self.whole)).map_err(failed(&self.path))?;
        self.file.write_all(&line).map_err(failed(&self.path))?;
        self.file.sync_all().map_err(failed(&self.path))?;
        self.whole += line.len() as u64;
        self.count = n;
        self.sum = sum;
        self.write_head()
    }

    fn write_head(&self) -> Result<()> {
        let head = Head { lines: self.count, sum: self.sum.clone() };
        let head = serde_json::to_vec(&head)
            .map_err(|why| Fault::new("ledger-not-written").with("why", why).in_file(self.head.display()))?;
        let folder = self.path.parent().unwrap_or(Path::new("."));
        write_private(&self.head, folder, &head)
    }
}

/// Takes away files that a killed run left half written.
fn clear(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        if entry.file_name().to_string_lossy().starts_with(HIDDEN) {
            // What cannot be removed now is looked at again next time.
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Whether a ledger was begun in a folder, or its head count tells that one was.
pub(super) fn begun(folder: &Path) -> bool {
    folder.join(NAME).exists() || head_path(folder).exists()
}

/// A line's front, and its body as it is written: its checksum is that of the very bytes.
fn parted(line: &[u8]) -> Option<(Front, &str)> {
    let line = std::str::from_utf8(line).ok()?.strip_suffix("}\n")?;
    let (front, body) = line.split_once(BODY)?;
    Some((serde_json::from_str(&format!("{front}}}")).ok()?, body))
}

fn sum_of(n: u64, before: &str, body: &str) -> String {
    digest(format!("{n}\n{before}\n{body}").as_bytes())
}

/// Writes a file that its owner alone can read, whole or not at all.
/// Until it is whole it stands in `scratch`, on the same disk.
pub(super) fn write_private(path: &Path, scratch: &Path, bytes: &[u8]) -> Result<()> {
    let failed = |why: std::io::Error| Fault::new("ledger-not-written").because(&why).in_file(path.display());
    let parent = path.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    make_private(parent).map_err(failed)?;
    // Made 0600 by the library, wherever that means something.
    let mut file = tempfile::Builder::new().prefix(HIDDEN).tempfile_in(scratch).map_err(failed)?;
    file.write_all(bytes).map_err(failed)?;
    file.as_file().sync_all().map_err(failed)?;
    file.persist(path).map_err(|error| failed(error.error))?;
    #[cfg(unix)]
    File::open(parent).and_then(|folder| folder.sync_all()).map_err(failed)?;
    Ok(())
}

/// A folder that its owner alone can open, where it is made here.
fn make_private(folder: &Path) -> std::io::Result<()> {
    if folder.as_os_str().is_empty() || folder.is_dir() {
        return Ok(());
    }
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder)
}

#[cfg(unix)]
fn owner_alone(options: &mut OpenOptions) {
    use std::os::unix::fs::OpenOptionsExt as _;
    options.mode(0o600);
}

#[cfg(not(unix))]
fn owner_alone(_options: &mut OpenOptions) {}
