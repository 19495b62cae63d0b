//! Cuts a tidied text into numbers, signs and words.

/// What a comma between two digits is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Comma {
    /// A decimal mark: "52,658".
    Decimal,
    /// Between two numbers: "651409,313177".
    Between,
    /// Between thousands: "651,409".
    Thousands,
}

/// A number as written.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// Its sign, where written.
    pub sign: Option<char>,
    /// The figures before the decimal mark.
    pub whole: String,
    /// The figures after it.
    pub fraction: String,
}

impl Number {
    /// Its value without the sign.
    pub fn size(&self) -> f64 {
        // Most places are whole metres: as they stand.
        let size = if self.fraction.is_empty() {
            self.whole.parse()
        } else {
            format!("{}.{}", self.whole, self.fraction).parse()
        };
        size.unwrap_or(f64::INFINITY)
    }

    /// Its value.
    pub fn value(&self) -> f64 {
        if self.sign == Some('-') { -self.size() } else { self.size() }
    }
}

/// A piece of a written place.
#[derive(Debug, Clone, PartialEq)]
pub enum Token {
    /// A number.
    Number(Number),
    /// A word, in lower case.
    Word(String),
    /// `°`, `'` or `"`.
    Mark(char),
    /// `,`, `;`, `/`, `|`, `:` or `=`.
    Between(char),
    /// White space (kept, as it tells "651 409" from "651409").
    Space,
}

/// Cuts `text` up; `None` where a character belongs to no place, or a number is malformed.
pub fn scan(text: &str, comma: Comma) -> Option<Vec<Token>> {
    let chars: Vec<char> = text.chars().collect();
    let mut tokens = Vec::new();
    let mut at = 0;
    let digit = |at: usize| chars.get(at).is_some_and(char::is_ascii_digit);
    while let Some(&c) = chars.get(at) {
        if digit(at) || (matches!(c, '.' | '+' | '-') && digit(at + 1)) {
            let (number, next) = number(&chars, at, comma)?;
            tokens.push(Token::Number(number));
            at = next;
            continue;
        }
        at += 1;
        match c {
            ' ' => tokens.push(Token::Space),
            '°' | '\'' | '"' => tokens.push(Token::Mark(c)),
            ',' | ';' | '/' | '|' | ':' | '=' => tokens.push(Token::Between(c)),
            // A full stop that ends a label: "Lat."
            '.' if matches!(tokens.last(), Some(Token::Word(_))) => {}
            c if c.is_alphabetic() => {
                let start = at - 1;
                while chars.get(at).is_some_and(|c| c.is_alphabetic()) {
                    at += 1;
                }
                let word: String = chars[start..at].iter().collect();
                tokens.push(Token::Word(word.to_lowercase()));
            }
            _ => return None,
        }
    }
    Some(tokens)
}

fn number(chars: &[char], start: usize, comma: Comma) -> Option<(Number, usize)> {
    let mut at = start;
    let sign = match chars[at] {
        c @ ('+' | '-') => {
            at += 1;
            Some(c)
        }
        _ => None,
    };
    let digit = |at: usize| chars.get(at).is_some_and(char::is_ascii_digit);
    let run = |at: &mut usize| {
        let begin = *at;
        while digit(*at) {
            *at += 1;
        }
        chars[begin..*at].iter().collect::<String>()
    };
    let mut whole = run(&mut at);
    while comma == Comma::Thousands && chars.get(at) == Some(&',') && digit(at + 1) {
        let mut end = at + 1;
        let group = run(&mut end);
        // The first group has one to three figures, each further one three.
        let first = at == start + usize::from(sign.is_some()) + whole.len();
        if group.len() != 3 || whole.is_empty() || (first && whole.len() > 3) {
            return None;
        }
        whole.push_str(&group);
        at = end;
    }
    let mut fraction = String::new();
    let mark = chars.get(at).copied();
    let decimal = mark == Some('.') || (mark == Some(',') && comma == Comma::Decimal);
    if decimal && digit(at + 1) {
        at += 1;
        fraction = run(&mut at);
    }
    // "1.2.3" is a date or a version, not a place.
    if chars.get(at) == Some(&'.') && digit(at + 1) {
        return None;
    }
    Some((Number { sign, whole, fraction }, at))
}
