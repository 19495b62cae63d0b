//! Copies of pictures without what a camera writes into them: place, time, serial numbers, names, thumbnails, notes,
//! and whatever follows the end of the picture. The compressed pixels are copied as they are.
//!
//! What stays is a list of what a picture needs to be shown; everything else goes, known or not.

use std::io::Cursor;

use exif::{In, Tag};
use img_parts::Bytes;
use img_parts::png::{Png, PngChunk};
use img_parts::webp::WebP;

use super::{Part, open};
use crate::fault::{Fault, Result};

/// A picture's form, by the ending of its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cleaned {
    /// The ending of its name.
    pub ending: &'static str,
    /// The copy.
    pub bytes: Vec<u8>,
}

/// A clean copy of a picture: JPEG, PNG or WebP. Faults: `photographs-format` for anything else,
/// `photographs-damaged` for what cannot be followed to its end.
pub fn clean(bytes: &[u8]) -> Result<Cleaned> {
    let cleaned = if bytes.starts_with(b"\xff\xd8\xff") {
        Cleaned { ending: "jpg", bytes: jpeg(bytes).ok_or_else(damaged)? }
    } else if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        Cleaned { ending: "png", bytes: png(bytes)? }
    } else if bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP") {
        Cleaned { ending: "webp", bytes: webp(bytes)? }
    } else {
        return Err(Fault::new("photographs-format"));
    };
    // The copy is looked at with the audit's own eyes before anybody has it.
    let opened = open("", &cleaned.bytes);
    let camera = opened.vertices.iter().any(|vertex| vertex.part == Part::Camera);
    if camera || !opened.shut.is_empty() {
        return Err(Fault::new("photographs-not-clean"));
    }
    Ok(cleaned)
}

fn damaged() -> Fault {
    Fault::new("photographs-damaged")
}

/// Which way up the picture is to be shown, where that is not as it lies.
fn turned(bytes: &[u8]) -> Option<u8> {
    let mut reader = exif::Reader::new();
    reader.continue_on_error(true);
    let read =
        reader.read_from_container(&mut Cursor::new(bytes)).or_else(|why| why.distill_partial_result(|_| {}));
    let value = read.ok()?.get_field(Tag::Orientation, In::PRIMARY)?.value.get_uint(0)?;
    u8::try_from(value).ok().filter(|value| (2..=8).contains(value))
}

/// The smallest note that says which way up: one tag in one directory.
fn note(orientation: u8) -> Vec<u8> {
    let mut note = b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
    note.extend_from_slice(&[orientation, 0, 0, 0, 0, 0, 0]);
    note
}

/// A JPEG's own segments, colour profile and pixels, to its end and no further.
fn jpeg(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut copy = vec![0xff, 0xd8];
    if let Some(orientation) = turned(bytes) {
        let note = note(orientation);
        let length = u16::try_from(note.len() + 8).ok()?;
        copy.extend_from_slice(&[0xff, 0xe1]);
        copy.extend_from_slice(&length.to_be_bytes());
        copy.extend_from_slice(b"Exif\0\0");
        copy.extend_from_slice(&note);
    }
    let mut at = 2;
    loop {
        let [0xff, marker] = *bytes.get(at..at + 2)? else { return None };
        match marker {
            0xff => at += 1,
            0xd9 => {
                copy.extend_from_slice(&[0xff, 0xd9]);
                return Some(copy);
            }
            0x01 | 0xd0..=0xd8 => at += 2,
            _ => {
                let [high, low] = *bytes.get(at + 2..at + 4)? else { return None };
                let end = at + 2 + usize::from(u16::from_be_bytes([high, low])).max(2);
                let segment = bytes.get(at..end)?;
                let data = segment.get(4..)?;
                match marker {
                    // The version and the density of JFIF, without its thumbnail.
                    0xe0 if data.starts_with(b"JFIF\0") => {
                        copy.extend_from_slice(&[0xff, 0xe0, 0, 16]);
                        copy.extend_from_slice(data.get(..12)?);
                        copy.extend_from_slice(&[0, 0]);
                    }
                    0xe2 if data.starts_with(b"ICC_PROFILE\0") => copy.extend_from_slice(segment),
                    // How its colours are to be taken.
                    0xee if data.starts_with(b"Adobe") => copy.extend_from_slice(segment),
                    0xe0..=0xfe => {}
                    _ => copy.extend_from_slice(segment),
                }
                at = end;
                if marker == 0xda {
                    let start = at;
                    while let [first, second] = *bytes.get(at..at + 2)? {
                        if first == 0xff && !matches!(second, 0 | 0xd0..=0xd7 | 0xff) {
                            break;
                        }
                        at += 1;
                    }
                    copy.extend_from_slice(bytes.get(start..at)?);
                }
            }
        }
    }
}

/// The chunks that a PNG is shown from.
const OF_A_PNG: [&[u8; 4]; 15] = [
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"cICP", b"sBIT",
    b"pHYs", b"acTL", b"fcTL", b"fdAT",
];

fn png(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut picture = Png::from_bytes(Bytes::copy_from_slice(bytes)).map_err(|_| damaged())?;
    let orientation = turned(bytes);
    let chunks = picture.chunks_mut();
    chunks.retain(|chunk| OF_A_PNG.contains(&&chunk.kind()));
    if let Some(orientation) = orientation {
        let after_head = 1.min(chunks.len());
        chunks.insert(after_head, PngChunk::new(*b"eXIf", Bytes::from(note(orientation))));
    }
    Ok(picture.encoder().bytes().to_vec())
}

/// The chunks that a WebP is shown from.
const OF_A_WEBP: [&[u8; 4]; 7] = [b"VP8X", b"VP8 ", b"VP8L", b"ALPH", b"ANIM", b"ANMF", b"ICCP"];

fn webp(bytes: &[u8]) -> Result<Vec<u8>> {
    use img_parts::ImageEXIF as _;
    let mut picture = WebP::from_bytes(Bytes::copy_from_slice(bytes)).map_err(|_| damaged())?;
    let orientation = turned(bytes);
    // Through the library, so that the flags of the file's head say what is there.
    picture.set_exif(None);
    picture.chunks_mut().retain(|chunk| OF_A_WEBP.contains(&&chunk.id()));
    if let Some(orientation) = orientation {
        picture.set_exif(Some(Bytes::from(note(orientation))));
    }
    let mut copy = picture.encoder().bytes().to_vec();
    // Two flags of the head that may still name notes which are gone: XMP, and EXIF where none was put back.
    if copy.get(12..16) == Some(b"VP8X")
        && let Some(flags) = copy.get_mut(20)
    {
        *flags &= if orientation.is_some() { !0b0100 } else { !0b1100 };
    }
    Ok(copy)
}
