//! What each column holds, from its heading in English or French, or from the study file.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::field::Field;
use crate::coordinates::System;
use crate::study::Columns;
use crate::study::vocabulary::fold;

/// Folded heading → the fields it can mean, each with how plainly it does (0 is plainest).
static KNOWN: LazyLock<BTreeMap<String, Vec<(usize, Field)>>> = LazyLock::new(|| {
    let mut known: BTreeMap<String, Vec<(usize, Field)>> = BTreeMap::new();
    for field in Field::ALL {
        for (rank, heading) in field.headings().iter().enumerate() {
            let meanings = known.entry(squeezed(&key(heading))).or_default();
            if meanings.iter().all(|(_, other)| other != field) {
                meanings.push((rank, *field));
            }
        }
    }
    known
});

/// A heading as it is compared: "Réf. grille" and "ref grille", "N°" and "no".
fn key(heading: &str) -> String {
    let heading = heading.replace(['°', 'º'], "o ").replace("+/-", "plusminus").replace('±', "plusminus ");
    let folded = fold(&heading);
    if folded == "n o" { "no".to_owned() } else { folded }
}

/// Without spaces: "GridRef" and "grid ref" are one.
fn squeezed(key: &str) -> String {
    key.replace(' ', "")
}

/// Whether two headings are the same but for case, accents and punctuation.
pub(super) fn same(a: &str, b: &str) -> bool {
    a.trim() == b.trim() || !key(a).is_empty() && key(a) == key(b)
}

/// A heading without what stands in brackets, and without a unit or a system after it.
fn bare(heading: &str) -> String {
    let mut out = String::new();
    let mut depth = 0_u32;
    for c in heading.chars() {
        match c {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            c if depth == 0 => out.push(c),
            _ => {}
        }
    }
    let mut folded = key(&out);
    for tail in [
        " mm",
        " cm",
        " g",
        " kg",
        " en mm",
        " en cm",
        " en g",
        " in mm",
        " in cm",
        " in g",
        " grams",
        " gram",
        " m",
        " metre",
        " en m",
        " in m",
        " bc",
        " wgs84",
        " wgs 84",
        " osgb",
        " osgb36",
        " bng",
        " l93",
        " lambert 93",
        " lambert93",
        " rgf93",
        " os",
        " y n",
        " o n",
        " oui non",
        " yes no",
        " present",
        " seen",
        " visible",
    ] {
        if let Some(rest) = folded.strip_suffix(tail) {
            folded = rest.to_owned();
        }
    }
    folded
}

/// The field that a heading nothing was made of comes near to: "Parrish" to the parish. Short headings come near
/// to everything, and are left alone.
pub(super) fn near(heading: &str) -> Option<Field> {
    let typed = squeezed(&bare(heading));
    let slips = match typed.chars().count() {
        0..=4 => return None,
        5..=7 => 1,
        _ => 2,
    };
    let known =
        Field::ALL.iter().flat_map(|field| field.headings().iter().map(move |heading| (*field, heading)));
    known
        .map(|(field, heading)| (strsim::osa_distance(&typed, &squeezed(&key(heading))), field))
        .filter(|(distance, _)| *distance <= slips)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, field)| field)
}

/// What the columns of one file hold.
#[derive(Debug, Clone, Default)]
pub(super) struct Layout {
    columns: BTreeMap<Field, usize>,
    /// The same by the number of the field: looked up some fifty times a row.
    by_number: Vec<Option<usize>>,
    /// Further columns of notes, which are read after the first.
    pub more_notes: Vec<usize>,
    /// How many headings were recognised (by guess or by hand).
    pub known: usize,
    /// Fields whose column the study file names.
    pub by_hand: Vec<Field>,
}

impl Layout {
    /// Takes each heading for a field: as the study file says, then the plainest meaning first.
    pub fn of(headings: &[String], named: &Columns) -> Self {
        let mut by_hand = Vec::new();
        let mut columns: BTreeMap<Field, usize> = BTreeMap::new();
        let mut taken = vec![false; headings.len()];
        for field in Field::ALL {
            let Some(wanted) = field.named_in(named) else { continue };
            let exact = headings.iter().position(|heading| heading.trim() == wanted.trim());
            if let Some(index) = exact.or_else(|| headings.iter().position(|heading| same(heading, wanted))) {
                columns.insert(*field, index);
                by_hand.push(*field);
                taken[index] = true;
            }
        }
        let mut candidates: Vec<(usize, usize, Field)> = Vec::new();
        for (index, heading) in headings.iter().enumerate() {
            if taken[index] {
                continue;
            }
            // As it stands, without unit and system, and the parts of "Easting / X".
            let mut names = vec![(0, key(heading)), (1, bare(heading))];
            names.extend(
                heading
                    .split(['/', ',', ':'])
                    .skip(usize::from(!heading.contains(['/', ',', ':'])))
                    .map(|part| (9, bare(part))),
            );
            for (penalty, name) in names {
                for (rank, field) in KNOWN.get(&squeezed(&name)).into_iter().flatten() {
                    candidates.push((rank + penalty, index, *field));
                }
            }
        }
        candidates.sort_unstable();
        let mut more_notes = Vec::new();
        for (_, index, field) in &candidates {
            if taken[*index] {
                continue;
            }
            if let std::collections::btree_map::Entry::Vacant(entry) = columns.entry(*field) {
                entry.insert(*index);
                taken[*index] = true;
            } else if *field == Field::Note {
                more_notes.push(*index);
                taken[*index] = true;
            }
        }
        let mut layout = Self { columns, by_number: Vec::new(), more_notes, known: 0, by_hand };
        layout.settle_letters(headings);
        layout.settle_description(headings);
        layout.settle_long();
        layout.known = layout.columns.len() + layout.more_notes.len();
        layout.settled()
    }

    fn settled(mut self) -> Self {
        self.by_number = Field::ALL.iter().map(|field| self.columns.get(field).copied()).collect();
        self
    }

    /// "N" is a northing beside "E", and otherwise a number of pieces; "X" or "E" alone is nothing.
    fn settle_letters(&mut self, headings: &[String]) {
        let pairs = [(Field::Easting, Field::Northing), (Field::Northing, Field::Easting)];
        for (field, other) in pairs {
            let Some(index) = self.columns.get(&field).copied() else { continue };
            let short = bare(&headings[index]).len() == 1;
            if short && !self.columns.contains_key(&other) {
                self.columns.remove(&field);
                if bare(&headings[index]) == "n" && !self.columns.contains_key(&Field::Count) {
                    self.columns.insert(Field::Count, index);
                }
            }
        }
    }

    /// "Long." without a latitude is a length.
    fn settle_long(&mut self) {
        if self.columns.contains_key(&Field::Latitude) || self.by_hand.contains(&Field::Longitude) {
            return;
        }
        if let Some(index) = self.columns.remove(&Field::Longitude) {
            self.columns.entry(Field::Length).or_insert(index);
        }
    }

    /// Whether a heading can name the register's own number.
    pub fn can_be_number(heading: &str) -> bool {
        let meanings = KNOWN.get(&squeezed(&key(heading))).into_iter().flatten();
        meanings.into_iter().any(|(_, field)| *field == Field::Number)
    }

    /// Where nothing else tells the class, a "description" does; beside a class it is a note.
    fn settle_description(&mut self, headings: &[String]) {
        let is_description = |index: &usize| bare(&headings[*index]) == "description";
        if self.columns.contains_key(&Field::Class) {
            return;
        }
        if let Some(at) = self.more_notes.iter().position(is_description) {
            self.columns.insert(Field::Class, self.more_notes.remove(at));
        } else if let Some(index) = self.columns.get(&Field::Note).copied().filter(is_description) {
            self.columns.insert(Field::Class, index);
            self.columns.remove(&Field::Note);
            if !self.more_notes.is_empty() {
                self.columns.insert(Field::Note, self.more_notes.remove(0));
            }
        }
    }

    /// Takes a column for another field than its heading says, or for none.
    pub fn assign(&mut self, column: usize, field: Option<Field>) {
        self.columns.retain(|_, index| *index != column);
        if let Some(field) = field {
            self.columns.insert(field, column);
        }
        *self = std::mem::take(self).settled();
    }

    /// The column that holds a field.
    pub fn column(&self, field: Field) -> Option<usize> {
        self.by_number.get(field as usize).copied().flatten()
    }

    /// What a column holds.
    pub fn field(&self, column: usize) -> Option<Field> {
        let found = self.columns.iter().find(|(_, index)| **index == column).map(|(field, _)| *field);
        found.or_else(|| self.more_notes.contains(&column).then_some(Field::Note))
    }

    /// The fields found, with their columns.
    pub fn fields(&self) -> impl Iterator<Item = (Field, usize)> {
        self.columns.iter().map(|(field, index)| (*field, *index))
    }
}

/// The system that a heading states: "X (Lambert 93)", "Easting OSGB36", "EPSG:2154".
pub(super) fn system_in(heading: &str) -> Option<System> {
    let lower = heading.to_lowercase();
    if let Some(at) = lower.find("epsg") {
        let digits: String = lower[at..].chars().skip(4).skip_while(|c| !c.is_ascii_digit()).collect();
        let digits: String = digits.chars().take_while(char::is_ascii_digit).collect();
        return digits.parse().ok().map(System::from_epsg);
    }
    let folded = format!(" {} ", fold(heading));
    let says = |words: &[&str]| words.iter().any(|word| folded.contains(&format!(" {word} ")));
    if says(&["lambert 93", "lambert93", "l93", "rgf93", "rgf 93"]) {
        Some(System::Lambert93)
    } else if says(&["osgb", "osgb36", "osgb 36", "bng", "british grid", "british national grid"]) {
        Some(System::BritishGrid)
    } else if says(&["wgs84", "wgs 84"]) {
        Some(System::Wgs84)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::{Field, Layout, system_in};
    use crate::coordinates::System;
    use crate::study::Columns;

    fn fields(headings: &[&str]) -> Vec<Option<Field>> {
        let headings: Vec<String> = headings.iter().map(|h| (*h).to_owned()).collect();
        let layout = Layout::of(&headings, &Columns::default());
        (0..headings.len()).map(|index| layout.field(index)).collect()
    }

    #[test]
    fn english_and_french_headings_are_known() {
        use Field as F;
        assert_eq!(
            fields(&[
                "N°",
                "Désignation",
                "Nb",
                "Datation",
                "X (Lambert 93)",
                "Y (Lambert 93)",
                "Commune",
                "Talon",
                "Bulbe",
                "Ondulations",
                "Nervures",
                "Retouche",
                "Longueur (mm)",
                "Inventeur",
                "Remarques"
            ]),
            [
                F::Number,
                F::Class,
                F::Count,
                F::Period,
                F::Easting,
                F::Northing,
                F::Parish,
                F::Platform,
                F::Bulb,
                F::Ripples,
                F::DorsalScars,
                F::Retouch,
                F::Length,
                F::Finder,
                F::Note
            ]
            .map(Some)
        );
        assert_eq!(
            fields(&["Find no", "Grid ref.", "Object", "Description", "E", "N", "Date", "Field name"]),
            [
                Some(F::Number),
                Some(F::Place),
                Some(F::Class),
                Some(F::Note),
                Some(F::Easting),
                Some(F::Northing),
                Some(F::Date),
                Some(F::PlaceName)
            ]
        );
    }

    #[test]
    fn what_an_office_asks_is_known_in_both_languages() {
        use Field as F;
        let both = [
            ("How found", "Mode de découverte", F::HowFound),
            ("Depth (cm)", "Profondeur (cm)", F::Depth),
            ("Breadth (mm)", "Largeur (mm)", F::Breadth),
            ("Thickness (mm)", "Épaisseur (mm)", F::Thickness),
            ("Condition", "État", F::Condition),
            ("In hand or from a photograph", "Examiné en main ou sur photo", F::Examined),
            ("Owner", "Propriétaire de l'objet", F::Owner),
            ("Landowner", "Propriétaire du terrain", F::Landowner),
            ("Landowner's permission", "Accord du propriétaire", F::Permission),
            ("Field name", "Lieu-dit", F::PlaceName),
            ("How the place was read", "Mode de localisation", F::HowPlaced),
            ("Commune code", "Code INSEE", F::CommuneCode),
            ("Section", "Section cadastrale", F::Section),
            ("Parcel", "Parcelle", F::Parcel),
            ("Year of plan", "Année du cadastre", F::PlanYear),
            ("Authorisation no.", "N° d'autorisation", F::Authorisation),
            ("Declared to", "Déclaration", F::Declaration),
            ("Photographs", "Photographies", F::Photographs),
            ("Kept or left", "Conservé ou laissé", F::KeptOrLeft),
            ("Earlier publication", "Publication antérieure", F::Publication),
            ("Consent to hold names", "Accord pour conserver les noms", F::NamesConsent),
            ("Embargo until", "Embargo jusqu'au", F::Embargo),
            ("Kept at", "Lieu de conservation", F::KeptAt),
            ("Looked at by", "Identifié par", F::LookedAtBy),
        ];
        let (english, french): (Vec<_>, Vec<_>) = both.iter().map(|(e, f, _)| (*e, *f)).unzip();
        let wanted: Vec<_> = both.iter().map(|(_, _, field)| Some(*field)).collect();
        assert_eq!(fields(&english), wanted);
        assert_eq!(fields(&french), wanted);
    }

    #[test]
    fn lone_n_is_a_count_and_description_can_be_the_class() {
        use Field as F;
        assert_eq!(
            fields(&["N", "Description", "Lat", "Long"]),
            [F::Count, F::Class, F::Latitude, F::Longitude].map(Some)
        );
    }

    #[test]
    fn headings_state_systems() {
        assert_eq!(system_in("X (Lambert 93)"), Some(System::Lambert93));
        assert_eq!(system_in("Easting [EPSG:27700]"), Some(System::BritishGrid));
        assert_eq!(system_in("Easting"), None);
    }
}
