//! Eastings and northings in figures alone, with or without labels, in a system that is named or asked.

use super::scan::{Comma, Number, Token, scan};
use super::{Position, System, Written};
use crate::fault::{Fault, Result};

/// Farther from its origin than this lies no place in any grid, one that puts a zone's number in front of its
/// eastings included.
const FARTHEST_M: f64 = 1e8;

/// Reads an easting and a northing.
pub fn read(text: &str, system: Option<&System>, decimal_comma: bool) -> Result<Written> {
    let mut found: Vec<Figures> = Vec::new();
    for comma in [Comma::Decimal, Comma::Between, Comma::Thousands] {
        for figures in scan(text, comma).map(|tokens| candidates(&tokens)).unwrap_or_default() {
            if figures.likely() && !found.contains(&figures) {
                found.push(figures);
            }
        }
    }
    if found.is_empty() {
        return Err(Fault::new("place-unreadable"));
    }
    let Some(system) = system else {
        return Err(which_system(&found));
    };
    choose(found, system, decimal_comma)
}

/// Figures say nothing of their system, and several share their range: which of those that people write places
/// in about these coasts.
fn which_system(found: &[Figures]) -> Fault {
    let known = [
        "british-grid",
        "irish-grid",
        "itm",
        "lambert-93",
        "lambert-2-extended",
        "dutch-grid",
        "belgian-lambert-2008",
    ];
    let systems = known.iter().filter_map(|name| name.parse::<System>().ok());
    let fit: Vec<String> = systems
        .filter(|system| found.iter().any(|figures| figures.within(system)))
        .map(|system| system.to_string())
        .collect();
    if fit.is_empty() {
        return Fault::new("place-ambiguous-no-system");
    }
    Fault::new("place-ambiguous-system").with("systems", fit.join(", "))
}

/// Reads an easting and a northing from two columns.
pub fn read_pair(easting: &str, northing: &str, system: &System, decimal_comma: bool) -> Result<Written> {
    let mut found: Vec<Figures> = Vec::new();
    // Bare figures read alike either way.
    let bare = |text: &str| text.trim().bytes().all(|b| b.is_ascii_digit());
    let ways: &[Comma] = match bare(easting) && bare(northing) {
        true => &[Comma::Decimal],
        false => &[Comma::Decimal, Comma::Thousands],
    };
    for comma in ways {
        let one = |text| scan(text, *comma).map(|tokens| singles(&tokens)).unwrap_or_default();
        for easting in one(easting) {
            for northing in one(northing) {
                let figures = Figures { easting: easting.clone(), northing, labelled: false, columns: true };
                if figures.likely() && !found.contains(&figures) {
                    found.push(figures);
                }
            }
        }
    }
    if found.is_empty() {
        return Err(Fault::new("place-unreadable"));
    }
    choose(found, system, decimal_comma)
}

/// One reading of a text as an easting and a northing.
#[derive(Debug, Clone, PartialEq)]
struct Figures {
    easting: Number,
    northing: Number,
    /// Each is said to be what it is.
    labelled: bool,
    /// They stand in columns that say what they are.
    columns: bool,
}

impl Figures {
    /// Metres under a thousand both are no place, but kilometres, degrees or a reference.
    fn likely(&self) -> bool {
        self.easting.size() >= 1000.0 || self.northing.size() >= 1000.0
    }

    fn swapped(&self) -> Self {
        Self { easting: self.northing.clone(), northing: self.easting.clone(), ..*self }
    }

    fn within(&self, system: &System) -> bool {
        let near = self.easting.size() < FARTHEST_M && self.northing.size() < FARTHEST_M;
        near && system.holds(self.easting.value(), self.northing.value()).unwrap_or(true)
    }

    fn decimals(&self) -> usize {
        self.easting.fraction.len().max(self.northing.fraction.len())
    }

    fn written(&self, system: &System) -> Written {
        Written {
            understood_as: "notation-all-figures",
            system: system.clone(),
            position: Position::Projected {
                easting_m: self.easting.value(),
                northing_m: self.northing.value(),
            },
            corner: None,
            // More decimals than a tenth of a millimetre come from a computer, not from a measurement.
            square_m: 10_f64.powi(-(self.decimals().min(4) as i32)),
            height_m: None,
            stated_m: None,
        }
    }
}

/// The one reading that lies in the system, if it is the only one and bears no mark of a usual slip.
fn choose(found: Vec<Figures>, system: &System, decimal_comma: bool) -> Result<Written> {
    let mut within: Vec<&Figures> = found.iter().filter(|figures| figures.within(system)).collect();
    if within.len() > 1 && decimal_comma {
        // The first reading is that with a decimal comma.
        within.truncate(1);
    }
    match within[..] {
        [] if found.iter().any(|figures| figures.swapped().within(system)) => {
            Err(Fault::new("place-ambiguous-swapped"))
        }
        [] => Err(Fault::new("place-outside").with("system", system)),
        [figures] => match slip(figures, system) {
            Some(fault) => Err(fault),
            None => Ok(figures.written(system)),
        },
        _ => Err(Fault::new("place-ambiguous-comma")),
    }
}

/// A usual slip that the figures bear the mark of.
fn slip(figures: &Figures, system: &System) -> Option<Fault> {
    let whole = figures.decimals() == 0;
    let (east, north) = (figures.easting.whole.len(), figures.northing.whole.len());
    let (easting, northing) = (figures.easting.value(), figures.northing.value());
    match system {
        System::BritishGrid if whole && !figures.labelled => {
            // "5234 4123" is a reference that lost its letters rather than a place in the sea south-west
            // of Scilly. Six figures ("052340 041230"), labels or decimals say metres; so do columns, for
            // five figures.
            let length = if figures.columns { 4 } else { 5 };
            if east == north && east <= length {
                return Some(Fault::new("place-ambiguous-letters"));
            }
            // Under 100 km east there is land in Scilly and, north of 700 km, in the Hebrides.
            let sea = easting < 100_000.0 && (20_000.0..700_000.0).contains(&northing);
            (east <= 5 && sea).then(|| Fault::new("place-ambiguous-digit"))
        }
        // West of 90 km there is no land in France: an easting of five figures lost one.
        System::Lambert93 => (whole && east <= 5 && (0.0..90_000.0).contains(&easting))
            .then(|| Fault::new("place-ambiguous-digit")),
        _ => None,
    }
}

/// What a word says of the figures beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Label {
    Easting,
    Northing,
    /// "m".
    Unit,
}

fn label(word: &str) -> Option<Label> {
    Some(match word {
        "e" | "x" | "east" | "easting" | "eastings" | "est" => Label::Easting,
        "n" | "y" | "north" | "northing" | "northings" | "nord" => Label::Northing,
        "m" | "metre" | "metres" | "mètres" | "mètre" => Label::Unit,
        _ => return None,
    })
}

/// Every way to read tokens as an easting and a northing.
fn candidates(tokens: &[Token]) -> Vec<Figures> {
    // Runs of numbers with only space between them, each with the label before or after it.
    let mut runs: Vec<(Vec<Number>, Option<Label>)> = vec![(Vec::new(), None)];
    let mut commas = 0;
    let leads = tokens.iter().find_map(|token| match token {
        Token::Word(_) => Some(true),
        Token::Number(_) => Some(false),
        _ => None,
    });
    let mut after_number = false;
    for token in tokens {
        let after_number = std::mem::replace(&mut after_number, matches!(token, Token::Number(_)));
        let Some(run) = runs.last_mut() else { return Vec::new() };
        match token {
            Token::Space | Token::Between(':' | '=') => {}
            Token::Number(number) if number.sign.is_some() && !run.0.is_empty() => {
                // "651409-313177": a hyphen, where a minus would have a space before it.
                let hyphen = number.sign == Some('-') && after_number;
                let sign = number.sign.filter(|_| !hyphen);
                runs.push((vec![Number { sign, ..number.clone() }], None));
            }
            Token::Number(number) => run.0.push(number.clone()),
            Token::Between(c) => {
                commas += usize::from(*c == ',');
                if !run.0.is_empty() {
                    runs.push((Vec::new(), None));
                }
            }
            Token::Word(word) => match label(word) {
                None => return Vec::new(),
                Some(Label::Unit) => {}
                Some(label) if leads == Some(true) => {
                    if run.0.is_empty() && run.1.is_none() {
                        run.1 = Some(label);
                    } else {
                        runs.push((Vec::new(), Some(label)));
                    }
                }
                Some(label) => {
                    run.1 = Some(label);
                    runs.push((Vec::new(), None));
                }
            },
            Token::Mark(_) => return Vec::new(),
        }
    }
    runs.retain(|(numbers, label)| !numbers.is_empty() || label.is_some());
    if commas > 1 {
        return Vec::new();
    }
    let figures = |easting, northing, labelled| Figures { easting, northing, labelled, columns: false };
    match &runs[..] {
        [(numbers, None)] => (1..numbers.len())
            .filter_map(|split| {
                let (first, second) = numbers.split_at(split);
                Some(figures(joined(first)?, joined(second)?, false))
            })
            .collect(),
        [(first, first_label), (second, second_label)] => {
            let (Some(first), Some(second)) = (joined(first), joined(second)) else { return Vec::new() };
            match (first_label, second_label) {
                (None, None) => vec![figures(first, second, false)],
                (Some(Label::Easting), Some(Label::Northing)) => vec![figures(first, second, true)],
                (Some(Label::Northing), Some(Label::Easting)) => vec![figures(second, first, true)],
                _ => Vec::new(),
            }
        }
        _ => Vec::new(),
    }
}

/// Every way to read tokens as one number.
fn singles(tokens: &[Token]) -> Vec<Number> {
    let mut numbers = Vec::new();
    for token in tokens {
        match token {
            Token::Number(number) => numbers.push(number.clone()),
            Token::Word(word) if label(word).is_some() => {}
            Token::Space | Token::Between(':' | '=') => {}
            _ => return Vec::new(),
        }
    }
    joined(&numbers).into_iter().collect()
}

/// One number of groups of thousands: "6 861 000,5". The first has one to three figures, the others
/// three, and only the last a fraction.
fn joined(groups: &[Number]) -> Option<Number> {
    let (first, rest) = groups.split_first()?;
    let (last, before) = groups.split_last()?;
    let thousands = rest.is_empty()
        || (first.whole.len() <= 3
            && rest.iter().all(|group| group.whole.len() == 3 && group.sign.is_none())
            && before.iter().all(|group| group.fraction.is_empty()));
    if !thousands || first.whole.is_empty() {
        return None;
    }
    let whole = groups.iter().map(|group| group.whole.as_str()).collect();
    Some(Number { sign: first.sign, whole, fraction: last.fraction.clone() })
}
