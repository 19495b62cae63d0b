//! Registers drawn at random, and the same re-drawn within all that gives the same release.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use rand::{Rng, seq::IndexedRandom, seq::SliceRandom};
use rand_chacha::ChaCha8Rng;
use strew::coordinates::{Converter, System};
use strew::exact::{Register, ReleasedFind, ReleasedPlace};
use strew::ground::Partition;
use strew::study::{Attribute, PublicStudy, Study};

/// A column that says nothing of the place: its name, what the agreement calls it, and what it may say.
const COLUMNS: [(&str, &str, &[&str]); 26] = [
    (
        "class",
        "class",
        &["flake", "blade", "core", "scraper", "leaf arrowhead", "polished axe", "microlith", "waste"],
    ),
    ("period", "period", &["", "Mesolithic", "Early Neolithic", "LN/EBA", "prehistoric"]),
    (
        "marks",
        "marks",
        &["", "bulb", "ripples", "bulb, platform", "dorsal scars", "retouch", "platform, dorsal scars"],
    ),
    ("setting", "setting", &["ploughland", "beach", "garden", "pasture", "", "brought in"]),
    ("standing", "standing", &["", "", "derived", "in situ"]),
    ("material", "material", &["", "flint", "chert"]),
    ("length", "measurements", &["", "34", "41.5"]),
    ("weight", "measurements", &["", "12.5", "8"]),
    ("finder", "finder", &["", "A. Tern", "M. Rook"]),
    ("looked-at-by", "looked-at-by", &["", "P. Knot"]),
    ("kept-at", "kept-at", &["", "The reading room"]),
    ("landowner", "landowner", &["", "Long Farm", "Long Farm", "Far Farm"]),
    ("permission", "permission", &["", "yes, by word of mouth"]),
    ("how-found", "how-found", &["", "walking"]),
    ("depth", "how-found", &["", "20 cm"]),
    ("condition", "condition", &["", "patinated"]),
    ("owner", "owner", &["", "the finder"]),
    ("place-name", "place-name", &["", "Long Close", "The Butts"]),
    ("parcel", "parcel", &["", "214"]),
    ("authorisation", "authorisation", &["", "none needed"]),
    ("photographs", "photographs", &["", "one.jpg"]),
    ("kept-or-left", "kept-or-left", &["", "the rest was left"]),
    ("publication", "publication", &["", "our newsletter"]),
    ("names-consent", "names-consent", &["", "", "yes", "no"]),
    ("embargo", "embargo", &["", "2030-01-01"]),
    ("note", "note", &["", "by the hedge at OV 5234 4512", "with bone", "given by M. Rook"]),
];
const LANDOWNER: usize = 11;
/// Columns that every register has; of the others a few.
const ALWAYS: [usize; 5] = [0, 1, 2, 3, LANDOWNER];
const A_FEW: usize = 6;

/// The columns of a register, drawn at random, by their numbers.
pub fn columns(random: &mut ChaCha8Rng) -> Vec<usize> {
    let mut others: Vec<usize> = (0..COLUMNS.len()).filter(|column| !ALWAYS.contains(column)).collect();
    others.shuffle(random);
    let mut columns: Vec<usize> = others.into_iter().take(A_FEW).chain(ALWAYS).collect();
    columns.sort_unstable();
    columns
}

/// Columns that every row has besides.
const PLACES: [&str; 10] =
    ["number", "place", "easting", "northing", "latitude", "longitude", "parish", "count", "date", "site"];

/// How a place is written.
#[derive(Clone, Copy, PartialEq)]
enum Written {
    Letters {
        figures: u32,
    },
    Degrees,
    Metres,
    ParishOnly,
    /// A place nobody can read.
    Nonsense,
}

/// One row of a register.
#[derive(Clone)]
pub struct Row {
    number: String,
    pub easting: f64,
    pub northing: f64,
    written: Written,
    parish: String,
    count: String,
    date: String,
    /// The site or the day that it shares with others.
    tie: Option<usize>,
    is_site: bool,
    says: Vec<&'static str>,
}

/// Where finds lie, the parishes there, and the columns of their registers.
pub struct Country {
    pub west: f64,
    pub south: f64,
    pub east: f64,
    pub north: f64,
    pub parishes: Vec<String>,
    pub columns: Vec<usize>,
}

impl Country {
    fn place(&self, random: &mut ChaCha8Rng) -> (f64, f64) {
        (random.random_range(self.west..self.east), random.random_range(self.south..self.north))
    }
}

fn written(random: &mut ChaCha8Rng) -> Written {
    match random.random_range(0..24) {
        0..=8 => Written::Letters { figures: 10 },
        9..=11 => Written::Letters { figures: 8 },
        12 | 13 => Written::Letters { figures: 6 },
        14 => Written::Letters { figures: 4 },
        15..=17 => Written::Degrees,
        18..=20 => Written::Metres,
        21 | 22 => Written::ParishOnly,
        _ => Written::Nonsense,
    }
}

fn row(random: &mut ChaCha8Rng, country: &Country, index: usize) -> Row {
    let (easting, northing) = match random.random_bool(0.04) {
        // Far from the study's ground.
        true => (random.random_range(510_000.0..520_000.0), random.random_range(510_000.0..520_000.0)),
        false => country.place(random),
    };
    Row {
        number: format!("N{index}"),
        easting,
        northing,
        written: written(random),
        parish: country.parishes.choose(random).cloned().unwrap_or_default(),
        count: match random.random_range(0..30) {
            0 => "0".to_owned(),
            1 => "c. 20".to_owned(),
            _ => random.random_range(1..30).to_string(),
        },
        date: if random.random_bool(0.5) { format!("{}-05-01", 1960 + index) } else { String::new() },
        tie: None,
        is_site: false,
        says: (0..COLUMNS.len())
            .map(|column| match country.columns.contains(&column) {
                true => *COLUMNS[column].2.choose(random).unwrap_or(&""),
                false => "",
            })
            .collect(),
    }
}

/// A register drawn at random: finds by themselves, and some from one site or of one day.
pub fn register(random: &mut ChaCha8Rng, country: &Country, rows: usize) -> Vec<Row> {
    let mut all: Vec<Row> = (0..rows).map(|index| row(random, country, index)).collect();
    for tie in 0..random.random_range(0..3_usize) {
        let (x, y) = country.place(random);
        let is_site = random.random_bool(0.6);
        for index in 0..random.random_range(2..6) {
            let mut one = row(random, country, rows * (tie + 1) + index);
            one.easting = x + random.random_range(-60.0..60.0);
            one.northing = y + random.random_range(-60.0..60.0);
            one.date = format!("2021-06-{:02}", tie + 1);
            (one.tie, one.is_site) = (Some(tie), is_site);
            all.push(one);
        }
    }
    all
}

/// The register's file, where it is laid down plainly.
pub const FINDS: &str = "finds.csv";
/// The register of the study that is set beside.
pub const OTHER: &str = "other.csv";

/// How a register is laid down in files: a private matter.
pub struct Layout {
    pub files: Vec<String>,
    /// What stands before the name of a column in its heading.
    heading: &'static str,
    columns: Vec<usize>,
    order: Vec<usize>,
    separator: char,
}

impl Layout {
    /// One file, columns in order.
    pub fn plain(file: &str, country: &Country) -> Self {
        let columns = country.columns.clone();
        let order = (0..PLACES.len() + columns.len()).collect();
        Self { files: vec![file.to_owned()], heading: "", columns, order, separator: ',' }
    }

    /// Another: up to three files, other headings, columns in another order.
    pub fn drawn(random: &mut ChaCha8Rng, country: &Country) -> Self {
        let mut other = Self::plain(FINDS, country);
        other.files = (0..random.random_range(1..4)).map(|index| format!("walks-{index}.csv")).collect();
        other.heading = "our ";
        other.order.shuffle(random);
        other.separator = if random.random_bool(0.5) { ';' } else { ',' };
        other
    }

    /// The names of its columns.
    fn names(&self) -> impl Iterator<Item = &'static str> {
        PLACES.into_iter().chain(self.columns.iter().map(|column| COLUMNS[*column].0))
    }

    /// Its part of the study file.
    pub fn section(&self, ledger: &str) -> String {
        let files: Vec<String> = self.files.iter().map(|file| format!("\"{file}\"")).collect();
        let mut text = format!("[register]\nfiles = [{}]\ndecimal = \"point\"\n{ledger}", files.join(", "));
        text.push_str("[register.columns]\n");
        for name in self.names() {
            writeln!(text, "{name} = \"{}{name}\"", self.heading).unwrap();
        }
        text
    }

    /// Writes rows, as many to each file.
    pub fn write(&self, folder: &Path, rows: &[Row], to_degrees: &Converter) {
        let each = rows.len().div_ceil(self.files.len()).max(1);
        for (index, file) in self.files.iter().enumerate() {
            let part = rows.iter().skip(index * each).take(each);
            let heads = self.names().map(|name| format!("{}{name}", self.heading)).collect();
            let lines = std::iter::once(heads).chain(part.map(|row| row.cells(&self.columns, to_degrees)));
            let mut text = String::new();
            for cells in lines {
                let cells: Vec<String> =
                    self.order.iter().map(|column| format!("\"{}\"", cells[*column])).collect();
                writeln!(text, "{}", cells.join(&self.separator.to_string())).unwrap();
            }
            fs::write(folder.join(file), text).unwrap();
        }
    }
}

impl Row {
    /// Its class, as written.
    pub fn class(&self) -> &str {
        self.says.first().copied().unwrap_or_default()
    }

    fn cells(&self, columns: &[usize], to_degrees: &Converter) -> Vec<String> {
        let [mut reference, mut e, mut n, mut latitude, mut longitude] = [const { String::new() }; 5];
        match self.written {
            Written::Letters { figures } => {
                let each = (figures / 2) as usize;
                let by = 10_i64.pow(5 - figures / 2);
                let (east, north) = (self.easting as i64 % 100_000 / by, self.northing as i64 % 100_000 / by);
                reference = format!("OV {east:0each$} {north:0each$}");
            }
            Written::Metres => {
                e = format!("{:.0}", self.easting.floor());
                n = format!("{:.0}", self.northing.floor());
            }
            Written::Degrees => {
                let (x, y) = to_degrees.convert_xy(self.easting, self.northing).unwrap();
                (latitude, longitude) = (format!("{y:.6}"), format!("{x:.6}"));
            }
            Written::ParishOnly => {}
            Written::Nonsense => "by the old gate".clone_into(&mut reference),
        }
        let parish = if self.written == Written::Nonsense { String::new() } else { self.parish.clone() };
        let site = self.tie.filter(|_| self.is_site).map(|tie| format!("Site {tie}")).unwrap_or_default();
        let place = [
            self.number.clone(),
            reference,
            e,
            n,
            latitude,
            longitude,
            parish,
            self.count.clone(),
            self.date.clone(),
            site,
        ];
        place.into_iter().chain(columns.iter().map(|column| self.says[*column].to_owned())).collect()
    }
}

/// A study whose register is re-drawn.
pub struct Redrawing<'a> {
    /// Laid down plainly; its register's file is written anew for every try.
    pub study: &'a Study,
    pub public: &'a PublicStudy,
    pub partition: &'a Partition<'a>,
    pub country: &'a Country,
    pub to_degrees: &'a Converter,
}

/// How often a re-drawing is tried, the bolder ones first.
const TRIES: u32 = 6;

impl Redrawing<'_> {
    /// What the rows of several registers are told as, each register as if it were alone, by their places there.
    /// They are read together, which is quicker: their sites and days are told apart.
    fn told(&self, registers: &[Vec<Row>]) -> Vec<BTreeMap<usize, ReleasedFind>> {
        let mut all = Vec::new();
        for (register, rows) in registers.iter().enumerate() {
            all.extend(rows.iter().enumerate().map(|(index, row)| {
                let mut row = row.clone();
                row.number = format!("{register} {index}");
                row.tie = row.tie.map(|tie| tie + register * 100);
                if self.shows("date") {
                    row.date = centuries_on(&row.date, register + 1);
                }
                row
            }));
        }
        Layout::plain(FINDS, self.country).write(&self.study.private.root, &all, self.to_degrees);
        // The numbers tell which is which; nothing else that is told of a find hangs on them.
        let mut public = self.public.clone();
        public.agreement.show.insert(Attribute::Number);
        let release = Register::read(self.study).unwrap().release(&public, self.partition).unwrap();
        let mut told = vec![BTreeMap::new(); registers.len()];
        for mut find in release.finds {
            let details = find.details.as_mut().unwrap();
            let number = details.number.take().unwrap();
            details.date = None;
            let (register, index) = number.split_once(' ').unwrap();
            told[register.parse::<usize>().unwrap()].insert(index.parse().unwrap(), find);
        }
        told
    }

    fn shows(&self, attribute: &str) -> bool {
        self.public.agreement.show.iter().any(|shown| shown.name() == attribute)
    }

    /// A row elsewhere in its released place, with other hidden fields; the bolder, the more of them.
    fn other(&self, random: &mut ChaCha8Rng, row: &Row, told: Option<&ReleasedFind>, boldness: f64) -> Row {
        let mut other = row.clone();
        for (index, (name, attribute, values)) in COLUMNS.iter().enumerate() {
            let own_land = *name == "landowner" && !self.public.agreement.landowner.is_empty();
            let has = self.country.columns.contains(&index);
            if has && !self.shows(attribute) && !own_land && random.random_bool(boldness) {
                other.says[index] = values.choose(random).unwrap_or(&"");
            }
        }
        if !self.shows("date") && random.random_bool(boldness) {
            other.date = (*["", "2019-04-02", "12/03/2021", "1987"].choose(random).unwrap_or(&"")).to_owned();
        }
        if !self.shows("stated-parish") && random.random_bool(boldness / 3.0) {
            other.parish = self.country.parishes.choose(random).cloned().unwrap_or_default();
        }
        let Some(told) = told else { return other };
        if !self.shows("written") && random.random_bool(boldness / 2.0) {
            other.written = written(random);
        }
        (other.easting, other.northing) = match &told.place {
            ReleasedPlace::Cell(cell) => {
                let mut within = |from: f64| from + random.random_range(0.0..f64::from(cell.side_m));
                (within(cell.west_m()), within(cell.south_m()))
            }
            ReleasedPlace::Parish(_) => self.country.place(random),
        };
        other
    }

    /// The register re-drawn: each find, or all of a site or a day together, tried until what is told of it agrees.
    /// So the test knows nothing of how a release is made.
    pub fn redraw(&self, random: &mut ChaCha8Rng, rows: &[Row]) -> Vec<Row> {
        let agreement = &self.public.agreement;
        let mine = |row: &Row| agreement.is_of_land(Some(row.says[LANDOWNER]));
        let first: Vec<Row> = rows.iter().filter(|row| mine(row)).cloned().collect();
        let told = self.told(std::slice::from_ref(&first)).remove(0);
        let tries: Vec<Vec<Row>> = (0..TRIES)
            .map(|attempt| {
                let boldness = 1.0 - f64::from(attempt) / f64::from(TRIES - 1);
                let each = first.iter().enumerate();
                each.map(|(index, row)| self.other(random, row, told.get(&index), boldness)).collect()
            })
            .collect();
        let mut now = first.clone();
        let mut done = vec![false; first.len()];
        for (tried, retold) in tries.iter().zip(self.told(&tries)) {
            let agrees = |index: usize| told.get(&index) == retold.get(&index);
            for index in 0..first.len() {
                let together = |other: usize| match first[index].tie {
                    Some(tie) => first[other].tie == Some(tie),
                    None => other == index,
                };
                if !done[index] && (0..first.len()).filter(|other| together(*other)).all(agrees) {
                    now[index] = tried[index].clone();
                    done[index] = true;
                }
            }
        }
        // A landowner is told nothing of other land, so that it may be anything, and as much as one likes.
        let others = rows.iter().filter(|row| !mine(row)).count();
        if !agreement.landowner.is_empty() {
            for index in 0..(others + random.random_range(0..3)).saturating_sub(1) {
                let mut other = row(random, self.country, index);
                other.says[LANDOWNER] = ["", "Far Farm", "Long Farms"].choose(random).unwrap_or(&"");
                now.push(other);
            }
        }
        if !self.shows("number") {
            for row in &mut now {
                row.number = format!("X{}", random.random_range(0..1_000_000_000_u64));
            }
        }
        now.shuffle(random);
        now
    }
}

/// The same day so many centuries on: another day, and no day of another register's.
fn centuries_on(date: &str, centuries: usize) -> String {
    match date.split_once('-') {
        Some((year, day)) => format!("{}-{day}", year.parse::<usize>().unwrap() + 100 * centuries),
        None => String::new(),
    }
}

/// From the British grid to degrees.
pub fn to_degrees() -> Converter {
    Converter::new(&System::BritishGrid, &System::Wgs84).unwrap()
}
