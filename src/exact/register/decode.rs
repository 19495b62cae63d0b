//! From bytes to text: UTF-8 with or without mark, UTF-16 with mark, and Windows-1252 for the rest.

use std::path::Path;

use encoding_rs::{UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};

use super::files::ending;
use super::spreadsheet::{self, is_spreadsheet};
use super::waypoints;
use crate::fault::{Fault, Result};

/// A table as text.
pub(super) struct TextTable {
    /// The sheet that it stands on, in a spreadsheet's own file.
    pub sheet: Option<String>,
    pub text: String,
    /// The encoding it was found to be in.
    pub encoding: &'static str,
}

/// Reads a file whole: one table, or those of a spreadsheet's sheets. A register of a million rows is some 150 MB,
/// and its text is dropped once read.
pub(super) fn read(path: &Path) -> Result<Vec<TextTable>> {
    if path.is_dir() {
        return Err(
            Fault::new("register-is-folder").with("pattern", path.display().to_string().replace('\\', "/"))
        );
    }
    let bytes = std::fs::read(path).map_err(|error| Fault::new("register-unreadable").because(&error))?;
    if is_spreadsheet(&ending(path)) {
        return spreadsheet::tables(bytes);
    }
    if ending(path) == "gpx" {
        return waypoints::table(&bytes).map(|table| vec![table]);
    }
    let (text, encoding) = decode(bytes)?;
    Ok(vec![TextTable { sheet: None, text, encoding }])
}

/// The text, and the encoding it was found to be in.
pub(super) fn decode(bytes: Vec<u8>) -> Result<(String, &'static str)> {
    // A spreadsheet's own file, or a picture, under a name that ends in .csv.
    let binary = [&b"PK\x03\x04"[..], b"\xD0\xCF\x11\xE0", b"%PDF", b"\x89PNG", b"SQLite format"];
    if binary.iter().any(|magic| bytes.starts_with(magic)) {
        return Err(Fault::new("register-not-text"));
    }
    let (text, encoding) = if bytes.starts_with(&[0xFF, 0xFE]) {
        (UTF_16LE.decode_with_bom_removal(&bytes).0.into_owned(), "UTF-16")
    } else if bytes.starts_with(&[0xFE, 0xFF]) {
        (UTF_16BE.decode_with_bom_removal(&bytes).0.into_owned(), "UTF-16")
    } else {
        match String::from_utf8(bytes) {
            Ok(mut text) => {
                if text.starts_with('\u{FEFF}') {
                    text.drain(..'\u{FEFF}'.len_utf8());
                }
                (text, UTF_8.name())
            }
            Err(error) => {
                (WINDOWS_1252.decode_without_bom_handling(error.as_bytes()).0.into_owned(), "Windows-1252")
            }
        }
    };
    if text.trim().is_empty() {
        return Err(Fault::new("register-empty"));
    }
    Ok((text, encoding))
}

#[cfg(test)]
mod tests {
    use super::decode;

    #[test]
    fn each_encoding_gives_the_same_text() {
        let text = "Désignation;Œuvre\n";
        let utf16 = |be: bool| {
            let mark = if be { vec![0xFE, 0xFF] } else { vec![0xFF, 0xFE] };
            text.encode_utf16().flat_map(|u| if be { u.to_be_bytes() } else { u.to_le_bytes() }).fold(
                mark,
                |mut bytes, byte| {
                    bytes.push(byte);
                    bytes
                },
            )
        };
        let western = b"D\xE9signation;\x8Cuvre\n".to_vec();
        let marked = [b"\xEF\xBB\xBF", text.as_bytes()].concat();
        for bytes in [text.as_bytes().to_vec(), marked, utf16(true), utf16(false), western] {
            assert_eq!(decode(bytes).map(|(text, _)| text).ok().as_deref(), Some(text));
        }
        assert_eq!(decode(b"PK\x03\x04rest".to_vec()).map_err(|f| f.id), Err("register-not-text"));
    }
}
