//! What each column holds, from its heading in English or French, or from the study file.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use crate::coordinates::System;
use crate::study::Columns;
use crate::study::vocabulary::fold;

macro_rules! fields {
    ($($(#[$doc:meta])* $variant:ident = $name:literal, $key:ident, [$($heading:literal),* $(,)?];)*) => {
        /// A field of a find that a column can hold. The names are the keys of `[register.columns]`.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Field { $($(#[$doc])* $variant),* }

        impl Field {
            /// Every one, in order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),*];

            /// Its key in the study file.
            pub fn name(self) -> &'static str {
                match self { $(Self::$variant => $name),* }
            }

            /// The heading that the study file names for it.
            pub(super) fn named_in(self, columns: &Columns) -> Option<&str> {
                match self { $(Self::$variant => columns.$key.as_deref()),* }
            }

            /// Headings it goes by, the plainest first.
            fn headings(self) -> &'static [&'static str] {
                match self { $(Self::$variant => &[$($heading),*]),* }
            }
        }
    };
}

fields! {
    /// The register's own number.
    Number = "number", number, [
        "number", "find number", "find no", "no", "num", "numéro", "n°", "no objet", "numéro d'objet",
        "n° objet", "bag", "bag no", "bag number", "find id", "id", "record no", "record number",
        "record id", "small find no", "sf no", "sf", "item no", "item", "cat no", "catalogue no",
        "catalogue number", "accession no", "reg no", "n° inv", "n° inventaire", "numéro d'inventaire",
        "no inv", "inv", "n° sac", "sac", "finds no", "find ref", "numéro sac", "n° de sac", "ref",
        "reference", "référence", "réf",
    ];
    /// Class.
    Class = "class", class, [
        "class", "classe", "type", "object", "objet", "object type", "type d'objet", "tool", "tool type",
        "outil", "tool class", "désignation", "artefact", "artefact type", "artifact", "artifact type",
        "category", "catégorie", "find type", "classification", "implement", "what", "identification",
        "kind", "piece", "pièce", "typologie", "find", "quoi", "nature", "description",
    ];
    /// Period.
    Period = "period", period, [
        "period", "période", "datation", "époque", "age", "âge", "dating", "culture", "chronologie",
        "attribution", "attribution chronologique", "date range", "phase", "broad period", "period date",
        "date of object", "object date",
    ];
    /// First year of a date range.
    DateFrom = "date-from", date_from, [
        "date from", "from date", "from bc", "earliest date", "start date", "year from", "from year", "from",
        "date début", "début", "borne haute", "earliest", "terminus post quem", "bc from",
    ];
    /// Last year of a date range.
    DateTo = "date-to", date_to, [
        "date to", "to date", "to bc", "latest date", "end date", "year to", "to year", "to", "date fin", "fin",
        "borne basse", "latest", "terminus ante quem", "bc to",
    ];
    /// Pieces.
    Count = "count", count, [
        "count", "quantity", "qty", "nb", "nombre", "quantité", "qté", "number of pieces", "no of pieces",
        "pieces", "pièces", "nbre", "how many", "total", "effectif", "no of finds", "number of finds",
        "nb de pièces", "nombre de pièces", "no found", "number found", "amount", "nr", "combien", "quant",
        "no pieces", "nb pièces", "nb d'objets", "nombre d'objets", "no of items", "number of items",
    ];
    /// A place in any notation.
    Place = "place", place, [
        "grid ref", "grid reference", "ngr", "national grid reference", "os grid ref", "gridref", "osgr",
        "os grid reference", "os ref", "map ref", "map reference", "réf grille", "référence grille",
        "coordonnées", "coordinates", "coords", "coord", "coordinate", "co ordinates", "grid", "findspot",
        "gps", "position", "lat long", "lat lon", "latlong", "latitude longitude", "location", "place",
        "localisation", "lieu de découverte", "where found", "emplacement", "grille", "carroyage", "where",
        "lieu", "6 fig ref", "8 fig ref", "waypoint", "point gps", "coordonnées gps", "gps position",
    ];
    /// Easting.
    Easting = "easting", easting, [
        "easting", "east", "e", "x", "coord x", "x coord", "x coordinate", "coordonnée x", "est", "os x",
        "grid east", "x lambert", "x l93", "lambert x", "eastings", "x m", "xcoord",
    ];
    /// Northing.
    Northing = "northing", northing, [
        "northing", "north", "n", "y", "coord y", "y coord", "y coordinate", "coordonnée y", "nord", "os y",
        "grid north", "y lambert", "y l93", "lambert y", "northings", "y m", "ycoord",
    ];
    /// Latitude.
    Latitude = "latitude", latitude, ["latitude", "lat", "gps lat", "lat dd", "latitude dd", "gps n"];
    /// Longitude.
    Longitude = "longitude", longitude, [
        "longitude", "long", "lon", "lng", "gps long", "gps lon", "long dd", "lon dd", "longitude dd", "gps e",
    ];
    /// Parish as stated.
    Parish = "parish", parish, [
        "parish", "commune", "civil parish", "paroisse", "townland", "municipality", "parish name",
        "nom de la commune", "community", "village",
    ];
    /// Stated uncertainty.
    Uncertainty = "uncertainty", uncertainty, [
        "uncertainty", "accuracy", "précision", "incertitude", "gps accuracy", "precision", "plus or minus",
        "±", "+/-", "error", "erreur", "gps error", "margin", "radius", "epe", "précision gps",
        "coordinate uncertainty", "± m",
    ];
    /// Marks in words.
    Marks = "marks", marks, [
        "marks", "marks seen", "stigmates", "features", "technology", "marques", "observations techniques",
        "worked marks", "signs of working", "traces", "technologie", "attributes", "working", "evidence",
    ];
    /// Striking platform.
    Platform = "platform", platform, [
        "platform", "striking platform", "talon", "plan de frappe", "butt",
    ];
    /// Bulb of percussion.
    Bulb = "bulb", bulb, ["bulb", "bulb of percussion", "bulbe", "bulbe de percussion"];
    /// Ripples.
    Ripples = "ripples", ripples, [
        "ripples", "ripple", "ondulations", "ondes", "ondes de choc", "ripple marks", "conchoidal ripples",
    ];
    /// Dorsal scars.
    DorsalScars = "dorsal-scars", dorsal_scars, [
        "dorsal scars", "scars", "nervures", "flake scars", "arêtes", "dorsal ridges", "ridges", "négatifs",
        "enlèvements", "négatifs d'enlèvement", "removals", "flake scars dorsal", "dorsal",
    ];
    /// Retouch.
    Retouch = "retouch", retouch, ["retouch", "retouche", "retouched", "retouché", "secondary working"];
    /// Setting.
    Setting = "setting", setting, [
        "setting", "land use", "landuse", "contexte", "context", "milieu", "cadre", "ground", "terrain",
        "nature du terrain", "type of ground", "occupation du sol", "found in", "environment", "surface",
        "habitat", "situation", "type of land",
    ];
    /// Standing.
    Standing = "standing", standing, [
        "standing", "in situ", "in place", "en place", "disturbance", "taphonomy", "taphonomie",
        "position stratigraphique", "in place or not",
    ];
    /// Material.
    Material = "material", material, [
        "material", "raw material", "matière", "matière première", "matériau", "stone", "roche", "mat",
        "stone type", "flint type", "rock", "lithology", "matériaux",
    ];
    /// Greatest length.
    Length = "length", length, [
        "length", "longueur", "long max", "max length", "maximum length", "greatest length", "max dim",
        "largest dimension", "size", "dimensions", "dimension", "taille", "l", "longueur max", "dim", "lgth",
    ];
    /// Weight.
    Weight = "weight", weight, ["weight", "poids", "wt", "masse", "mass", "w", "poid"];
    /// When it was found.
    Date = "date", date, [
        "date found", "date of find", "found on", "date de découverte", "date of discovery", "date collected",
        "find date", "date découverte", "discovered", "découvert le", "trouvé le", "date", "when", "when found",
        "day", "jour", "quand", "collected", "year", "année", "year found", "walk", "walked on", "date walked",
    ];
    /// Found or shown by.
    Finder = "finder", finder, [
        "finder", "found by", "inventeur", "shown by", "découvreur", "collector", "collected by", "trouvé par",
        "finder name", "who", "walker", "qui", "prospecteur", "found or shown by", "name of finder", "found",
        "découvert par", "nom de l'inventeur",
    ];
    /// Looked at by.
    LookedAtBy = "looked-at-by", looked_at_by, [
        "looked at by", "identified by", "identifié par", "seen by", "id by", "vu par", "déterminé par",
        "examined by", "checked by", "étudié par", "recorded by", "recorder", "specialist", "examiné par",
        "vérifié par", "confirmed by",
    ];
    /// Kept at.
    KeptAt = "kept-at", kept_at, [
        "kept at", "where kept", "current location", "conservation", "lieu de conservation", "dépôt", "held by",
        "kept by", "storage", "conservé à", "stored", "stored at", "deposited", "museum", "lieu de dépôt", "box",
        "kept", "present location", "conservé par", "lieu conservation",
    ];
    /// Landowner's permission.
    Permission = "permission", permission, [
        "permission", "landowner permission", "autorisation", "owner permission", "landowner's permission",
        "permission given", "accord du propriétaire", "autorisation du propriétaire", "consent", "propriétaire",
        "permission of owner", "accord propriétaire", "landowner",
    ];
    /// Note.
    Note = "note", note, [
        "note", "notes", "comment", "comments", "remarks", "remarques", "remarque", "observations",
        "commentaire", "commentaires", "observation", "description", "details", "further details", "notes etc",
        "other", "divers", "additional notes", "info", "information", "any other information",
    ];
}

/// Folded heading → the fields it can mean, each with how plainly it does (0 is plainest).
static KNOWN: LazyLock<BTreeMap<String, Vec<(usize, Field)>>> = LazyLock::new(|| {
    let mut known: BTreeMap<String, Vec<(usize, Field)>> = BTreeMap::new();
    for field in Field::ALL {
        for (rank, heading) in field.headings().iter().enumerate() {
            let meanings = known.entry(key(heading)).or_default();
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
    ] {
        if let Some(rest) = folded.strip_suffix(tail) {
            folded = rest.to_owned();
        }
    }
    folded
}

/// What the columns of one file hold.
#[derive(Debug, Clone, Default)]
pub(super) struct Layout {
    columns: BTreeMap<Field, usize>,
    /// Further columns of notes, which are read after the first.
    pub more_notes: Vec<usize>,
    /// How many headings were recognised (by guess or by hand).
    pub known: usize,
}

impl Layout {
    /// Takes each heading for a field: as the study file says, then the plainest meaning first.
    pub fn of(headings: &[String], by_hand: &Columns) -> Self {
        let mut columns: BTreeMap<Field, usize> = BTreeMap::new();
        let mut taken = vec![false; headings.len()];
        for field in Field::ALL {
            let Some(wanted) = field.named_in(by_hand) else { continue };
            let exact = headings.iter().position(|heading| heading.trim() == wanted.trim());
            if let Some(index) = exact.or_else(|| headings.iter().position(|heading| same(heading, wanted))) {
                columns.insert(*field, index);
                taken[index] = true;
            }
        }
        let mut candidates: Vec<(usize, usize, Field)> = Vec::new();
        for (index, heading) in headings.iter().enumerate() {
            if taken[index] {
                continue;
            }
            for (penalty, name) in [(0, key(heading)), (1, bare(heading))] {
                for (rank, field) in KNOWN.get(&name).into_iter().flatten() {
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
        let mut layout = Self { columns, more_notes, known: 0 };
        layout.settle_letters(headings);
        layout.settle_description(headings);
        layout.known = layout.columns.len() + layout.more_notes.len();
        layout
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

    /// The column that holds a field.
    pub fn column(&self, field: Field) -> Option<usize> {
        self.columns.get(&field).copied()
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
                None
            ]
        );
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
