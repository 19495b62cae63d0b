//! Archives and packed streams: ZIP, TAR, GZIP and bare deflate are opened; others are named as shut.

use std::io::{Cursor, Read};

use flate2::bufread::{DeflateDecoder, MultiGzDecoder, ZlibDecoder};

use super::Form;
use super::opening::{Here, Opened};
use super::{encoded, sheets};

/// What begins like this cannot be looked into.
const SHUT: [(&[u8], &str); 8] = [
    (b"BZh", "audit-not-packed"),
    (b"\xfd7zXZ\0", "audit-not-packed"),
    (b"\x28\xb5\x2f\xfd", "audit-not-packed"),
    (b"\x04\x22\x4d\x18", "audit-not-packed"),
    (b"7z\xbc\xaf\x27\x1c", "audit-not-packed"),
    (b"Rar!\x1a\x07", "audit-not-packed"),
    (b"age-encryption.org/", "audit-not-sealed"),
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "audit-not-format"),
];

/// Opens an archive; `false` when these bytes are none.
pub(super) fn open(opened: &mut Opened, here: &Here, bytes: &[u8]) -> bool {
    if bytes.starts_with(b"PK\x03\x04") || bytes.starts_with(b"PK\x05\x06") {
        zip(opened, here, bytes);
        sheets::open(opened, here, bytes);
        return true;
    }
    if bytes.starts_with(b"\x1f\x8b") {
        let head = bytes.get(..bytes.len().min(512)).unwrap_or(bytes);
        // The name and the comment of what is packed.
        for (words, _) in encoded::words_between(head) {
            opened.layer(here, Form::Text, words.into_bytes());
        }
        let mut unpacked = MultiGzDecoder::new(bytes);
        stream(opened, &here.through("audit-through-gzip"), &mut unpacked, true);
        opened.layer(here, Form::Bytes, bytes.to_vec());
        return true;
    }
    if is_tar(bytes) {
        tar(opened, here, bytes);
        return true;
    }
    if is_zlib(bytes)
        && stream(opened, &here.through("audit-through-deflate"), &mut ZlibDecoder::new(bytes), false)
    {
        return true;
    }
    if let Some((_, why)) = SHUT.iter().find(|(magic, _)| bytes.starts_with(magic)) {
        opened.shut(here, why);
        opened.layer(here, Form::Bytes, bytes.to_vec());
        return true;
    }
    if bytes.starts_with(b"-----BEGIN AGE ENCRYPTED FILE") || bytes.starts_with(b"-----BEGIN PGP MESSAGE") {
        opened.shut(here, "audit-not-sealed");
        return true;
    }
    false
}

fn is_zlib(bytes: &[u8]) -> bool {
    matches!(bytes, [0x78, flags, ..] if (0x7800 + u32::from(*flags)) % 31 == 0)
}

/// Unpacks a stream and opens what comes out. `false` where nothing did; with `must`, that is told.
fn stream(opened: &mut Opened, here: &Here, unpacked: &mut dyn Read, must: bool) -> bool {
    let mut inside = Vec::new();
    let allowed = opened.left();
    let whole = unpacked.take(allowed as u64).read_to_end(&mut inside).is_ok();
    if inside.is_empty() {
        if must {
            opened.shut(here, "audit-not-damaged");
        }
        return false;
    }
    if !opened.afford(here, inside.len()) {
        return true;
    }
    if must && !whole {
        opened.shut(here, "audit-not-damaged");
    }
    opened.open(here, &inside);
    true
}

/// Inflates what may be a zlib stream; what could be had of it.
pub(super) fn inflate(opened: &mut Opened, here: &Here, bytes: &[u8]) -> Option<Vec<u8>> {
    let mut inside = Vec::new();
    let _ = ZlibDecoder::new(bytes).take(opened.left() as u64).read_to_end(&mut inside);
    (!inside.is_empty() && opened.afford(here, inside.len())).then_some(inside)
}

fn zip(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let Ok(mut archive) = zip::ZipArchive::new(Cursor::new(bytes)) else {
        opened.shut(here, "audit-not-damaged");
        opened.layer(here, Form::Bytes, bytes.to_vec());
        return;
    };
    opened.layer(here, Form::Text, archive.comment().to_vec());
    for index in 0..archive.len() {
        let mut shut = None;
        let mut parts: Option<(String, Vec<u8>, Vec<u8>)> = None;
        match archive.by_index(index) {
            Ok(mut entry) => {
                let name = entry.name().to_owned();
                let mut beside = entry.comment().as_bytes().to_vec();
                beside.push(b'\n');
                beside.extend_from_slice(entry.extra_data().unwrap_or_default());
                let mut inside = Vec::new();
                if (&mut entry).take(opened.left() as u64).read_to_end(&mut inside).is_err() {
                    shut = Some("audit-not-damaged");
                }
                parts = Some((name, beside, inside));
            }
            Err(_) => shut = Some("audit-not-packed"),
        }
        if parts.is_none() {
            // Its name can be told although its content cannot.
            let raw = archive.by_index_raw(index).map(|entry| (entry.name().to_owned(), entry.encrypted()));
            if let Ok((name, encrypted)) = raw {
                let inside = here.inside(&name);
                opened.layer(&inside, Form::Name, name.into_bytes());
                opened.shut(&inside, if encrypted { "audit-not-sealed" } else { "audit-not-packed" });
            } else {
                opened.shut(here, "audit-not-damaged");
            }
            continue;
        }
        let Some((name, beside, content)) = parts else { continue };
        let inside = here.inside(&name);
        opened.layer(&inside, Form::Name, name.into_bytes());
        opened.layer(&inside, Form::Hidden, beside);
        if let Some(why) = shut {
            opened.shut(&inside, why);
        }
        if opened.afford(&inside, content.len()) {
            opened.open(&inside, &content);
        }
    }
    // Between the entries and behind the last.
    opened.layer(here, Form::Bytes, bytes.to_vec());
    if !bytes.starts_with(b"PK\x05\x06") {
        for (words, _) in encoded::words_between(bytes) {
            opened.layer(here, Form::Hidden, words.into_bytes());
        }
    }
}

/// Whether a block of 512 bytes has the sum that a TAR's head states.
fn is_tar(bytes: &[u8]) -> bool {
    let Some(head) = bytes.get(..512) else { return false };
    let stated: String =
        head.get(148..156).unwrap_or_default().iter().map(|byte| char::from(*byte)).collect();
    let stated = u32::from_str_radix(stated.trim_matches([' ', '\0']), 8);
    let sum: u32 = head
        .iter()
        .enumerate()
        .map(|(at, byte)| if (148..156).contains(&at) { 32 } else { u32::from(*byte) })
        .sum();
    stated.is_ok_and(|stated| stated == sum && sum > 256)
}

fn tar(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let mut archive = tar::Archive::new(bytes);
    archive.set_ignore_zeros(true);
    let Ok(entries) = archive.entries() else { return opened.shut(here, "audit-not-damaged") };
    for entry in entries {
        let Ok(mut entry) = entry else {
            opened.shut(here, "audit-not-damaged");
            break;
        };
        let name = String::from_utf8_lossy(&entry.path_bytes()).into_owned();
        let inside = here.inside(&name);
        let head = entry.header().as_bytes().to_vec();
        let mut content = Vec::new();
        if (&mut entry).take(opened.left() as u64).read_to_end(&mut content).is_err() {
            opened.shut(&inside, "audit-not-damaged");
        }
        opened.layer(&inside, Form::Name, name.into_bytes());
        // The owner's name and what a link points to.
        let words: Vec<u8> = head.into_iter().map(|byte| if byte == 0 { b'\n' } else { byte }).collect();
        opened.layer(&inside, Form::Hidden, words);
        if opened.afford(&inside, content.len()) {
            opened.open(&inside, &content);
        }
    }
    opened.layer(here, Form::Bytes, bytes.to_vec());
}

/// Archives that begin somewhere inside other bytes: behind a picture, in a field of a database.
pub(super) fn buried(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let here = here.through("audit-through-buried");
    if let Some(at) = memchr::memmem::find(bytes, b"PK\x03\x04").filter(|at| *at > 0)
        && let Some(rest) = bytes.get(at..)
    {
        open(opened, &here, rest);
    }
    for at in memchr::memmem::find_iter(bytes, b"\x1f\x8b\x08").filter(|at| *at > 0).take(64) {
        let Some(rest) = bytes.get(at..) else { break };
        stream(opened, &here, &mut MultiGzDecoder::new(rest), false);
    }
    for magic in [&b"\x78\x01"[..], b"\x78\x5e", b"\x78\x9c", b"\x78\xda"] {
        for at in memchr::memmem::find_iter(bytes, magic).take(4096) {
            let Some(rest) = bytes.get(at..) else { break };
            // A few bytes that happen to inflate say nothing; a stream that ends as it should does.
            let mut inside = Vec::new();
            let mut decoder = ZlibDecoder::new(rest);
            let whole = (&mut decoder).take(opened.left() as u64).read_to_end(&mut inside).is_ok();
            if whole && inside.len() >= 8 && opened.afford(&here, inside.len()) {
                opened.open(&here, &inside);
            }
        }
    }
    // The whole as bare deflate.
    let mut inside = Vec::new();
    let mut decoder = DeflateDecoder::new(bytes);
    let whole = (&mut decoder).take(opened.left() as u64).read_to_end(&mut inside).is_ok();
    if whole
        && decoder.total_in() + 16 >= bytes.len() as u64
        && inside.len() >= 8
        && opened.afford(&here, inside.len())
    {
        opened.open(&here.through("audit-through-deflate"), &inside);
    }
}
