//! The fields of a find that a column can hold, and the headings each goes by in English and French.
//! Common practice: what recorders write at the top of their columns.

use crate::study::Columns;

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
            pub(super) fn headings(self) -> &'static [&'static str] {
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
        "lieu", "6 fig ref", "8 fig ref", "waypoint", "square", "grid square", "100 km square", "os square", "map square", "letters", "point gps", "coordonnées gps", "gps position",
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
        "material", "raw material", "matière", "matière première", "matière 1ère", "matériau", "stone", "roche", "mat",
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
    /// The landowner or the holding.
    Landowner = "landowner", landowner, [
        "landowner", "propriétaire", "land owner", "name of landowner", "landowner name", "nom du propriétaire",
        "holding", "name of holding", "exploitation", "nom de l'exploitation", "farm", "farm name", "ferme",
        "owner of land", "propriétaire du terrain", "landholder", "whose land",
    ];
    /// Landowner's permission.
    Permission = "permission", permission, [
        "permission", "landowner permission", "autorisation", "owner permission", "landowner's permission",
        "permission given", "accord du propriétaire", "autorisation du propriétaire", "consent", "propriétaire",
        "permission of owner", "accord propriétaire", "landowner",
    ];
    /// The site that finds belong to together: they are then told in one place.
    Site = "site", site, [
        "site", "site name", "name of site", "nom du site", "scatter", "scatter name", "concentration", "locus",
        "gisement", "station",
    ];
    /// How it was found.
    HowFound = "how-found", how_found, [
        "how found", "found how", "method", "method of discovery", "discovery method", "means of discovery",
        "mode of discovery", "manner of finding", "mode de découverte", "moyen de découverte",
        "circonstances de découverte", "circonstances de la découverte", "circonstances", "méthode",
    ];
    /// How deep it lay.
    Depth = "depth", depth, ["depth", "how deep", "depth below surface", "profondeur", "prof"];
    /// Breadth.
    Breadth = "breadth", breadth, ["breadth", "width", "largeur", "max width", "max breadth", "largeur max", "larg"];
    /// Thickness.
    Thickness = "thickness", thickness, [
        "thickness", "épaisseur", "max thickness", "épaisseur max", "thick", "ép",
    ];
    /// Condition.
    Condition = "condition", condition, [
        "condition", "état", "état de conservation", "preservation", "completeness", "fraîcheur", "state of piece",
    ];
    /// Whether it was looked at in hand or from a photograph.
    Examined = "examined", examined, [
        "looked at how", "how examined", "examined how", "seen how", "in hand or from a photograph",
        "in hand or photograph", "in hand", "examined from", "identified from", "mode d'examen", "examen",
        "vu en main ou sur photographie", "en main ou sur photo", "vu en main", "examiné comment",
        "examiné en main ou sur photo",
    ];
    /// Who owns it.
    Owner = "owner", owner, [
        "owner", "owned by", "who owns it", "belongs to", "property of", "owner of find", "ownership",
        "propriétaire de l'objet", "propriétaire du mobilier", "appartient à", "à qui il appartient",
    ];
    /// A place by its name.
    PlaceName = "place-name", place_name, [
        "place name", "name of place", "field name", "lieu-dit", "lieu dit", "lieudit", "nom du lieu-dit",
        "toponyme", "nom du champ", "name of field", "field", "champ",
    ];
    /// The commune's code.
    CommuneCode = "commune-code", commune_code, [
        "commune code", "code commune", "code de la commune", "code insee", "n° insee", "insee", "parish code",
        "code of commune",
    ];
    /// How the place was read.
    HowPlaced = "how-placed", how_placed, [
        "how the place was read", "how place was read", "how located", "how placed", "place read from",
        "location method", "method of location", "located by", "mode de localisation", "méthode de localisation",
        "comment le lieu a été relevé", "lieu relevé par", "relevé par",
    ];
    /// Section of the land register's plan.
    Section = "section", section, ["section", "section cadastrale", "plan section", "section of plan"];
    /// Parcel.
    Parcel = "parcel", parcel, [
        "parcel", "parcelle", "n° parcelle", "numéro de parcelle", "parcel no", "parcel number",
        "parcelle cadastrale", "n° de parcelle", "cadastre", "plot", "plot no", "plot number",
    ];
    /// Year of the plan that section and parcel are of.
    PlanYear = "plan-year", plan_year, [
        "plan year", "year of plan", "année du plan", "année du cadastre", "cadastre année", "plan of",
        "millésime", "millésime du cadastre",
    ];
    /// Authorisation, where the country works by it.
    Authorisation = "authorisation", authorisation, [
        "authorisation", "authorization", "authorisation no", "authorisation number", "permit", "permit no",
        "permit number", "licence", "license", "licence no", "licence number", "n° d'autorisation",
        "numéro d'autorisation", "autorisation de prospection", "autorisation préfectorale", "arrêté",
        "n° d'arrêté",
    ];
    /// Declaration, where the country works by it.
    Declaration = "declaration", declaration, [
        "declaration", "déclaration", "declared", "declared to", "declared on", "déclaré à", "déclaré le",
        "déclaré", "date de déclaration", "n° de déclaration", "declaration no", "reported", "reported to",
        "date reported", "reported on",
    ];
    /// Photographs, by their names.
    Photographs = "photographs", photographs, [
        "photographs", "photos", "photo", "photograph", "photographies", "photographie", "clichés", "cliché",
        "photo no", "photo numbers", "n° photo", "n° de photo", "images", "image", "pictures", "picture",
    ];
    /// What was kept and what was left.
    KeptOrLeft = "kept-or-left", kept_or_left, [
        "kept or left", "kept and left", "what was kept", "what was left", "retained", "left", "left in place",
        "collected or left", "conservé ou laissé", "gardé ou laissé", "laissé sur place", "laissé", "prélevé",
    ];
    /// Earlier publication.
    Publication = "publication", publication, [
        "publication", "publications", "earlier publication", "previous publication", "published",
        "published in", "publié", "publié dans", "publication antérieure", "bibliography", "bibliographie",
        "biblio", "literature",
    ];
    /// Whether those who are named agreed that the office holds their names.
    NamesConsent = "names-consent", names_consent, [
        "consent to hold names", "consent to hold name", "consent to names", "names may be held",
        "name may be held", "consent for names", "finder's consent", "finder consent", "gdpr",
        "accord pour les noms", "accord pour conserver les noms", "accord pour conserver le nom",
        "accord de l'inventeur", "consentement", "rgpd",
    ];
    /// Not to be shown to others before.
    Embargo = "embargo", embargo, [
        "embargo", "embargo until", "not before", "confidential until", "embargo jusqu'au",
        "sous embargo jusqu'au", "date d'embargo", "pas avant", "confidentiel jusqu'au",
    ];
    /// Note.
    Note = "note", note, [
        "note", "notes", "obs", "rem", "comment", "comments", "remarks", "remarques", "remarque", "observations",
        "commentaire", "commentaires", "observation", "description", "details", "further details", "notes etc",
        "other", "divers", "additional notes", "info", "information", "any other information",
    ];
}
