//! Two maps side by side: two registers, or the finds of one before and after a year.

use super::each::pieces;
use super::{Counted, Panel};
use crate::analyse::finds_by_parish;
use crate::exact::{Figure, ReleasedFind};
use crate::fault::Result;
use crate::ground::Partition;
use crate::sheet::notes::day;
use crate::sheet::themes::drawn;
use crate::sheet::{MapKind, Scene, Sheet, page};
use crate::study::PublicStudy;
use crate::words::Words;

/// Draws two releases side by side; each is counted by itself. The caller has made sure that they were made for
/// like audiences. The first study's language, style and paper are taken.
pub fn pair(
    kind: MapKind,
    scenes: [&Scene<'_>; 2],
    style: Option<&str>,
    paper: Option<&str>,
) -> Result<Vec<Sheet>> {
    let [first, second] = scenes;
    let words = Words::of(first.study.language);
    let names = [&first.study.title, &second.study.title].map(String::as_str);
    let panels = scenes.map(|scene| Panel {
        name: scene.study.title.clone(),
        ..panel(kind, scene, edition(scene.study, words), words)
    });
    let cautions = vec![words.say("sheet-pair-registers-caution")];
    let [left, right] = panels;
    // Two of one title are told apart by edition and day, or else by their order.
    let mut panels = vec![left, right];
    if panels[0].name == panels[1].name {
        for (panel, scene) in panels.iter_mut().zip(scenes) {
            if let Some(edition) = edition(scene.study, words) {
                panel.name = edition;
                panel.note = pieces(kind, scene.published, words);
            }
        }
    }
    if panels[0].name == panels[1].name {
        for (panel, id) in panels.iter_mut().zip(["sheet-pair-first", "sheet-pair-second"]) {
            panel.name = words.say(id);
        }
    }
    for panel in &mut panels {
        panel.told = told(panel, words);
    }
    let figure = super::Figure {
        name: format!("{}-side-by-side", kind.file_name()),
        title: words.say_with("sheet-pair-registers", &[("kind", page::title(kind, first, words).into())]),
        study: (names[0] != names[1]).then(|| names.join(" · ")),
        detail: words.say("sheet-pair-detail"),
        detailed: kind != MapKind::Density,
        kind,
        panels,
        headings: None,
        counted: Counted::Each,
        frames: None,
        squares: true,
        cautions,
    };
    figure.draw(style, paper)
}

/// Draws the finds from before a year beside those from that year on. Finds without a year, or with years on both
/// sides, stand on neither map and are counted. The agreement must show dates: the caller has seen to it.
pub fn by_year(
    kind: MapKind,
    year: i32,
    scene: &Scene<'_>,
    partition: &Partition<'_>,
    style: Option<&str>,
    paper: Option<&str>,
) -> Result<Vec<Sheet>> {
    super::of_parts(kind)?;
    let words = Words::of(scene.study.language);
    let parts = scene.published.parted(3, |find| {
        drawn(find, scene).then(|| match side_of(year, find) {
            Some(Side::Before) => 0,
            Some(Side::From) => 1,
            None => 2,
        })
    });
    let neither = scene.published.total(|find| drawn(find, scene) && side_of(year, find).is_none());
    let both =
        scene.published.parted(1, |find| (drawn(find, scene) && side_of(year, find).is_some()).then_some(0));
    let by_parish: Vec<_> = match kind {
        MapKind::Parishes => parts.iter().map(|part| finds_by_parish(part, partition)).collect(),
        _ => vec![Vec::new(); parts.len()],
    };
    let names = ["sheet-pair-before", "sheet-pair-from"]
        .map(|id| words.say_with(id, &[("year", crate::words::Value::Text(year.to_string()))]));
    let panels = names.into_iter().zip(parts.iter().zip(&by_parish)).map(|(name, (published, parishes))| {
        let scene = Scene { published, parishes, ..*scene };
        let mut panel = Panel { name, ..panel(kind, &scene, None, words) };
        panel.told = told(&panel, words);
        panel
    });
    let cautions = vec![words.say("sheet-pair-years-caution")];
    // What is on neither map is said above them: notes may go on small paper.
    let mut detail = words.say("sheet-pair-detail");
    if !neither.is_nothing() {
        detail = format!("{detail} {}", words.say_with("sheet-pair-no-year", &[("n", neither.into())]));
    }
    let title = page::title(kind, scene, words);
    let values = [("kind", title.into()), ("year", crate::words::Value::Text(year.to_string()))];
    let figure = super::Figure {
        name: format!("{}-before-and-from-{year}", kind.file_name()),
        title: words.say_with("sheet-pair-years", &values),
        study: None,
        detail,
        detailed: true,
        kind,
        panels: panels.collect(),
        headings: None,
        counted: Counted::Together(Scene { published: &both[0], ..*scene }),
        frames: None,
        squares: true,
        cautions,
    };
    figure.draw(style, paper)
}

/// A map of a pair, yet without a name: what is known of it, and how much it shows.
fn panel<'a>(kind: MapKind, scene: &Scene<'a>, about: Option<String>, words: &Words) -> Panel<'a> {
    let mut note: Vec<String> = about.into_iter().collect();
    if let (MapKind::Density, Some(surface)) = (kind, scene.surface) {
        let bandwidth = words.number(surface.bandwidth_m, 0);
        note.push(words.say_with("sheet-bandwidth", &[("bandwidth", bandwidth.into())]));
    }
    note.push(pieces(kind, scene.published, words));
    Panel { name: String::new(), note: note.join(" · "), told: String::new(), scene: *scene, chosen: false }
}

fn told(panel: &Panel<'_>, words: &Words) -> String {
    let values = [("name", panel.name.clone().into()), ("pieces", panel.note.clone().into())];
    words.say_with("sheet-panel-told", &values)
}

/// "Edition 2, 1 October 2026": what tells two releases of one study apart.
fn edition(study: &PublicStudy, words: &Words) -> Option<String> {
    let mut parts: Vec<String> = study.edition.iter().cloned().collect();
    parts.extend(study.date.map(|date| day(date, words)));
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// Pieces of a scene from before a year, and from that year on.
pub fn pieces_by_year(year: i32, scene: &Scene<'_>) -> (Figure, Figure) {
    let total =
        |wanted| scene.published.total(|find| drawn(find, scene) && side_of(year, find) == Some(wanted));
    (total(Side::Before), total(Side::From))
}

/// Which map of a pair by year a find stands on.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Side {
    Before,
    From,
}

/// `None` where no year is written, or years on both sides.
fn side_of(year: i32, find: &ReleasedFind) -> Option<Side> {
    match years(find)? {
        (_, last) if last < year => Some(Side::Before),
        (first, _) if first >= year => Some(Side::From),
        _ => None,
    }
}

/// The first and last year of finding, as written; `None` where none is written in four figures.
fn years(find: &ReleasedFind) -> Option<(i32, i32)> {
    let date = find.details.as_ref()?.date.as_ref()?;
    let groups = date.split(|c: char| !c.is_ascii_digit()).filter(|group| group.len() == 4);
    let years = groups.filter_map(|group| group.parse().ok()).filter(|year| (1000..=2999).contains(year));
    years.fold(None, |span: Option<(i32, i32)>, year| {
        Some(span.map_or((year, year), |(first, last)| (first.min(year), last.max(year))))
    })
}
