//! One spelling for the many characters that stand for the same thing in a written place.

/// Folds spaces, dashes, degree, minute and second signs, and takes off what encloses the place.
pub fn tidy(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            // Marks that change the direction of writing, and the mark of a file's byte order.
            '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}' | '\u{feff}' => {}
            '−' | '–' | '—' | '‐' | '‑' | '‒' => folded.push('-'),
            '′' | '’' | '‘' | '´' | '`' | 'ʹ' | 'ʼ' | '‛' => folded.push('\''),
            '″' | '”' | '“' | 'ʺ' | '‟' | '«' | '»' => folded.push('"'),
            'º' | '˚' | 'ᵒ' | '⁰' => folded.push('°'),
            '\u{ff0c}' => folded.push(','),
            c if c.is_whitespace() || c == '\u{202f}' || c == '\u{a0}' => {
                if !folded.ends_with(' ') {
                    folded.push(' ');
                }
            }
            c => folded.push(c),
        }
    }
    let folded = folded.replace("''", "\"");
    let mut text = folded.trim();
    for (open, close) in [('(', ')'), ('[', ']'), ('"', '"')] {
        if let Some(inner) = text.strip_prefix(open).and_then(|text| text.strip_suffix(close)) {
            text = inner.trim();
        }
    }
    text.trim_end_matches(['.', ',', ';', ':', ' ']).to_owned()
}
