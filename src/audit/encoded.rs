//! Text out of bytes, and what is written inside text in another way: base64, figures of sixteen, per cent,
//! character numbers, turned round.

use std::sync::LazyLock;

use base64::Engine as _;
use base64::engine::{DecodePaddingMode, GeneralPurpose, GeneralPurposeConfig};
use regex::Regex;

use super::opening::{Here, Opened};
use super::{Form, markup};

/// Longer text is not read backwards.
const LONGEST_TURNED: usize = 8 << 20;

/// Longer text is not opened again once its escapes are undone.
const LONGEST_UNESCAPED: usize = 1 << 20;

const LENIENT: GeneralPurposeConfig = GeneralPurposeConfig::new()
    .with_decode_padding_mode(DecodePaddingMode::Indifferent)
    .with_decode_allow_trailing_bits(true);
static STANDARD: GeneralPurpose = GeneralPurpose::new(&base64::alphabet::STANDARD, LENIENT);
static FOR_ADDRESSES: GeneralPurpose = GeneralPurpose::new(&base64::alphabet::URL_SAFE, LENIENT);

static BASE64: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r"[A-Za-z0-9+/_-]{16,}(?:\r?\n[A-Za-z0-9+/_-]{4,})*={0,2}").ok());
static SIXTEENS: LazyLock<Option<Regex>> = LazyLock::new(|| {
    Regex::new(r"(?:[0-9A-Fa-f]{2}){8,}|(?:[0-9A-Fa-f]{2}[ :,]){7,}[0-9A-Fa-f]{2}|(?:\\x[0-9A-Fa-f]{2}){4,}")
        .ok()
});
static ESCAPES: LazyLock<Option<Regex>> = LazyLock::new(|| {
    Regex::new(r"%([0-9A-Fa-f]{2})|&#x([0-9A-Fa-f]{1,6});|&#([0-9]{1,7});|\\u\{?([0-9A-Fa-f]{4})\}?|\\x([0-9A-Fa-f]{2})|=([0-9A-F]{2})")
        .ok()
});

/// Bytes as text, and how it was hidden; `None` for what is no text.
pub(super) fn decode(bytes: &[u8]) -> Option<(String, Option<&'static str>)> {
    const WIDE: &str = "audit-through-utf-16";
    let wide = |big: bool, skip: usize| {
        let units = bytes.get(skip..)?.chunks_exact(2).map(|pair| match pair {
            [a, b] if big => u16::from_be_bytes([*a, *b]),
            [a, b] => u16::from_le_bytes([*a, *b]),
            _ => 0,
        });
        String::from_utf16(&units.collect::<Vec<_>>()).ok()
    };
    match bytes {
        [0xff, 0xfe, 0, 0, ..] | [0, 0, 0xfe, 0xff, ..] => {
            let stripped: Vec<u8> = bytes.iter().copied().filter(|byte| *byte != 0).collect();
            return Some((String::from_utf8_lossy(&stripped).into_owned(), Some("audit-through-utf-32")));
        }
        [0xff, 0xfe, ..] => return wide(false, 2).map(|text| (text, Some(WIDE))),
        [0xfe, 0xff, ..] => return wide(true, 2).map(|text| (text, Some(WIDE))),
        _ => {}
    }
    let control = |byte: &u8| *byte < 32 && !matches!(byte, b'\n' | b'\r' | b'\t' | 0x0c | 0x1b);
    if let Ok(text) = std::str::from_utf8(bytes) {
        let odd = bytes.iter().filter(|byte| control(byte)).count();
        return (odd * 50 <= bytes.len()).then(|| (text.to_owned(), None));
    }
    // UTF-16 without its mark: every second byte is nothing.
    let nothing = |start: usize| bytes.iter().skip(start).step_by(2).filter(|byte| **byte == 0).count();
    if bytes.len() >= 8 && (nothing(1) * 3 > bytes.len() || nothing(0) * 3 > bytes.len()) {
        return wide(nothing(0) > nothing(1), 0).map(|text| (text, Some(WIDE)));
    }
    // One byte a letter: few bytes are control characters.
    let odd = bytes.iter().filter(|byte| control(byte) || **byte == 0x7f).count();
    let high = bytes.iter().filter(|byte| **byte >= 0x80).count();
    (odd * 200 <= bytes.len() && high * 3 <= bytes.len())
        .then(|| (encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes).0.into_owned(), None))
}

/// Runs of words and figures between other bytes, in letters of one byte and of two.
pub(super) fn words_between(bytes: &[u8]) -> Vec<(String, Option<&'static str>)> {
    const LEAST: usize = 6;
    let mut found = Vec::new();
    let printable = |byte: u8| (32..127).contains(&byte) || byte >= 0xa0;
    let mut narrow = String::new();
    let mut run = 0;
    for (at, byte) in bytes.iter().enumerate() {
        if printable(*byte) || matches!(byte, b'\n' | b'\t' | b'\r') {
            run += 1;
            continue;
        }
        end_run(&mut narrow, bytes.get(at - run..at), LEAST);
        run = 0;
    }
    end_run(&mut narrow, bytes.get(bytes.len() - run..), LEAST);
    if !narrow.is_empty() {
        found.push((narrow, None));
    }
    for start in 0..4 {
        // Both ends first, at both offsets.
        let (offset, big) = (start % 2, start / 2 == 1);
        let mut wide = String::new();
        let mut run = String::new();
        for pair in bytes.get(offset..).unwrap_or_default().chunks_exact(2) {
            let (letter, nothing) = match pair {
                [a, b] if big => (*b, *a),
                [a, b] => (*a, *b),
                _ => (0, 1),
            };
            if nothing == 0 && (32..127).contains(&letter) {
                run.push(char::from(letter));
                continue;
            }
            if run.len() >= LEAST {
                wide.push_str(&run);
                wide.push('\n');
            }
            run.clear();
        }
        if run.len() >= LEAST {
            wide.push_str(&run);
        }
        if !wide.is_empty() {
            found.push((wide, Some("audit-through-utf-16")));
        }
    }
    found
}

/// A run of printable bytes that is long enough, and more than chance makes of packed bytes.
fn end_run(into: &mut String, run: Option<&[u8]>, least: usize) {
    let Some(run) = run.filter(|run| run.len() >= least) else { return };
    let high = run.iter().filter(|byte| **byte >= 0x80).count();
    if high * 4 > run.len() {
        // Letters of several bytes are words too.
        if let Ok(text) = std::str::from_utf8(run) {
            into.push_str(text);
            into.push('\n');
        }
        return;
    }
    match std::str::from_utf8(run) {
        Ok(text) => into.push_str(text),
        Err(_) => into.push_str(&encoding_rs::WINDOWS_1252.decode_without_bom_handling(run).0),
    }
    into.push('\n');
}

/// Opens what is written inside text in another way.
pub(super) fn unwrap(opened: &mut Opened, here: &Here, text: &str) {
    if text.len() <= LONGEST_TURNED && text.bytes().any(|byte| byte.is_ascii_digit()) {
        let turned: String = text.chars().rev().collect();
        opened.layer(&here.through("audit-through-turned"), Form::Hidden, turned.into_bytes());
    }
    if let Some(plain) = unescape(text).filter(|plain| plain != text) {
        let here = here.through("audit-through-escapes");
        if markup::is(&plain) {
            markup::open(opened, &here, &plain);
        } else if plain.len() < LONGEST_UNESCAPED && opened.afford(&here, plain.len()) {
            opened.open(&here, plain.as_bytes());
        } else {
            opened.layer(&here, Form::Text, plain.into_bytes());
        }
    }
    for run in BASE64.iter().flat_map(|form| form.find_iter(text)) {
        let packed: Vec<u8> = run.as_str().bytes().filter(|byte| !byte.is_ascii_whitespace()).collect();
        let plain = STANDARD.decode(&packed).or_else(|_| FOR_ADDRESSES.decode(&packed));
        // A run of four letters more or less at its start may not belong to it.
        let plain =
            plain.or_else(|_| STANDARD.decode(packed.get(..packed.len() / 4 * 4).unwrap_or_default()));
        if let Ok(plain) = plain {
            worth(opened, &here.through("audit-through-base64"), &plain, packed.len());
        }
    }
    for run in SIXTEENS.iter().flat_map(|form| form.find_iter(text)) {
        let digits: Vec<u8> = run
            .as_str()
            .replace("\\x", "")
            .bytes()
            .filter_map(|byte| char::from(byte).to_digit(16).map(|digit| digit as u8))
            .collect();
        let plain: Vec<u8> = digits
            .chunks_exact(2)
            .filter_map(|pair| match pair {
                [high, low] => Some(high * 16 + low),
                _ => None,
            })
            .collect();
        worth(opened, &here.through("audit-through-sixteens"), &plain, digits.len());
    }
}

/// Opens decoded bytes where they are words or something known, or long enough to hold numbers.
fn worth(opened: &mut Opened, here: &Here, plain: &[u8], written: usize) {
    let words = plain
        .iter()
        .filter(|byte| (32..127).contains(*byte) || matches!(byte, b'\n' | b'\r' | b'\t' | 0))
        .count();
    let text = plain.len() >= 8 && words * 10 >= plain.len() * 9;
    let packed = plain.starts_with(b"\x1f\x8b")
        || plain.starts_with(b"PK\x03\x04")
        || plain.starts_with(b"x\x9c")
        || plain.starts_with(b"x\xda");
    if (text || packed || written >= 256) && opened.afford(here, plain.len()) {
        opened.open(here, plain);
    } else if plain.len() >= 12 {
        opened.layer(here, Form::Bytes, plain.to_vec());
    }
}

/// Text with its escapes undone; `None` without any.
fn unescape(text: &str) -> Option<String> {
    let form = ESCAPES.as_ref()?;
    let mut bytes: Vec<u8> = Vec::with_capacity(text.len());
    let (mut last, mut times) = (0, 0);
    for captures in form.captures_iter(text) {
        let Some(whole) = captures.get(0) else { continue };
        let group = |index: usize, radix: u32| {
            captures.get(index).and_then(|found| u32::from_str_radix(found.as_str(), radix).ok())
        };
        let byte = group(1, 16).or(group(5, 16)).or(group(6, 16)).and_then(|byte| u8::try_from(byte).ok());
        let letter = group(2, 16).or(group(3, 10)).or(group(4, 16)).and_then(char::from_u32);
        bytes.extend_from_slice(text.get(last..whole.start()).unwrap_or("").as_bytes());
        match (byte, letter) {
            (Some(byte), _) => bytes.push(byte),
            (_, Some(letter)) => bytes.extend_from_slice(letter.encode_utf8(&mut [0; 4]).as_bytes()),
            _ => bytes.extend_from_slice(whole.as_str().as_bytes()),
        }
        last = whole.end();
        times += 1;
    }
    if times == 0 {
        return None;
    }
    bytes.extend_from_slice(text.get(last..).unwrap_or("").as_bytes());
    let text = String::from_utf8(bytes).unwrap_or_else(|bytes| {
        encoding_rs::WINDOWS_1252.decode_without_bom_handling(bytes.as_bytes()).0.into_owned()
    });
    Some(text)
}
