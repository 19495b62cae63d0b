//! Numbers in text, in every way that people and programs write them, and the pairs that may be places.

use std::collections::BTreeSet;

use super::frames::{Frame, Frames};

/// The two figures of a place stand within so many bytes of each other.
const APART: usize = 64;
/// And no more than so many other figures between them.
const BETWEEN: usize = 5;
/// Letters and figures run together, at most so many of them, are a place.
const LONGEST_WORD: usize = 25;
/// Degrees with more decimals than this are seen by the judge that knows the places alone.
const MOST_DECIMALS: usize = 10;

/// One reading of a number.
#[derive(Debug, Clone, Copy)]
struct Reading {
    /// Which number of the text.
    token: usize,
    /// The number after the last that it takes in.
    next: usize,
    start: usize,
    end: usize,
    value: f64,
    /// The size of its last figure.
    unit: f64,
    shape: Shape,
    /// Its decimal mark is a comma.
    comma: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Shape {
    /// So many digits, none after a decimal mark; whether the first is a nought.
    Whole { digits: usize, nought: bool },
    /// With decimals.
    Decimal { decimals: usize },
    /// Degrees with minutes, and maybe seconds; whether a sign or a letter says so.
    Sexagesimal { marked: bool },
}

/// A pair of figures that may be a place of a frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pair {
    pub frame: usize,
    pub x: f64,
    pub y: f64,
    pub unit_x: f64,
    pub unit_y: f64,
    /// Nothing stands between the two but a few letters, and the frame is one that people use.
    pub plain: bool,
    pub sexagesimal: bool,
}

/// Every pair of figures in a text that may be a place.
pub(super) fn pairs(text: &str, frames: &Frames) -> Vec<Pair> {
    let tokens = tokens(text.as_bytes());
    let mut hits: Vec<(usize, Reading, f64, bool, bool)> = Vec::new();
    for token in 0..tokens.len() {
        for reading in readings(text, &tokens, token) {
            for (index, frame) in frames.frames.iter().enumerate() {
                let Some(value) = taken(&reading, frame) else { continue };
                let on = |(low, high): (f64, f64)| {
                    [value, -value]
                        .into_iter()
                        .find(|v| *v >= low && *v <= high && (*v >= 0.0 || frame.degrees))
                };
                let (x, y) = (on(frame.x), on(frame.y));
                if let Some(value) = x.or(y) {
                    let kept = Reading { unit: reading.unit * frame.times, ..reading };
                    match (x, y) {
                        (Some(x), Some(y)) if x != y => {
                            hits.push((index, kept, x, true, false));
                            hits.push((index, kept, y, false, true));
                        }
                        _ => hits.push((index, kept, value, x.is_some(), y.is_some())),
                    }
                }
            }
        }
    }
    // In a list of places the end of one and the start of the next are none.
    let one_line = |first: &Reading, second: &Reading| {
        text.get(first.end..second.start).is_some_and(|between| !between.contains(['\n', ';']))
    };
    let mut settled: BTreeSet<(usize, usize)> = BTreeSet::new();
    for (at, (frame, first, _, a_x, a_y)) in hits.iter().enumerate() {
        let follow = hits.iter().skip(at + 1).take_while(|(_, second, ..)| second.token <= first.next);
        for (_, second, _, b_x, b_y) in
            follow.filter(|(other, second, ..)| other == frame && second.token == first.next)
        {
            if (*a_x && *b_y || *a_y && *b_x) && one_line(first, second) && alike(first, second) {
                settled.extend([(*frame, first.token), (*frame, second.token)]);
            }
        }
    }
    let mut found = Vec::new();
    for (at, (frame, first, a, a_x, a_y)) in hits.iter().enumerate() {
        for (other, second, b, b_x, b_y) in hits.iter().skip(at + 1) {
            if second.token > first.next + BETWEEN || second.start > first.end + APART {
                break;
            }
            if other != frame || second.token < first.next || !alike(first, second) {
                continue;
            }
            let Some(known) = frames.frames.get(*frame) else { continue };
            // In the order of the frame, and the other way round.
            let one = Pair {
                frame: *frame,
                x: *a,
                y: *b,
                unit_x: first.unit,
                unit_y: second.unit,
                plain: known.plain
                    && second.token == first.next
                    && noted(first, second, known)
                    && (one_line(first, second)
                        || ![first, second].iter().any(|one| settled.contains(&(*frame, one.token))))
                    // Metres are not told more finely than to a millimetre: the comma parts two figures.
                    && (known.degrees || ![first, second].iter().any(|one| one.comma && one.unit < 1e-3))
                    // Where a comma parts the two, it is no decimal mark of either.
                    && !((first.comma || second.comma) && text.get(first.end..second.start) == Some(",")),
                sexagesimal: matches!(first.shape, Shape::Sexagesimal { .. }),
            };
            if *a_x && *b_y {
                found.push(one);
            }
            if *a_y && *b_x {
                found.push(Pair { x: *b, y: *a, unit_x: second.unit, unit_y: first.unit, ..one });
            }
        }
    }
    found
}

/// The reading's value in a frame, where its shape is one that figures of that frame have.
fn taken(reading: &Reading, frame: &Frame) -> Option<f64> {
    let cut = frame.added != (0.0, 0.0) || (!frame.plain && frame.times == 1.0);
    let fits = match reading.shape {
        Shape::Sexagesimal { .. } => frame.degrees && frame.times == 1.0,
        Shape::Decimal { decimals } if frame.degrees => {
            frame.times >= 1.0 && decimals >= if frame.times > 1.0 { 6 } else { 3 }
        }
        Shape::Decimal { decimals } => frame.times >= 1.0 && !cut && (frame.times == 1.0 || decimals >= 2),
        Shape::Whole { digits, nought } if frame.degrees => frame.times < 1e-3 && digits >= 6 && !nought,
        // Five figures of a lettered square, noughts and all.
        Shape::Whole { digits, .. } if cut => digits == 5,
        Shape::Whole { digits, nought } => {
            // A nought before six figures pads the easting of a strip on the west.
            (frame.times == 1.0 && digits >= 4 && (!nought || digits == 6))
                || (frame.times < 1.0 && digits >= 7 && !nought)
        }
    };
    fits.then_some(reading.value * frame.times)
}

/// Whether two figures are written alike: no place has one in degrees and the other in seconds.
fn alike(first: &Reading, second: &Reading) -> bool {
    match (first.shape, second.shape) {
        (Shape::Sexagesimal { .. }, Shape::Sexagesimal { .. }) => {
            (first.unit / second.unit).log10().abs() < 1.5
                && first.next - first.token == second.next - second.token
        }
        (Shape::Sexagesimal { .. }, _) | (_, Shape::Sexagesimal { .. }) => false,
        _ => true,
    }
}

/// Whether anybody would see a place: degrees with four decimals at least one of them, or a sign.
fn noted(first: &Reading, second: &Reading, frame: &Frame) -> bool {
    let decimals = |reading: &Reading| match reading.shape {
        Shape::Decimal { decimals } => decimals,
        _ => 0,
    };
    match (first.shape, second.shape) {
        (Shape::Sexagesimal { marked: a }, Shape::Sexagesimal { marked: b }) => a && b,
        // Shares and rates out of a workbook have as many decimals as a computer gives them.
        _ if frame.degrees => {
            decimals(first).max(decimals(second)) <= MOST_DECIMALS
                && decimals(first).max(decimals(second)) >= 4
                && decimals(first).min(decimals(second)) >= 3
        }
        (Shape::Whole { digits: a, .. }, Shape::Whole { digits: b, .. }) => a.min(b) >= 5 && a.max(b) >= 6,
        _ => true,
    }
}

/// Whether the last mark of a number is a comma.
fn run_has_comma(text: &str, start: usize, end: usize) -> bool {
    let run = text.get(start..end).unwrap_or("");
    run.rfind([',', '.']).is_some_and(|at| run.get(at..).is_some_and(|rest| rest.starts_with(',')))
}

/// Where the runs of digits are. Digits in the middle of an identifier or a check sum are no number.
fn tokens(text: &[u8]) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < text.len() {
        if !text[at].is_ascii_digit() {
            at += 1;
            continue;
        }
        let start = at;
        while text.get(at).is_some_and(u8::is_ascii_digit) {
            at += 1;
        }
        let letters = |mut from: usize, back: bool| {
            let mut run = 0;
            loop {
                let next = if back { from.checked_sub(1) } else { Some(from) };
                let Some(byte) = next.and_then(|index| text.get(index)) else { return (run, None) };
                if !byte.is_ascii_alphabetic() {
                    return (run, Some(*byte));
                }
                run += 1;
                from = if back { from - 1 } else { from + 1 };
            }
        };
        let (before, then) = letters(start, true);
        let hidden_before = before > 1 && then.is_some_and(|byte| byte.is_ascii_digit());
        let (after, then) = letters(at, false);
        let hidden_after = after > 1 && then.is_some_and(|byte| byte.is_ascii_digit());
        // Neither are those of a check sum, whose letters part them.
        let beside = |byte: &u8| byte.is_ascii_alphanumeric();
        let run = text[..start].iter().rev().take(LONGEST_WORD).take_while(|b| beside(b)).count()
            + text[start..].iter().take(LONGEST_WORD).take_while(|b| beside(b)).count();
        if at - start <= 18 && !hidden_before && !hidden_after && run < LONGEST_WORD {
            found.push((start, at));
        }
    }
    found
}

/// The readings of the number that begins with a run of digits.
fn readings(text: &str, tokens: &[(usize, usize)], token: usize) -> Vec<Reading> {
    let mut found = Vec::new();
    let Some(&(start, end)) = tokens.get(token) else { return found };
    let bytes = text.as_bytes();
    let run = |(start, end): (usize, usize)| text.get(start..end).unwrap_or("");
    let digits = end - start;
    let value = |text: &str| text.parse::<f64>().ok();
    let gap = |index: usize| {
        let (before, after) = (tokens.get(index)?, tokens.get(index + 1)?);
        text.get(before.1..after.0)
    };
    let mut push = |next: usize, end: usize, value: Option<f64>, unit: f64, shape: Shape| {
        if let Some(value) = value {
            let comma = matches!(shape, Shape::Decimal { .. }) && run_has_comma(text, start, end);
            found.push(Reading { token, next, start, end, value, unit, shape, comma });
        }
    };
    // 576451
    let after_point = start.checked_sub(1).and_then(|before| bytes.get(before)) == Some(&b'.')
        && start.checked_sub(2).and_then(|before| bytes.get(before)).is_some_and(u8::is_ascii_digit);
    if after_point {
        return found;
    }
    let nought = digits > 1 && bytes.get(start) == Some(&b'0');
    if digits >= 4 && gap(token) != Some(".") {
        push(token + 1, end, value(run((start, end))), 1.0, Shape::Whole { digits, nought });
    }
    // 54.658054, 54,658054
    let mut decimal = None;
    if let (Some("." | ","), Some(&next)) = (gap(token), tokens.get(token + 1)) {
        let decimals = next.1 - next.0;
        let number = value(&format!("{}.{}", run((start, end)), run(next)));
        let unit = 10f64.powi(-(decimals as i32));
        // 5.76451e5
        let exponent = text.get(next.1..).and_then(|rest| {
            let rest = rest.strip_prefix(['e', 'E'])?;
            let rest = rest.strip_prefix('+').unwrap_or(rest);
            let figures: String = rest.chars().take_while(char::is_ascii_digit).take(2).collect();
            figures.parse::<i32>().ok()
        });
        if let (Some(exponent), Some(number)) = (exponent.filter(|e| (1..=9).contains(e)), number) {
            let unit = unit * 10f64.powi(exponent);
            push(
                token + 3,
                next.1 + 3,
                Some(number * 10f64.powi(exponent)),
                unit,
                Shape::Decimal { decimals },
            );
        }
        push(token + 2, next.1, number, unit, Shape::Decimal { decimals });
        decimal = number.map(|number| (number, decimals, next.1));
    }
    // 576 451 and 576,451.25, but not the figures of "OV 576 451".
    if digits <= 3 && !after_letters(bytes, start) {
        let mut whole = run((start, end)).to_owned();
        let mut last = token;
        let mut mark = None;
        while let (Some(between), Some(&next)) = (gap(last), tokens.get(last + 1)) {
            let separates =
                matches!(between, " " | "\u{a0}" | "\u{202f}" | "\u{2009}" | "'" | "’" | "," | "." | "_");
            if !separates
                || next.1 - next.0 != 3
                || mark.is_some_and(|mark| mark != between)
                || whole.len() > 6
            {
                break;
            }
            mark = Some(between);
            whole.push_str(run(next));
            last += 1;
            push(last + 1, next.1, value(&whole), 1.0, Shape::Whole { digits: whole.len(), nought });
            let decimals = gap(last)
                .zip(tokens.get(last + 1))
                .filter(|(point, _)| matches!(*point, "." | ",") && Some(*point) != mark);
            if let Some((_, &next)) = decimals {
                let number = value(&format!("{whole}.{}", run(next)));
                let decimals = next.1 - next.0;
                push(last + 2, next.1, number, 10f64.powi(-(decimals as i32)), Shape::Decimal { decimals });
            }
        }
    }
    if digits <= 3 {
        // 54°39'29.0", 54 39.4834, 54:39:29, 54d39m29s
        sexagesimal(text, tokens, token, &mut push);
    }
    // 5439.4834: degrees and minutes run together, as receivers write them.
    if let Some((number, decimals, end)) = decimal
        && (3..=5).contains(&digits)
        && decimals >= 3
    {
        let (degrees, minutes) = ((number / 100.0).floor(), number % 100.0);
        if minutes < 60.0 {
            let unit = 10f64.powi(-(decimals as i32)) / 60.0;
            push(token + 2, end, Some(degrees + minutes / 60.0), unit, Shape::Sexagesimal { marked: false });
        }
    }
    found
}

/// Whether two letters that are a word by themselves stand in front: those of a reference.
fn after_letters(bytes: &[u8], start: usize) -> bool {
    let mut before = bytes.get(..start).unwrap_or_default().iter().rev().peekable();
    while before.next_if(|byte| matches!(byte, b' ' | b':' | b'.' | b'/' | b'-')).is_some() {}
    let mut letters = 0;
    // Small letters are a word: "at 576 451".
    while before.next_if(|byte| byte.is_ascii_uppercase()).is_some() {
        letters += 1;
    }
    letters == 2
}

/// Degrees with minutes, and maybe seconds, that begin with a run of digits.
fn sexagesimal(
    text: &str,
    tokens: &[(usize, usize)],
    token: usize,
    push: &mut impl FnMut(usize, usize, Option<f64>, f64, Shape),
) {
    let run = |index: usize| tokens.get(index).and_then(|(start, end)| text.get(*start..*end));
    let gap = |index: usize| {
        let (before, after) = (tokens.get(index)?, tokens.get(index + 1)?);
        text.get(before.1..after.0)
    };
    let between = |gap: &str| {
        gap.chars().count() <= 4
            && !gap.contains('\n')
            && gap.chars().all(|c| {
                matches!(
                    c,
                    ' ' | ':' | '°' | 'º' | '˚' | 'd' | 'm' | '\'' | '′' | '’' | '´' | '-' | ',' | '*'
                ) || matches!(c, '\u{a0}' | '\u{202f}' | '\\')
            })
    };
    let marks = |gap: &str| gap.contains(['°', 'º', '˚', 'd', '\'', '′', '’', ':']);
    let part = |index: usize, most: f64| -> Option<(f64, f64, usize, usize)> {
        let whole = run(index)?;
        if whole.len() > 2 {
            return None;
        }
        // Decimals of this part, where there are some.
        if gap(index) == Some(".") {
            let decimals = run(index + 1)?;
            let value: f64 = format!("{whole}.{decimals}").parse().ok()?;
            let end = tokens.get(index + 1)?.1;
            return (value < most).then_some((value, 10f64.powi(-(decimals.len() as i32)), index + 2, end));
        }
        let value: f64 = whole.parse().ok()?;
        (value < most).then_some((value, 1.0, index + 1, tokens.get(index)?.1))
    };
    let Some(degrees) = run(token).and_then(|run| run.parse::<f64>().ok()).filter(|d| *d <= 180.0) else {
        return;
    };
    let Some(first) = gap(token).filter(|gap| between(gap)) else { return };
    let Some((minutes, unit, next, end)) = part(token + 1, 60.0) else { return };
    let marked = marks(first);
    if unit < 0.5 {
        push(next, end, Some(degrees + minutes / 60.0), unit / 60.0, Shape::Sexagesimal { marked });
        return;
    }
    let Some(second) = gap(next - 1).filter(|gap| between(gap)) else { return };
    let Some((seconds, unit, next, end)) = part(next, 60.0) else { return };
    let marked = marked && marks(second);
    push(
        next,
        end,
        Some(degrees + minutes / 60.0 + seconds / 3600.0),
        unit / 3600.0,
        Shape::Sexagesimal { marked },
    );
}
