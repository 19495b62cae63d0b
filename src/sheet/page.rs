//! One map page, step by step.

use super::base::{self, Base, GroundLine, extent, ground_and_cells};
use super::canvas::{Canvas, MM};
use super::inset::Inset;
use super::labels::Labels;
use super::layout::{Block, Heading, Item, MAPS_SHARE, Plan, rank};
use super::north::North;
use super::paper::Paper;
use super::style::Style;
use super::themes::{Theme, theme};
use super::view::{Extent, View};
use super::{MapKind, Scene, Sheet, furniture, heights, notes};
use crate::coordinates::convergence_deg;
use crate::fault::{Fault, Result};
use crate::study::SheetSettings;
use crate::study::vocabulary::Term;
use crate::words::Words;

impl MapKind {
    /// The file name of its sheet, the same in every language.
    pub fn file_name(self) -> &'static str {
        match self {
            Self::Cells => "finds-by-cell",
            Self::Parishes => "finds-by-parish",
            Self::Symbols => "classes-and-periods",
            Self::Density => "density",
            Self::Concentrations => "concentrations",
            Self::Ladder => "ladder",
        }
    }
}

/// Whether there are a style and a paper of the names in the settings: asked before the long work.
pub fn known_looks(settings: &SheetSettings) -> Result<()> {
    Style::named(&settings.style).map_err(|fault| fault.in_column("sheets.style"))?;
    Paper::named(&settings.paper).map_err(|fault| fault.in_column("sheets.paper"))?;
    Ok(())
}

/// Draws one map. `style` and `paper` are names (see `styles/`); `None` takes the study's.
pub fn map(kind: MapKind, scene: &Scene<'_>, style: Option<&str>, paper: Option<&str>) -> Result<Sheet> {
    // Of ground alone, not even the reach of the map may turn on the finds.
    let nothing = if kind == MapKind::Ladder { scene.published.parted(1, |_| None) } else { Vec::new() };
    let ground = nothing.first().map(|published| Scene { published, parishes: &[], ..*scene });
    let scene = ground.as_ref().unwrap_or(scene);
    let study = scene.study;
    let words = Words::of(study.language);
    // Counts by parish and densities come ready made, of all finds together.
    if (scene.class.is_some() || scene.period.is_some()) && !matches!(kind, MapKind::Cells | MapKind::Symbols)
    {
        return Err(Fault::new("sheet-all-together").with("map", kind.file_name()));
    }
    let paper = Paper::named(paper.unwrap_or(&study.sheets.paper))?;
    let style =
        Style::named(style.unwrap_or(&study.sheets.style))?.for_paper(paper.width_mm.min(paper.height_mm));
    let theme = theme(kind, scene, &style, words)?;
    let title = title(kind, scene, words);
    let extent = extent(scene);
    let (east, north) = ((extent.west_m + extent.east_m) / 2.0, (extent.south_m + extent.north_m) / 2.0);
    let draw = |theme: &dyn Theme| {
        let page = Page {
            scene,
            words,
            paper,
            style: &style,
            theme,
            title: &title,
            extent,
            lines: base::lines_drawn(scene, theme.base_names(), extent),
            // Where the middle cannot be carried to degrees, grid north alone is told.
            north: North {
                convergence_deg: convergence_deg(&scene.ground.system, east, north).ok(),
                star: paper.width_mm.min(paper.height_mm) >= 100.0,
            },
            nothing: ground_and_cells(scene).is_none(),
        };
        page.draw(kind)
    };
    with_room(theme.as_ref(), &draw)
}

/// Draws a theme, or where the paper is too small for its key the same with a shorter one.
fn with_room(theme: &dyn Theme, draw: &dyn Fn(&dyn Theme) -> Result<Sheet>) -> Result<Sheet> {
    match (draw(theme), theme.shorter()) {
        (Err(Fault { id: "sheet-paper-too-small", .. }), Some(shorter)) => with_room(shorter.as_ref(), draw),
        (drawn, _) => drawn,
    }
}

/// "Finds by square: scraper, Late Neolithic".
pub(super) fn title(kind: MapKind, scene: &Scene<'_>, words: &Words) -> String {
    let language = scene.study.language;
    let kind = words.say(&format!("sheet-kind-of-map-{}", kind.file_name()));
    let only: Vec<String> = [scene.class.map(|c| c.label(language)), scene.period.map(|p| p.label(language))]
        .into_iter()
        .flatten()
        .collect();
    if only.is_empty() {
        kind
    } else {
        words.say_with("sheet-only", &[("kind", kind.into()), ("only", only.join(", ").into())])
    }
}

struct Page<'a> {
    scene: &'a Scene<'a>,
    words: &'static Words,
    paper: Paper,
    style: &'a Style,
    theme: &'a (dyn Theme + 'a),
    title: &'a str,
    extent: Extent,
    /// Lines of the ground that the map draws.
    lines: Vec<GroundLine>,
    north: North,
    /// The study gives no ground, and no find has a square.
    nothing: bool,
}

impl<'a> Page<'a> {
    /// The blocks of the panel at a scale.
    fn blocks(&self, view: &View) -> Vec<Block<'a>> {
        let mut blocks = self.theme.legend(view, self.style, self.words);
        blocks.extend(base::lines_key(&self.lines, self.style, self.words));
        if !self.nothing {
            // A ratio holds only on the paper that it was drawn for.
            let ratio = self.paper.named;
            blocks.push(furniture::scale_and_north(*view, self.style, self.words, ratio, self.north));
        }
        let cautions = self.theme.cautions(view, self.style, self.words);
        let shown = self.theme.of_finds().then(|| self.theme.shown(view));
        blocks.extend(notes::blocks(self.scene, self.words, shown, &cautions));
        let relief = self.scene.ground.relief.as_ref().filter(|_| self.style.relief.contour.is_some());
        let relief = relief.filter(|_| !self.theme.covers_land());
        let interval = relief.and_then(|relief| heights::interval_m(relief, view));
        let sources = blocks.iter_mut().find(|block| block.id == "sources");
        if let (Some(interval), Some(sources)) = (interval, sources) {
            let interval = [("interval", self.words.number(interval, 0).into())];
            sources
                .items
                .push(Item::Lesser(rank::MAKING, self.words.say_with("sheet-contours-every", &interval)));
        }
        if let Some(inset) = Inset::new(self.scene, self.style, *view) {
            match inset.corner() {
                Some(_) => blocks.push(notes::around_block(inset.words(self.words))),
                None => blocks.push(inset.block(self.words)),
            }
        }
        blocks
    }

    fn heading(&self, view: &View) -> Heading {
        let detail = self.theme.detail(view, self.words);
        let heading = notes::heading(self.scene.study, self.words, self.title, &detail);
        // A journal's figure has its title in the caption.
        let title_rank = if self.paper.named { 0 } else { rank::READING };
        Heading { title_rank, detail_rank: self.theme.detail_rank(), ..heading }
    }

    /// The legend depends on the scale, and the scale on the room that the legend leaves: a few rounds
    /// settle it.
    fn settle(&self) -> Result<(Plan, View)> {
        let (width, height) = (self.paper.width_mm, self.paper.height_mm);
        let guess = super::canvas::Rect::new(0.0, 0.0, width * 80.0, height * 60.0);
        let mut view = View::new(guess, self.extent);
        let mut extent = self.extent;
        let mut last = None;
        // Blocks are measured for the very view that they are drawn with only when the rounds came to rest: after
        // a few the scale is not made finer again.
        for round in 0..12 {
            let finest = if round < 4 { 0.0 } else { view.unit_m };
            let plan = self.plan(&view, extent)?;
            view = View::new(plan.frame, extent).no_finer_than(finest, extent);
            if let Some(reach) = self.theme.reach(&view) {
                extent = extent.with(reach);
                view = View::new(plan.frame, extent).no_finer_than(finest, extent);
            }
            if last.as_ref() == Some(&(plan.clone(), view)) {
                break;
            }
            last = Some((plan, view));
        }
        last.ok_or_else(|| Fault::new("sheet-picture").with("why", "no plan"))
    }

    fn plan(&self, view: &View, extent: Extent) -> Result<Plan> {
        Plan::best(self.paper, self.style, &self.heading(view), &self.blocks(view), extent, MAPS_SHARE)
    }

    fn draw(&self, kind: MapKind) -> Result<Sheet> {
        let (plan, view) = self.settle()?;
        let (scene, style, words) = (self.scene, self.style, self.words);
        let mut canvas = Canvas::new(plan.page.0, plan.page.1);
        let base = Base::new(scene, style, view);
        let base = if self.theme.covers_land() { base.without_relief() } else { base.with_contours() };
        let mut labels = Labels::new(view.frame);
        canvas.map("map", &view, |canvas| {
            if self.nothing {
                return furniture::nothing(canvas, &view, style, words);
            }
            base.under(canvas);
            self.theme.under(canvas, &base);
            base.over(canvas, self.theme.base_names());
            furniture::grid_crosses(canvas, &view, style);
            if let Some(inset) = Inset::new(scene, style, view)
                && let Some(corner) = inset.corner()
            {
                inset.draw(canvas, corner);
                labels.take(corner.grown(MM));
            }
            self.theme.over(canvas, &base, &mut labels);
            base.names(&mut labels, self.theme.base_names());
            labels.draw(canvas);
        });
        furniture::frame(&mut canvas, &view, style, words, !self.nothing);
        let blocks = self.blocks(&view);
        let heading = self.heading(&view);
        plan.draw(&mut canvas, style, &heading, &blocks);
        let description = self.description(&heading, &view, labels.left_out, plan.left_out());
        Ok(canvas.sheet(kind.file_name(), self.title.to_owned(), description, scene.study))
    }

    /// What the sheet shows, for those who cannot see it.
    fn description(
        &self,
        heading: &Heading,
        view: &View,
        names_left_out: usize,
        words_left_out: bool,
    ) -> String {
        let words = self.words;
        let shown = self.theme.shown(view);
        let mut parts: Vec<String> = heading.warning.iter().cloned().collect();
        parts.push(heading.detail.clone());
        if self.theme.of_finds() {
            parts.push(words.say_with("sheet-shown", &[("n", shown.pieces.into())]));
        }
        if words_left_out {
            parts.push(words.say("sheet-notes-left-out"));
        }
        if names_left_out > 0 {
            parts.push(words.say_with("sheet-names-left-out", &[("n", names_left_out.into())]));
        }
        parts.join(" ")
    }
}
