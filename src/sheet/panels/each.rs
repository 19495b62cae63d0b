//! Small multiples: one map a period, one a class, or classes down and periods across.

use std::collections::BTreeSet;

use super::{Counted, Panel};
use crate::analyse::finds_by_parish;
use crate::exact::{Figure, Published, ReleasedFind, ReleasedPlace};
use crate::fault::{Fault, Result};
use crate::ground::Partition;
use crate::sheet::shapes::{Era, Kind};
use crate::sheet::themes::drawn;
use crate::sheet::{MapKind, Scene, Sheet, page};
use crate::study::vocabulary::{Class, Period, Term};
use crate::words::{Language, Words};

/// What each of several small maps stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Each {
    /// A period.
    Period,
    /// A class.
    Class,
    /// A class and a period: classes are rows, periods columns.
    ClassAndPeriod,
}

impl Each {
    /// Its name in file names, the same in every language.
    pub fn name(self) -> &'static str {
        match self {
            Self::Period => "period",
            Self::Class => "class",
            Self::ClassAndPeriod => "class-and-period",
        }
    }

    /// Whether classes have maps of their own.
    pub fn by_class(self) -> bool {
        self != Self::Period
    }

    /// Whether periods have maps of their own.
    pub fn by_period(self) -> bool {
        self != Self::Class
    }
}

/// The finds of one map. Classes that share a symbol and periods that share a colour share a map; where one class
/// or period is drawn alone, those within it have a map each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Group {
    Kind(Kind),
    Class(Option<Class>),
    Era(Era),
    Period(Option<Period>),
}

impl Group {
    fn class(find: &ReleasedFind, scene: &Scene<'_>) -> Self {
        match scene.class {
            Some(_) => Self::Class(find.class),
            None => Self::Kind(Kind::of(find.class)),
        }
    }

    fn period(find: &ReleasedFind, scene: &Scene<'_>) -> Self {
        match scene.period {
            Some(_) => Self::Period(find.period),
            None => Self::Era(Era::of(find.period)),
        }
    }

    fn label(self, language: Language) -> String {
        let words = Words::of(language);
        match self {
            Self::Kind(kind) => words.say(kind.message()),
            Self::Era(era) => words.say(era.message()),
            Self::Class(class) => {
                class.map_or_else(|| words.say(Kind::Other.message()), |class| class.label(language))
            }
            Self::Period(period) => {
                period.map_or_else(|| words.say(Era::Undated.message()), |period| period.label(language))
            }
        }
    }
}

/// How many small maps there would be.
pub fn groups(each: Each, scene: &Scene<'_>) -> usize {
    let (rows, columns) = rows_and_columns(each, scene);
    rows.len().max(1) * columns.len().max(1)
}

/// The groups that have finds, of classes down and of periods across; none where there is no such way.
fn rows_and_columns(each: Each, scene: &Scene<'_>) -> (Vec<Group>, Vec<Group>) {
    let finds = || scene.published.finds().iter().filter(|find| drawn(find, scene));
    let met = |wanted: bool, of: fn(&ReleasedFind, &Scene<'_>) -> Group| -> Vec<Group> {
        let groups: BTreeSet<Group> = match wanted {
            true => finds().map(|find| of(find, scene)).collect(),
            false => BTreeSet::new(),
        };
        groups.into_iter().collect()
    };
    (met(each.by_class(), Group::class), met(each.by_period(), Group::period))
}

/// Draws one small map a period, a class, or both, on as many sheets as they need. Groups without finds have no
/// map; in rows and columns, a map without finds keeps its place. `partition` shares pieces among parishes.
/// Faults where the kind of map cannot be drawn of a part of the finds, and where there are none.
pub fn small_maps(
    kind: MapKind,
    each: Each,
    scene: &Scene<'_>,
    partition: &Partition<'_>,
    style: Option<&str>,
    paper: Option<&str>,
) -> Result<Vec<Sheet>> {
    super::of_parts(kind)?;
    let language = scene.study.language;
    let words = Words::of(language);
    let (rows, columns) = rows_and_columns(each, scene);
    if rows.is_empty() && columns.is_empty() {
        return Err(Fault::new("sheet-nothing-side-by-side"));
    }
    let part = |find: &ReleasedFind| {
        let at = |groups: &[Group], group| match groups.is_empty() {
            true => Some(0),
            false => groups.iter().position(|known| *known == group),
        };
        let (row, column) =
            (at(&rows, Group::class(find, scene))?, at(&columns, Group::period(find, scene))?);
        drawn(find, scene).then_some(row * columns.len().max(1) + column)
    };
    let count = rows.len().max(1) * columns.len().max(1);
    let parts = scene.published.parted(count, part);
    let by_parish: Vec<Vec<(String, u64)>> = match kind {
        MapKind::Parishes => parts.iter().map(|part| finds_by_parish(part, partition)).collect(),
        _ => vec![Vec::new(); count],
    };
    let labels = |groups: &[Group]| groups.iter().map(|group| group.label(language)).collect::<Vec<_>>();
    let (rows, columns) = (labels(&rows), labels(&columns));
    let panels = parts.iter().zip(&by_parish).enumerate().map(|(index, (published, parishes))| {
        let across = columns.len().max(1);
        let names: Vec<&str> = [rows.get(index / across), columns.get(index % across)]
            .into_iter()
            .flatten()
            .map(String::as_str)
            .collect();
        let note = pieces(kind, published, words);
        Panel {
            name: if each == Each::ClassAndPeriod { String::new() } else { names.concat() },
            told: words.say_with(
                "sheet-panel-told",
                &[("name", names.join(", ").into()), ("pieces", note.clone().into())],
            ),
            note,
            scene: Scene { published, parishes, ..*scene },
            chosen: false,
        }
    });
    let panels = panels.collect();
    let title = page::title(kind, scene, words);
    let mut cautions = vec![words.say("sheet-each-groups")];
    if kind == MapKind::Parishes {
        cautions.push(words.say("sheet-each-parish-numbers"));
    }
    let figure = super::Figure {
        name: format!("{}-each-{}", kind.file_name(), each.name()),
        title: words.say_with(&format!("sheet-each-{}", each.name()), &[("kind", title.into())]),
        study: None,
        detail: words.say("sheet-each-detail"),
        detailed: true,
        kind,
        panels,
        headings: (each == Each::ClassAndPeriod).then_some((rows, columns)),
        counted: Counted::Together(*scene),
        frames: None,
        squares: false,
        cautions,
    };
    figure.draw(style, paper)
}

/// "123 pieces, 4 more by parish (7 out of place)".
pub(super) fn pieces(kind: MapKind, published: &Published, words: &Words) -> String {
    let in_squares = |find: &ReleasedFind| matches!(find.place, ReleasedPlace::Cell(_));
    let (all, by_parish) = match kind {
        MapKind::Parishes => (published.pieces(), Figure::default()),
        _ => (published.total(in_squares), published.pieces_by_parish_only()),
    };
    let mut told = words.say_with("sheet-panel-pieces", &[("n", all.into())]);
    if !by_parish.is_nothing() {
        told = words.say_with("sheet-panel-by-parish", &[("pieces", told.into()), ("n", by_parish.into())]);
    }
    // Tables count apart what is out of place.
    let apart = published.total(|find| find.out_of_place);
    if !apart.is_nothing() {
        told = words.say_with("sheet-panel-apart", &[("pieces", told.into()), ("n", apart.into())]);
    }
    told
}
