//! PDF: every packed stream of the file, orphans of earlier editions too; its strings; its text as set; what
//! is drawn on its pages.

use std::sync::LazyLock;

use lopdf::{Document, Object};
use regex::bytes::Regex;

use super::opening::{Here, Opened};
use super::{Form, archives, encoded, pages};

static STREAM: LazyLock<Option<Regex>> = LazyLock::new(|| Regex::new(r"stream\r?\n").ok());
/// Text set as it stands: (words) and figures of sixteen in angle brackets.
static SET: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r"(?-u)\(((?:[^()\\]|\\.)*)\)|<([0-9A-Fa-f\s]{4,})>").ok());

/// Opens a PDF.
pub(super) fn pdf(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    streams(opened, here, bytes);
    match Document::load_mem(bytes) {
        Ok(document) if document.is_encrypted() || document.was_encrypted() => {
            opened.shut(here, "audit-not-sealed");
        }
        Ok(document) => {
            let mut strings = String::new();
            for object in document.objects.values() {
                gather(object, &mut strings, 0);
            }
            strings_of(document.trailer.iter().map(|(_, object)| object), &mut strings);
            let pages: Vec<u32> = document.get_pages().keys().copied().collect();
            for page in pages {
                if let Ok(text) = document.extract_text(&[page]) {
                    strings.push_str(&text);
                    strings.push('\n');
                }
            }
            encoded::unwrap(opened, here, &strings);
            opened.layer(here, Form::Text, strings.into_bytes());
            pages::open(opened, here, &document);
            // Streams packed in other ways than the usual one.
            for object in document.objects.values() {
                let Object::Stream(stream) = object else { continue };
                let filters = stream.filters().unwrap_or_default();
                let usual = filters.is_empty() || filters == [b"FlateDecode"];
                let picture = filters.iter().any(|filter| {
                    matches!(*filter, b"DCTDecode" | b"JPXDecode" | b"CCITTFaxDecode" | b"JBIG2Decode")
                });
                if !usual && !picture {
                    match stream.decompressed_content_with_limit(opened.left()) {
                        Ok(content) => {
                            if opened.afford(here, content.len()) {
                                content_of(opened, here, &content);
                            }
                        }
                        Err(_) => opened.shut(here, "audit-not-packed"),
                    }
                } else if picture && filters.len() == 1 && opened.afford(here, stream.content.len()) {
                    opened.open(&here.through("audit-through-buried"), &stream.content);
                }
            }
        }
        Err(_) => opened.shut(here, "audit-not-damaged"),
    }
}

/// Every stream of the file, found by its word and not by the table of contents.
fn streams(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    for found in STREAM.iter().flat_map(|form| form.find_iter(bytes)) {
        let Some(rest) = bytes.get(found.end()..) else { break };
        if rest.first() == Some(&0x78) {
            if let Some(content) = archives::inflate(opened, here, rest) {
                content_of(opened, here, &content);
            }
        } else {
            let end = memchr::memmem::find(rest, b"endstream").unwrap_or(rest.len());
            let content = rest.get(..end).unwrap_or_default();
            if opened.afford(here, content.len()) {
                content_of(opened, here, content);
            }
        }
    }
}

/// An unpacked stream: a file of its own, or drawing instructions with the text they set.
fn content_of(opened: &mut Opened, here: &Here, content: &[u8]) {
    let magic = [
        &b"\x89PNG"[..],
        b"\xff\xd8\xff",
        b"PK\x03\x04",
        b"\x1f\x8b",
        b"%PDF",
        b"<",
        b"{",
        b"II*\0",
        b"MM\0*",
        b"SQLite format",
    ];
    if magic.iter().any(|magic| content.starts_with(magic)) {
        return opened.open(&here.through("audit-through-buried"), content);
    }
    // Pixels are packed in streams too: bytes that are no text are searched for numbers alone.
    let high = content.iter().filter(|byte| **byte >= 0x80 || **byte == 0).count();
    if high * 10 > content.len() {
        return opened.layer(here, Form::Bytes, content.to_vec());
    }
    let mut set = String::new();
    for captures in SET.iter().flat_map(|form| form.captures_iter(content)) {
        if let Some(words) = captures.get(1) {
            set.push_str(&String::from_utf8_lossy(words.as_bytes()));
        } else if let Some(figures) = captures.get(2) {
            set.push_str(&sixteens(figures.as_bytes()));
        }
        set.push(' ');
    }
    opened.layer(here, Form::Text, set.into_bytes());
    // A note, a table or a file that is attached: words without operators.
    let text = String::from_utf8_lossy(content);
    let operators = text
        .split_ascii_whitespace()
        .filter(|word| {
            matches!(
                *word,
                "m" | "l"
                    | "c"
                    | "re"
                    | "cm"
                    | "f"
                    | "S"
                    | "Tj"
                    | "TJ"
                    | "q"
                    | "Q"
                    | "BT"
                    | "beginbfchar"
                    | "obj"
                    | "begincmap"
            )
        })
        .count();
    let words = text.split_ascii_whitespace().count();
    let form = if operators * 50 >= words.max(1) || words > 20_000 { Form::Drawing } else { Form::Text };
    opened.layer(here, form, content.to_vec());
    encoded::unwrap(opened, here, &text);
}

fn sixteens(figures: &[u8]) -> String {
    let digits: Vec<u8> =
        figures.iter().filter_map(|byte| char::from(*byte).to_digit(16)).map(|d| d as u8).collect();
    let bytes: Vec<u8> =
        digits.chunks(2).map(|pair| pair.iter().fold(0, |sum, digit| sum * 16 + digit)).collect();
    words(&bytes)
}

fn words(bytes: &[u8]) -> String {
    encoded::decode(bytes).map_or_else(|| String::from_utf8_lossy(bytes).into_owned(), |(text, _)| text)
}

fn strings_of<'a>(objects: impl Iterator<Item = &'a Object>, into: &mut String) {
    for object in objects {
        gather(object, into, 0);
    }
}

/// The strings and numbers of an object, one after the other; of a stream, those of its head.
fn gather(object: &Object, into: &mut String, depth: usize) {
    if depth > 32 {
        return;
    }
    match object {
        Object::String(bytes, _) => {
            into.push_str(&words(bytes));
            into.push('\n');
        }
        Object::Name(bytes) if bytes.len() > 4 => {
            into.push_str(&String::from_utf8_lossy(bytes));
            into.push('\n');
        }
        Object::Array(all) => all.iter().for_each(|object| gather(object, into, depth + 1)),
        Object::Dictionary(all) => all.iter().for_each(|(_, object)| gather(object, into, depth + 1)),
        Object::Stream(stream) => stream.dict.iter().for_each(|(_, object)| gather(object, into, depth + 1)),
        _ => {}
    }
}
