//! Pictures: what a camera or a program wrote beside the pixels. The pixels themselves are not read.

use std::io::Cursor;

use exif::{In, Tag, Value};

use super::opening::{Here, Opened};
use super::tags::Tags;
use super::{Form, Part, Vertex, archives, encoded};
use crate::coordinates::System;

/// Figures of a camera's position: a receiver gives no finer.
const CAMERA_DEG: f64 = 1e-6;

/// A PNG: its chunks, and what stands behind its end.
pub(super) fn png(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let mut at = 8;
    let mut ended = false;
    while let Some(head) = bytes.get(at..at + 8) {
        let (length, kind) = head.split_at(4);
        let length = length.try_into().map_or(usize::MAX, |length| u32::from_be_bytes(length) as usize);
        let Some(data) = at.checked_add(8).and_then(|start| bytes.get(start..start.checked_add(length)?))
        else {
            opened.shut(here, "audit-not-damaged");
            break;
        };
        match kind {
            b"IDAT" | b"PLTE" | b"fdAT" => {}
            b"zTXt" | b"iTXt" | b"iCCP" => {
                words(opened, here, data);
                for magic in data.windows(2).enumerate().filter(|(_, two)| two[0] == 0x78).map(|(at, _)| at) {
                    if let Some(inside) =
                        data.get(magic..).and_then(|rest| archives::inflate(opened, here, rest))
                    {
                        opened.open(&here.through("audit-through-deflate"), &inside);
                    }
                }
            }
            b"eXIf" => camera(opened, here, data),
            _ => words(opened, here, data),
        }
        at += 12 + length;
        if kind == b"IEND" {
            ended = true;
            break;
        }
    }
    behind(opened, here, bytes.get(at..).filter(|_| ended));
}

/// What stands behind the end of a picture.
fn behind(opened: &mut Opened, here: &Here, rest: Option<&[u8]>) {
    if let Some(rest) = rest.filter(|rest| !rest.is_empty()) {
        opened.open(&here.through("audit-through-buried"), rest);
    }
}

/// Words and numbers of a piece that is neither pixels nor known.
fn words(opened: &mut Opened, here: &Here, data: &[u8]) {
    for (words, way) in encoded::words_between(data) {
        let here = way.map_or_else(|| here.clone(), |way| here.through(way));
        encoded::unwrap(opened, &here, &words);
        opened.layer(&here, Form::Text, words.into_bytes());
    }
    archives::buried(opened, here, data);
    opened.layer(here, Form::Bytes, data.to_vec());
}

/// A JPEG: its segments, and what stands behind its end.
pub(super) fn jpeg(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let mut at = 2;
    while let Some(&[0xff, marker]) = bytes.get(at..at + 2) {
        match marker {
            0xd8 | 0x01 | 0xd0..=0xd7 | 0xff => {
                at += if marker == 0xff { 1 } else { 2 };
                continue;
            }
            0xd9 => {
                at += 2;
                return behind(opened, here, bytes.get(at..));
            }
            _ => {}
        }
        let length =
            bytes.get(at + 2..at + 4).map_or(0, |two| usize::from(two[0]) << 8 | usize::from(two[1]));
        let Some(data) = bytes.get(at + 4..at + 2 + length.max(2)) else {
            return opened.shut(here, "audit-not-damaged");
        };
        at += 2 + length.max(2);
        match marker {
            0xe0..=0xef | 0xfe => segment(opened, here, data),
            // Pixels, up to the next marker that is not part of them.
            0xda => {
                while let Some(two) = bytes.get(at..at + 2) {
                    if two[0] == 0xff && !matches!(two[1], 0 | 0xd0..=0xd7 | 0xff) {
                        break;
                    }
                    at += 1;
                }
            }
            _ => {}
        }
    }
    behind(opened, here, bytes.get(at..));
}

fn segment(opened: &mut Opened, here: &Here, data: &[u8]) {
    if let Some(raw) = data.strip_prefix(b"Exif\0\0") {
        camera(opened, here, raw);
        // A thumbnail is a picture of its own.
        if let Some(thumbnail) = memchr::memmem::find(raw, b"\xff\xd8\xff").and_then(|at| raw.get(at..)) {
            opened.open(&here.through("audit-through-thumbnail"), thumbnail);
        }
        return;
    }
    words(opened, here, data);
}

/// What a camera wrote: words, and where it stood.
fn camera(opened: &mut Opened, here: &Here, raw: &[u8]) {
    words(opened, here, raw);
    let mut reader = exif::Reader::new();
    reader.continue_on_error(true);
    let read = reader.read_raw(raw.to_vec()).or_else(|why| why.distill_partial_result(|_| {}));
    if let Ok(read) = read {
        position(opened, here, &read);
    }
}

fn position(opened: &mut Opened, here: &Here, read: &exif::Exif) {
    for (latitude, north, longitude, east) in [
        (Tag::GPSLatitude, Tag::GPSLatitudeRef, Tag::GPSLongitude, Tag::GPSLongitudeRef),
        (Tag::GPSDestLatitude, Tag::GPSDestLatitudeRef, Tag::GPSDestLongitude, Tag::GPSDestLongitudeRef),
    ] {
        for directory in [In::PRIMARY, In::THUMBNAIL] {
            let degrees = |tag: Tag| {
                let Value::Rational(parts) = &read.get_field(tag, directory)?.value else { return None };
                let mut parts = parts.iter().map(exif::Rational::to_f64);
                let whole =
                    parts.next()? + parts.next().unwrap_or(0.0) / 60.0 + parts.next().unwrap_or(0.0) / 3600.0;
                whole.is_finite().then_some(whole)
            };
            let turned = |tag: Tag, letter: u8| {
                let text = read.get_field(tag, directory).map(|field| &field.value);
                matches!(text, Some(Value::Ascii(text)) if text.first().is_some_and(|text| text.first() == Some(&letter)))
            };
            let sign = |turned: bool, value: f64| if turned { -value } else { value };
            if let (Some(y), Some(x)) = (degrees(latitude), degrees(longitude)) {
                opened.vertices.push(Vertex {
                    within: here.within.clone(),
                    kind: "audit-kind-camera",
                    system: Some(System::Wgs84),
                    x: sign(turned(east, b'W'), x),
                    y: sign(turned(north, b'S'), y),
                    unit: CAMERA_DEG,
                    part: Part::Camera,
                });
            }
        }
    }
}

/// A WebP: its chunks.
pub(super) fn webp(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let mut at = 12;
    let whole = bytes
        .get(4..8)
        .and_then(|four| four.try_into().ok())
        .map_or(0, |four| u32::from_le_bytes(four) as usize + 8);
    while at + 8 <= whole.min(bytes.len()) {
        let Some((kind, length)) = bytes.get(at..at + 4).zip(bytes.get(at + 4..at + 8)) else { break };
        let length = length.try_into().map_or(usize::MAX, |length| u32::from_le_bytes(length) as usize);
        let Some(data) = bytes.get(at + 8..).and_then(|rest| rest.get(..length)) else {
            opened.shut(here, "audit-not-damaged");
            break;
        };
        match kind {
            b"VP8 " | b"VP8L" | b"ALPH" | b"ANMF" => {}
            b"EXIF" => camera(opened, here, data.strip_prefix(b"Exif\0\0").unwrap_or(data)),
            _ => words(opened, here, data),
        }
        at += 8 + length + length % 2;
    }
    behind(opened, here, bytes.get(whole.max(at)..));
}

/// A TIFF: where it lies on the ground, what a camera wrote, and its words.
pub(super) fn tiff(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    camera(opened, here, bytes);
    let Some(tags) = Tags::read(bytes) else {
        // The large kind is searched as bytes alone.
        return;
    };
    // GeoTIFF 1.1 (OGC 19-008r4): scale of a pixel, tie points of six numbers, a matrix of sixteen, and the
    // directory of keys, whose 2048 and 3072 are codes of systems.
    let (scale, ties, matrix, keys) =
        (tags.numbers(33550), tags.numbers(33922), tags.numbers(34264), tags.numbers(34735));
    let code = keys.chunks_exact(4).find_map(|key| match key {
        [id, _, _, code] if [3072.0, 2048.0].contains(id) && *code < 32_767.0 => Some(*code as u32),
        _ => None,
    });
    let Some(system) = code.map(System::from_epsg) else { return };
    let pixel = scale.first().copied().or(matrix.first().copied()).unwrap_or(0.0).abs();
    let corners = ties.chunks_exact(6).filter_map(|tie| match tie {
        [_, _, _, x, y, _] => Some((*x, *y)),
        _ => None,
    });
    let corners: Vec<(f64, f64)> =
        corners.chain(matrix.get(3).copied().zip(matrix.get(7).copied())).collect();
    for (x, y) in corners {
        // A picture laid on whole pixels of its grid says where no more finely than by one of them.
        let whole = |value: f64| pixel >= 1.0 && ((value / pixel).round() * pixel - value).abs() < 1e-6;
        let on_pixels = whole(x) && whole(y);
        opened.vertices.push(Vertex {
            within: here.within.clone(),
            kind: "audit-kind-raster",
            system: Some(system.clone()),
            x,
            y,
            unit: if on_pixels { pixel } else { 1e-6 },
            part: if on_pixels { Part::Edge { extent_m: f64::INFINITY } } else { Part::Place },
        });
    }
}

/// HEIC, film and their like: the words and numbers between, and where a camera stood if its notes can be found;
/// what is packed in them is not looked into.
pub(super) fn film(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let read = exif::Reader::new().read_from_container(&mut Cursor::new(bytes));
    if let Ok(read) = read {
        position(opened, here, &read);
    }
    opened.shut(here, "audit-not-format");
}
