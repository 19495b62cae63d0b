//! Lines that are no finds: totals, and headings between rows.

use super::field::Field;
use super::headings::Layout;
use crate::exact::Reason;
use crate::study::vocabulary::{Class, fold};

/// Words that a line of totals begins with.
fn is_total_word(cell: &str) -> bool {
    // Most cells begin otherwise, and need no closer look.
    if !cell.trim_start().starts_with(['t', 'T', 's', 'S', 'g', 'G', 'n', 'N']) {
        return false;
    }
    let folded = fold(cell);
    let first = folded.split(' ').next().unwrap_or("");
    // "Total length 34" in a note begins so too; the caller looks at what else the row holds.
    matches!(first, "total" | "totaux" | "totai" | "somme" | "sum" | "subtotal" | "grandtotal" | "soustotal")
        || folded.starts_with("grand total")
        || folded.starts_with("sou total")
        // `fold` takes the s off "sous".
        || folded.starts_with("sub total")
        || folded.starts_with("nombre total")
}

/// Whether a cell says nothing: blank, a dash, a dot.
pub(super) fn is_blank(cell: &str) -> bool {
    // Most cells begin with a figure or a letter, and need no closer look.
    if cell.bytes().next().is_some_and(|first| first.is_ascii_alphanumeric() && !matches!(first, b'n' | b'N'))
    {
        return false;
    }
    matches!(cell.trim(), "" | "-" | "–" | "—" | "--" | "." | "…" | "n/a" | "N/A" | "#N/A")
}

/// What a row is, if it is no find. `sums` gives the number of pieces since the last total, and since the start.
pub(super) fn kind(
    cells: &[String],
    layout: &Layout,
    headings: &[String],
    sums: impl FnOnce() -> (u64, u64),
) -> Option<Reason> {
    let same_as_heading = |(index, heading): (usize, &String)| {
        cells.get(index).is_some_and(|cell| cell.trim() == heading.trim())
    };
    let named = headings.iter().filter(|heading| !heading.is_empty()).count();
    let alike =
        headings.iter().enumerate().filter(|(_, h)| !h.is_empty()).filter(|pair| same_as_heading(*pair));
    if named > 1 && alike.count() == named {
        return Some(Reason::Heading);
    }
    let filled: Vec<usize> = (0..cells.len()).filter(|index| !is_blank(&cells[*index])).collect();
    let has = |fields: &[Field]| {
        fields
            .iter()
            .filter_map(|field| layout.column(*field))
            .any(|column| filled.contains(&column) && !is_total_word(&cells[column]))
    };
    let placed = has(&[Field::Place, Field::Latitude, Field::Parish])
        || has(&[Field::Easting]) && has(&[Field::Northing]);
    let noted = layout.column(Field::Note);
    let total = filled.iter().any(|index| Some(*index) != noted && is_total_word(&cells[*index]));
    if total && !placed {
        return Some(Reason::TotalLine);
    }
    let [only] = filled.as_slice() else { return None };
    let cell = cells[*only].trim();
    match layout.field(*only) {
        // A bare figure under the column of counts is their sum.
        Some(Field::Count) => {
            let figure = cell.replace([' ', ',', '\u{a0}', '\u{202f}'], "").parse::<u64>().ok()?;
            let (since_total, all) = sums();
            (figure > 1 && (figure == since_total || figure == all)).then_some(Reason::TotalLine)
        }
        // A row with only a place, a parish or a class is a poor find, but a find.
        Some(
            Field::Place
            | Field::Parish
            | Field::Easting
            | Field::Northing
            | Field::Latitude
            | Field::Longitude,
        ) => is_year(cell).then_some(Reason::Heading),
        Some(Field::Class) if Class::read(cell).is_some() => None,
        Some(Field::Number) => {
            let words = cell.split_whitespace().filter(|word| word.chars().any(char::is_alphabetic)).count();
            (is_year(cell) || words >= 1 && cell.len() > 6 || words > 1).then_some(Reason::Heading)
        }
        _ => Some(Reason::Heading),
    }
}

/// "1998", "(1998)", "1998:"
fn is_year(cell: &str) -> bool {
    let cell = cell.trim_matches(|c: char| !c.is_alphanumeric());
    cell.len() == 4 && cell.parse::<u32>().is_ok_and(|year| (1700..=2100).contains(&year))
}

/// Words for stone that nobody worked, as a class or as the start of one.
pub(super) fn is_natural(class: &str) -> bool {
    let folded = fold(class);
    const WORDS: &[&str] = &[
        "natural",
        "naturel",
        "naturelle",
        "nat",
        "natural flint",
        "natural piece",
        "natural stone",
        "geofact",
        "geofait",
        "silex naturel",
        "galet naturel",
        "frost",
        "frost shatter",
        "frost fracture",
        "frost flake",
        "frost pitted",
        "potlid",
        "pot lid",
        "thermal",
        "thermal flake",
        "gelifract",
        "gelifraction",
        "eclat de gel",
        "eclat thermique",
        "cupule thermique",
        "unworked",
        "not worked",
        "non worked",
        "non taille",
        "pebble",
        "nodule",
        "natural nodule",
        "unworked nodule",
        "unworked flint",
        "not flint",
        "natural shatter",
        "natural flake",
        "naturally fractured",
        "galet",
        "rejected natural",
    ];
    WORDS.contains(&folded.as_str()) || folded.starts_with("natural ") && Class::read(class).is_none()
}

/// Whether a note says that the piece may be, or is, natural.
pub(super) fn note_says_natural(note: &str) -> bool {
    let folded = format!(" {} ", fold(note));
    const DENIED: &[&str] = &[
        "not natural",
        "non naturel",
        "pas naturel",
        "natural cortex",
        "natural surface",
        "natural platform",
        "natural hole",
        "natural edge",
        "natural back",
        "natural facet",
        "natural history",
        "surface naturelle",
        "natural spring",
        "natural harbour",
    ];
    let says = [" natural ", " naturel ", " naturelle ", " frost ", " geofact ", " thermal "];
    says.iter().any(|word| folded.contains(word)) && !DENIED.iter().any(|word| folded.contains(word))
}

/// A mark that stands for the cell above.
pub(super) fn is_ditto(cell: &str) -> bool {
    let cell = cell.trim();
    const LONGEST: usize = 16;
    if cell.len() > LONGEST || cell.starts_with(|c: char| c.is_ascii_digit()) {
        return false;
    }
    if matches!(
        cell,
        "\"" | "\"\""
            | "″"
            | "”"
            | "“"
            | "''"
            | "’’"
            | "‘‘"
            | ",,"
            | "„"
            | "〃"
            | "-\"-"
            | "- \" -"
            | "–\"–"
            | "—\"—"
            | "´´"
            | "``"
            | "»"
            | "«"
    ) {
        return true;
    }
    matches!(
        cell.to_lowercase().trim_end_matches('.'),
        "do" | "ditto"
            | "idem"
            | "id"
            | "as above"
            | "same"
            | "ibid"
            | "same as above"
            | "comme ci-dessus"
            | "même"
            | "-do-"
            | "- do -"
            | "dito"
            | "same place"
            | "voir ci-dessus"
            | "ci-dessus"
            | "-id-"
            | "as prev"
            | "as previous"
    )
}

#[cfg(test)]
mod tests {
    use super::{Reason, is_ditto, is_natural, kind, note_says_natural};
    use crate::exact::register::headings::Layout;
    use crate::study::Columns;

    fn kind_of(cells: &[&str]) -> Option<Reason> {
        let own = |cells: &[&str]| cells.iter().map(|c| (*c).to_owned()).collect::<Vec<_>>();
        let headings = own(&["No", "Grid ref", "Class", "Count", "Note"]);
        kind(&own(cells), &Layout::of(&headings, &Columns::default()), &headings, || (240, 2400))
    }

    #[test]
    fn totals_and_headings_are_no_finds() {
        for cells in [
            ["Total", "", "", "2400", ""],
            ["", "", "TOTAL 2400", "", ""],
            ["", "", "", "240", ""],
            ["", "Somme", "", "12", ""],
            ["Sous-total", "", "", "5", ""],
        ] {
            assert_eq!(kind_of(&cells), Some(Reason::TotalLine), "{cells:?}");
        }
        for cells in [
            ["1998", "", "", "", ""],
            ["Walk of March 2004", "", "", "", ""],
            ["", "", "Church field", "", ""],
            ["No", "Grid ref", "Class", "Count", "Note"],
            ["", "", "", "", "more by the gate"],
        ] {
            assert_eq!(kind_of(&cells), Some(Reason::Heading), "{cells:?}");
        }
        for cells in [
            ["1", "OV 523 417", "flake", "2", "total length 34"],
            ["", "", "flake", "", ""],
            ["15", "", "", "", ""],
            ["", "OV 523 417", "", "", ""],
        ] {
            assert_eq!(kind_of(&cells), None, "{cells:?}");
        }
    }

    #[test]
    fn natural_and_dittos() {
        assert!(is_natural("Natural") && is_natural("silex naturel") && is_natural("natural lump"));
        assert!(!is_natural("flake"));
        assert!(note_says_natural("prob. natural") && !note_says_natural("natural cortex on back"));
        assert!(is_ditto("do.") && is_ditto("″") && is_ditto("Idem") && !is_ditto("dog") && !is_ditto(""));
    }
}
