//! One row: a find, or a reason why it is none.

use std::collections::BTreeMap;

use super::Context;
use super::count::{self, Count};
use super::date;
use super::field::Field;
use super::fields::{self, Row};
use super::lines::{self, is_blank};
use super::place::{self, Habit, PlaceCells};
use super::problem::{Doubt, Matter, Problems};
use super::records::Record;
use super::sniff::Sheet;
use super::years::{self, Dating};
use crate::coordinates::System;
use crate::coordinates::notation::cut_places;
use crate::exact::find::More;
use crate::exact::{ExactFind, Reason};
use crate::fault::Fault;
use crate::study::land_key;
use crate::study::vocabulary::{Class, Period, Setting, Standing};

/// What came of a row.
pub(super) enum Read {
    Find(Box<ExactFind>),
    SetAside(Reason),
}

/// Words met before and what they mean, so that a million rows look each word up once.
struct Memo<T>(BTreeMap<String, T>);

impl<T: Copy> Memo<T> {
    fn get(&mut self, text: &str, read: impl FnOnce(&str) -> T) -> T {
        const MOST: usize = 4096;
        if let Some(known) = self.0.get(text) {
            return *known;
        }
        let meaning = read(text);
        if self.0.len() < MOST {
            self.0.insert(text.to_owned(), meaning);
        }
        meaning
    }
}

/// The fields that an entry of several rows states once, on its first.
const STATED_ONCE: [Field; 25] = [
    Field::Number,
    Field::Place,
    Field::Easting,
    Field::Northing,
    Field::Latitude,
    Field::Longitude,
    Field::Parish,
    Field::Uncertainty,
    Field::Setting,
    Field::Date,
    Field::Finder,
    Field::Landowner,
    Field::Permission,
    Field::Site,
    Field::HowFound,
    Field::PlaceName,
    Field::CommuneCode,
    Field::HowPlaced,
    Field::Section,
    Field::Parcel,
    Field::PlanYear,
    Field::Authorisation,
    Field::Declaration,
    Field::NamesConsent,
    Field::Embargo,
];

/// The fields that place a find.
const PLACING: [Field; 6] =
    [Field::Place, Field::Easting, Field::Northing, Field::Latitude, Field::Longitude, Field::Parish];

/// What the rows before a part of a file leave to those in it.
#[derive(Clone, Default)]
pub(super) struct Before {
    /// The last row of finds, dittos resolved.
    above: Vec<String>,
    /// The letters of the first reference read.
    letters: Option<String>,
    /// Pieces since the last line of totals, and since the start.
    sums: (u64, u64),
    /// A line of totals was met.
    totalled: bool,
}

impl Before {
    /// What they and the rows of a part that follows leave.
    pub fn go_on(&mut self, part: Rows<'_>) {
        // A part that knew them went on from them already.
        if !part.blind {
            *self = part.before;
            return;
        }
        let part = part.before;
        if !part.above.is_empty() {
            self.above = part.above;
        }
        self.letters = self.letters.take().or(part.letters);
        let carried = if part.totalled { 0 } else { self.sums.0 };
        self.sums = (carried + part.sums.0, self.sums.1 + part.sums.1);
    }
}

/// Reads the rows of a part of a file, one after another: a ditto needs the row above.
pub(super) struct Rows<'a> {
    context: &'a Context,
    sheet: &'a Sheet,
    file: u32,
    decimal_comma: bool,
    system: System,
    before: Before,
    /// The rows before this part are not known.
    blind: bool,
    /// Something here would have needed them.
    pub leant: bool,
    /// Whose land the row read last is stated to be off, as names are compared, where it was set aside.
    pub land_of_aside: Option<String>,
    natural: Memo<bool>,
    counts: Memo<Count>,
    classes: Memo<Option<Class>>,
    periods: Memo<Option<Dating>>,
    settings: Memo<Option<Setting>>,
    standings: Memo<Option<Standing>>,
}

impl<'a> Rows<'a> {
    /// `before`: what the rows before leave, where that is known.
    pub fn new(
        context: &'a Context,
        sheet: &'a Sheet,
        file: u32,
        decimal_comma: bool,
        before: Option<Before>,
    ) -> Self {
        let system = sheet.system.clone().filter(|system| *system != System::Wgs84);
        Self {
            context,
            sheet,
            file,
            decimal_comma,
            system: system.unwrap_or_else(|| context.system.clone()),
            blind: before.is_none(),
            before: before.unwrap_or_default(),
            leant: false,
            land_of_aside: None,
            natural: Memo(BTreeMap::new()),
            counts: Memo(BTreeMap::new()),
            classes: Memo(BTreeMap::new()),
            periods: Memo(BTreeMap::new()),
            settings: Memo(BTreeMap::new()),
            standings: Memo(BTreeMap::new()),
        }
    }

    /// Reads one row. `cells` is left with other contents: the row becomes the one above the next.
    pub fn read(&mut self, record: Record, cells: &mut Vec<String>, problems: &mut Problems) -> Read {
        let sheet = self.sheet;
        self.land_of_aside = None;
        let (mut doubts_above, mut filled) = (Vec::new(), false);
        let line = self.no_find(record, cells);
        if line.is_none() {
            self.resolve_dittos(cells, &mut doubts_above);
            filled = self.fill_from_above(cells);
        }
        let mut row = Row { number: record.row, file: self.file, cells, sheet, problems };
        if let Some((reason, detail)) = line {
            if reason == Reason::TotalLine {
                self.before.sums.0 = 0;
                self.before.totalled = true;
            }
            let text =
                cells.iter().map(|c| c.trim()).filter(|c| !c.is_empty()).collect::<Vec<_>>().join(" | ");
            let text: String = text.chars().take(200).collect();
            return row.set_aside(reason, None, &text, detail);
        }
        for field in doubts_above {
            row.doubt(Doubt::DittoAboveNothing, field);
        }
        if filled {
            let field = PLACING.into_iter().find(|field| !row.get(*field).is_empty()).unwrap_or(Field::Place);
            row.doubt(Doubt::FilledFromAbove, field);
        }
        let read = self.find(&mut row);
        let land = Some(row.get(Field::Landowner)).filter(|land| !land.is_empty());
        self.land_of_aside = land.filter(|_| matches!(read, Read::SetAside(_))).map(land_key);
        std::mem::swap(&mut self.before.above, cells);
        read
    }

    /// Damaged rows, totals and headings.
    fn no_find(&mut self, record: Record, cells: &[String]) -> Option<(Reason, Option<Fault>)> {
        let width = self.sheet.width;
        if record.open_quote {
            return Some((Reason::Damaged, Some(Fault::new("register-open-quote"))));
        }
        if cells.iter().skip(width).any(|cell| !cell.trim().is_empty()) {
            let fault =
                Fault::new("register-too-many-cells").with("cells", cells.len()).with("columns", width);
            return Some((Reason::Damaged, Some(fault)));
        }
        let (sums, blind, leant) = (self.before.sums, self.blind, &mut self.leant);
        let sums = || {
            *leant |= blind;
            sums
        };
        lines::kind(cells, &self.sheet.layout, &self.sheet.headings, sums).map(|reason| (reason, None))
    }

    /// Puts what stands above in the place of ditto marks. A mark with nothing above it becomes blank.
    fn resolve_dittos(&mut self, cells: &mut [String], unresolved: &mut Vec<Field>) {
        for (field, column) in self.sheet.layout.fields() {
            let Some(cell) = cells.get_mut(column).filter(|cell| lines::is_ditto(cell)) else { continue };
            self.leant |= self.blind && self.before.above.is_empty();
            let above = self.before.above.get(column).map_or("", String::as_str);
            above.clone_into(cell);
            if is_blank(cell) {
                unresolved.push(field);
            }
        }
    }

    /// An entry of several rows states its place once: a row with a class and no number and no place of
    /// its own goes on with the entry above. In a file without numbers, the row must be blank from its
    /// first cell to the place, as merged cells leave it.
    fn fill_from_above(&mut self, cells: &mut Vec<String>) -> bool {
        let layout = &self.sheet.layout;
        let blank = |cells: &[String], field: Field| {
            layout.column(field).and_then(|column| cells.get(column)).is_none_or(|cell| is_blank(cell))
        };
        let unplaced = PLACING.iter().all(|field| blank(cells, *field));
        if !unplaced || blank(cells, Field::Class) {
            return false;
        }
        self.leant |= self.blind && self.before.above.is_empty();
        if PLACING.iter().all(|field| blank(&self.before.above, *field)) {
            return false;
        }
        let goes_on = if layout.column(Field::Number).is_some() {
            blank(cells, Field::Number)
        } else {
            let first = PLACING.iter().filter_map(|field| layout.column(*field)).min().unwrap_or(0);
            cells.iter().take(first + 1).all(|cell| is_blank(cell))
        };
        if !goes_on {
            return false;
        }
        for column in STATED_ONCE.iter().filter_map(|field| layout.column(*field)) {
            if cells.len() <= column {
                cells.resize(column + 1, String::new());
            }
            if let Some(above) = self.before.above.get(column).filter(|_| is_blank(&cells[column])) {
                cells[column].clone_from(above);
            }
        }
        true
    }

    /// Reads a row of finds.
    fn find(&mut self, row: &mut Row<'_>) -> Read {
        let written = row.get(Field::Class).to_owned();
        if self.natural.get(&written, lines::is_natural) {
            return row.set_aside(Reason::Natural, Some(Field::Class), &written, None);
        }
        let counted = row.get(Field::Count).to_owned();
        let (number, rough) = match self.counts.get(&counted, count::read) {
            Count::Pieces { number, rough } => (number, rough),
            Count::Zero => return row.set_aside(Reason::CountZero, Some(Field::Count), &counted, None),
            Count::BecameDate => {
                let fault = Some(Fault::new("register-count-became-date"));
                return row.set_aside(Reason::CountUnreadable, Some(Field::Count), &counted, fault);
            }
            Count::Unreadable => {
                return row.set_aside(Reason::CountUnreadable, Some(Field::Count), &counted, None);
            }
        };
        // "3 flakes" under the class counts where no count stands.
        let beside = if counted.is_empty() { count::beside_class(&written) } else { None };
        let beside = beside.filter(|(_, class)| Class::read(class).is_some());
        let number = beside.map_or(number, |(beside, _)| beside);
        let place = match self.place(row) {
            Ok(place) => place,
            Err(read) => return read,
        };
        const LARGE: u32 = 2_000;
        if number > LARGE {
            row.doubt(Doubt::CountLarge, Field::Count);
        }
        self.before.sums.0 += u64::from(number);
        self.before.sums.1 += u64::from(number);
        let class = self.class(row);
        let period = self.period(row);
        let marks = fields::marks(row);
        let setting = self.settings.get(row.get(Field::Setting), Setting::read);
        if setting.is_none() {
            row.doubt(Doubt::SettingUnknown, Field::Setting);
        }
        let standing = self.standings.get(row.get(Field::Standing), fields::standing);
        if standing.is_none() {
            row.doubt(Doubt::StandingUnknown, Field::Standing);
        }
        let more = self.more(row, class);
        Read::Find(Box::new(ExactFind {
            file: self.file,
            row: row.number,
            number: row.owned(Field::Number),
            place,
            parish: row.owned(Field::Parish),
            class,
            period,
            count: number,
            count_is_rough: rough,
            marks,
            setting: setting.unwrap_or(Setting::Unknown),
            standing: standing.unwrap_or(Standing::Unknown),
            more: more.map(Box::new),
        }))
    }

    fn place(&mut self, row: &mut Row<'_>) -> Result<crate::exact::find::ExactPlace, Read> {
        let cells = PlaceCells {
            place: row.get(Field::Place),
            easting: row.get(Field::Easting),
            northing: row.get(Field::Northing),
            latitude: row.get(Field::Latitude),
            longitude: row.get(Field::Longitude),
            parish: row.get(Field::Parish),
            uncertainty: row.get(Field::Uncertainty),
            uncertainty_heading: row.heading(Field::Uncertainty),
        };
        let habit = Habit {
            system: &self.system,
            decimal_comma: self.decimal_comma,
            degrees: self.sheet.degrees,
            uncertainty_m: self.context.uncertainty_m,
            letters: self.before.letters.as_deref(),
        };
        match place::read(&cells, &habit) {
            Ok(found) => {
                if self.before.letters.is_none() {
                    self.before.letters = place::letters_of(row.get(Field::Place));
                }
                if found.in_words {
                    row.doubt(Doubt::PlaceInWords, Field::Place);
                }
                if found.uncertainty_unreadable {
                    row.doubt(Doubt::UncertaintyUnreadable, Field::Uncertainty);
                }
                Ok(found.place)
            }
            Err(lost) => {
                // The letters that a hint names are those of the first reference of the file.
                let named =
                    lost.detail.as_ref().is_some_and(|why| why.id.starts_with("register-letters-lost"));
                self.leant |= self.blind && named;
                Err(row.set_aside(lost.reason, Some(lost.field), &lost.text, lost.detail))
            }
        }
    }

    fn class(&mut self, row: &mut Row<'_>) -> Class {
        let text = row.get(Field::Class);
        if text.is_empty() {
            return Class::Unclassified;
        }
        let queried = text.contains('?');
        let class = self.classes.get(text, fields::class);
        if queried {
            row.doubt(Doubt::ClassQueried, Field::Class);
        }
        if class.is_none() {
            let near = Class::nearest(row.get(Field::Class)).map(|class| class.name().replace('-', " "));
            let near = near.map(|near| Fault::new("register-class-near").with("nearest", near));
            let text = row.get(Field::Class).to_owned();
            row.add(Matter::Doubt(Doubt::ClassUnknown), Some(Field::Class), &text, near);
        }
        class.unwrap_or(Class::Unclassified)
    }

    fn period(&mut self, row: &mut Row<'_>) -> Period {
        let country = self.context.country;
        let text = row.get(Field::Period);
        let mut field = Field::Period;
        let mut dating = if text.is_empty() {
            Some(Dating { period: Period::Undated, queried: false, unclear: false })
        } else {
            self.periods.get(text, |text| years::read(text, country))
        };
        let (from, to) = (row.get(Field::DateFrom), row.get(Field::DateTo));
        let undated = dating.is_none_or(|dating| dating.period == Period::Undated);
        if undated && !(from.is_empty() && to.is_empty()) {
            field = if from.is_empty() { Field::DateTo } else { Field::DateFrom };
            dating = years::from_to(from, to, country);
        }
        match dating {
            None => {
                row.doubt(Doubt::PeriodUnknown, field);
                Period::Undated
            }
            Some(dating) => {
                if dating.queried {
                    row.doubt(Doubt::PeriodQueried, field);
                }
                if dating.unclear {
                    row.doubt(Doubt::YearsUnclear, field);
                }
                dating.period
            }
        }
    }

    fn more(&self, row: &mut Row<'_>, class: Class) -> Option<More> {
        let note = fields::note(row);
        if let Some(note) = &note {
            let note_alone = fields::without_numbers(note);
            if cut_places(&note_alone) != note_alone {
                row.add(Matter::Doubt(Doubt::NoteGivesPlace), Some(Field::Note), note, None);
            }
            if lines::note_says_natural(note) {
                row.add(Matter::Doubt(Doubt::MaybeNatural), Some(Field::Note), note, None);
            }
        }
        let date = row.owned(Field::Date);
        if let Some(date) = &date {
            if self.context.today.is_some_and(|today| date::is_after(date, today)) {
                row.doubt(Doubt::DateFuture, Field::Date);
            } else if date::year(date).is_some_and(|year| year < 1700) {
                row.doubt(Doubt::DateUnlikely, Field::Date);
            }
        }
        let years = match (row.get(Field::DateFrom), row.get(Field::DateTo)) {
            ("", "") => None,
            (from, to) => Some(format!("{from}–{to}")),
        };
        let more = More {
            class_as_written: row.owned(Field::Class),
            period_as_written: row.owned(Field::Period).or(years),
            material: row.owned(Field::Material),
            length_mm: fields::length(row, class),
            weight_g: fields::weight(row),
            date,
            finder: row.owned(Field::Finder),
            looked_at_by: row.owned(Field::LookedAtBy),
            kept_at: row.owned(Field::KeptAt),
            landowner: row.owned(Field::Landowner),
            permission: row.owned(Field::Permission),
            site: row.owned(Field::Site),
            note,
            how_found: row.owned(Field::HowFound),
            depth: fields::depth(row),
            breadth_mm: fields::breadth(row),
            thickness_mm: fields::thickness(row),
            condition: row.owned(Field::Condition),
            examined: row.owned(Field::Examined),
            owner: row.owned(Field::Owner),
            place_name: row.owned(Field::PlaceName),
            commune_code: row.owned(Field::CommuneCode),
            how_placed: row.owned(Field::HowPlaced),
            section: row.owned(Field::Section),
            parcel: row.owned(Field::Parcel),
            plan_year: row.owned(Field::PlanYear),
            authorisation: row.owned(Field::Authorisation),
            declaration: row.owned(Field::Declaration),
            photographs: row.owned(Field::Photographs),
            kept_or_left: row.owned(Field::KeptOrLeft),
            publication: row.owned(Field::Publication),
            names_consent: row.owned(Field::NamesConsent),
            embargo: row.owned(Field::Embargo),
        };
        (!more.is_empty()).then_some(more)
    }
}
