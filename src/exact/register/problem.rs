//! What is wrong or doubtful in a register, row by row, for its owner alone.

use std::collections::BTreeMap;
use std::fmt;

use crate::exact::Reason;
use crate::fault::Fault;
use crate::study::vocabulary::Term;

/// How many problems of one kind are kept with their row; all are counted.
const KEPT_OF_A_KIND: u64 = 10_000;

macro_rules! doubts {
    ($($(#[$doc:meta])* $variant:ident = $name:literal),* $(,)?) => {
        /// Why a row that is used may be wrong. Its name is a message in `words/`, as `doubt-NAME`.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Doubt { $($(#[$doc])* $variant),* }

        impl Doubt {
            /// Every one, in order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),*];

            /// Its name, as in `doubt-NAME`.
            pub fn name(self) -> &'static str {
                match self { $(Self::$variant => $name),* }
            }
        }
    };
}

doubts! {
    /// A sheet of a workbook has no headings of a register; its rows are not read.
    SheetPassedOver = "sheet-passed-over",
    /// The class is no word of the vocabulary; the row counts as unclassified.
    ClassUnknown = "class-unknown",
    /// The class has a query ("scraper?").
    ClassQueried = "class-queried",
    /// The note says that the piece may be natural.
    MaybeNatural = "maybe-natural",
    /// The period is no word of the vocabulary; the row counts as undated.
    PeriodUnknown = "period-unknown",
    /// The period has a query ("Neo?").
    PeriodQueried = "period-queried",
    /// The years run from later to earlier, or have no era.
    YearsUnclear = "years-unclear",
    /// More pieces in one row than a bag holds.
    CountLarge = "count-large",
    /// The row has no place of its own and takes that of the row above.
    FilledFromAbove = "filled-from-above",
    /// A ditto mark with nothing above it.
    DittoAboveNothing = "ditto-above-nothing",
    /// The place is in words alone; the row is used by its parish.
    PlaceInWords = "place-in-words",
    /// The stated uncertainty could not be read.
    UncertaintyUnreadable = "uncertainty-unreadable",
    /// A mark that is not in the list.
    MarksUnknown = "marks-unknown",
    /// A mark with a query; not counted as seen.
    MarkQueried = "mark-queried",
    /// The setting is no word of the vocabulary.
    SettingUnknown = "setting-unknown",
    /// The standing is no word of the vocabulary.
    StandingUnknown = "standing-unknown",
    /// The length could not be read.
    LengthUnreadable = "length-unreadable",
    /// The length looks like centimetres among millimetres, or the other way about.
    LengthUnlikely = "length-unlikely",
    /// The weight could not be read.
    WeightUnreadable = "weight-unreadable",
    /// The weight is hardly that of one piece of flint.
    WeightUnlikely = "weight-unlikely",
    /// Found after the study's date.
    DateFuture = "date-future",
    /// Found before anybody kept such registers.
    DateUnlikely = "date-unlikely",
    /// The note gives a place away.
    NoteGivesPlace = "note-gives-place",
    /// A bag and a tool out of it are both counted.
    CountedTwice = "counted-twice",
    /// The same row twice.
    RowTwice = "row-twice",
    /// One number on two different rows.
    NumberTwice = "number-twice",
    /// One precise place for many finds: a reference for a whole field?
    OneReference = "one-reference",
    /// Easting and northing look swapped.
    MaybeSwapped = "maybe-swapped",
    /// The place lies in another parish than the stated one.
    OtherParish = "other-parish",
    /// The place lies off the land.
    InTheSea = "in-the-sea",
}

impl Term for Doubt {
    fn message(&self) -> String {
        format!("doubt-{}", self.name())
    }
}

/// What a problem is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Matter {
    /// The row was set aside.
    SetAside(Reason),
    /// The row is used, and may be wrong.
    Doubt(Doubt),
}

impl Matter {
    /// The message that says it; its `.hint` says what to do.
    pub fn message(self) -> String {
        match self {
            Self::SetAside(reason) => reason.message(),
            Self::Doubt(doubt) => doubt.message(),
        }
    }
}

/// One row set aside, or one doubt. Its text can hold an exact place: it reaches the rest of the program
/// inside [`crate::exact::Private`] alone.
#[derive(Clone)]
pub struct Problem {
    /// Which file, as an index into the register's shapes.
    pub file: u32,
    /// The row, as a spreadsheet counts it.
    pub row: u64,
    /// The heading of the column, where one cell is to blame.
    pub column: Option<String>,
    /// What it is about.
    pub matter: Matter,
    /// What stands there, as written.
    pub text: Option<String>,
    /// More about it than the reason says, with a hint of its own.
    pub detail: Option<Fault>,
}

impl fmt::Debug for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("withheld")
    }
}

/// All problems of a register: every one counted, the first ten thousand of each kind kept.
#[derive(Default)]
pub struct Problems {
    listed: Vec<Problem>,
    counts: BTreeMap<Matter, u64>,
}

impl Problems {
    /// Those kept, in order of file and row.
    pub fn listed(&self) -> &[Problem] {
        &self.listed
    }

    /// How many there are of each kind.
    pub fn counts(&self) -> &BTreeMap<Matter, u64> {
        &self.counts
    }

    /// How many are counted and not listed.
    pub fn unlisted(&self) -> u64 {
        self.counts.values().sum::<u64>() - self.listed.len() as u64
    }

    pub(in crate::exact) fn add(&mut self, problem: Problem) {
        let count = self.counts.entry(problem.matter).or_default();
        *count += 1;
        if *count <= KEPT_OF_A_KIND {
            self.listed.push(problem);
        }
    }

    /// Adds those of the rows that follow.
    pub(in crate::exact) fn append(&mut self, others: Self) {
        let mut unlisted = others.counts;
        for problem in others.listed {
            if let Some(count) = unlisted.get_mut(&problem.matter) {
                *count -= 1;
            }
            self.add(problem);
        }
        for (matter, count) in unlisted {
            *self.counts.entry(matter).or_default() += count;
        }
    }

    /// Orders by file, row and kind. Stable, so that two of a kind in one row stay in column order.
    pub(in crate::exact) fn sort(&mut self) {
        self.listed.sort_by_key(|problem| (problem.file, problem.row, problem.matter));
    }
}

impl fmt::Debug for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("withheld")
    }
}
