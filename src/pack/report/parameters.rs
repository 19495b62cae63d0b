//! Every setting that the figures depend on, as a table: who has the same register and these can repeat them.

use super::capital;
use crate::analyse::{Table, Value as Cell};
use crate::coordinates::{Converter, System};
use crate::exact::Figure;
use crate::pack::Contents;
use crate::pack::document::Builder;
use crate::pack::fieldwork::percent;
use crate::pack::manifest::{length, precision};
use crate::study::{Bound, EdgeCorrection, Effort, Giving, Prominence};
use crate::words::Words;

/// The table's name.
pub(super) const NAME: &str = "settings";

struct Rows {
    words: &'static Words,
    rows: Vec<Vec<Cell>>,
    /// What the settings added next belong to.
    part: String,
}

impl Rows {
    fn part(&mut self, id: &str) {
        self.part = self.words.say(id);
    }

    fn add(&mut self, id: &str, value: impl Into<String>) {
        let row = [self.words.say(id), capital(&value.into()), self.part.clone()];
        self.rows.push(row.into_iter().map(Cell::Text).collect());
    }

    fn count(&mut self, id: &str, n: u64) {
        let told = self.words.number(n as f64, 0);
        self.add(id, told);
    }

    fn figure(&mut self, id: &str, figure: Figure) {
        let told = match figure.exact() {
            Some(pieces) => self.words.number(pieces as f64, 0),
            None => self.words.range(figure.least, figure.most),
        };
        self.add(id, told);
    }

    fn metres(&mut self, id: &str, metres: f64) {
        let told = length(self.words, metres);
        self.add(id, told);
    }
}

/// Adds the table.
pub(super) fn parameters(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let mut rows = Rows { words, rows: Vec::new(), part: String::new() };
    places(&mut rows, contents);
    if contents.surface.is_some() {
        density(&mut rows, contents);
    }
    if contents.gives(Giving::Concentrations) && contents.study.agreement.precision.side_m().is_some() {
        concentrations(&mut rows, contents);
    }
    if let Some(profile) = contents.shore {
        rows.part("pack-part-shore");
        rows.metres("pack-fact-tolerance", profile.simplify_m);
        rows.metres("pack-fact-stretch", contents.study.shore.stretch_m);
        rows.metres("pack-fact-within", contents.study.shore.within_m);
    }
    rows.part("pack-part-program");
    rows.add("pack-fact-program", format!("{} {}", env!("CARGO_PKG_NAME"), env!("CARGO_PKG_VERSION")));
    rows.add("pack-fact-libraries", format!("GDAL {}", gdal::version::VersionInfo::release_name()));
    let headings = ["pack-settings-name", "pack-settings-value", "pack-settings-part"];
    page.table(&Table {
        name: NAME.to_owned(),
        title: words.say("pack-settings-title"),
        headings: headings.map(|id| words.say(id)).to_vec(),
        rows: rows.rows,
        totals: None,
        notes: Vec::new(),
    });
}

fn places(rows: &mut Rows, contents: &Contents<'_>) {
    let agreement = &contents.study.agreement;
    rows.part("pack-part-places");
    rows.add("pack-fact-grid", super::grid_name(contents));
    // Finds come in many systems, each by its own operation, told where the finds are; degrees are the commonest.
    if let Ok(way) = Converter::new(&System::Wgs84, &agreement.grid) {
        let operation = way.operation();
        rows.add("pack-fact-operation", operation.description);
        if let Some(accuracy) = operation.accuracy_m {
            rows.metres("pack-fact-accuracy", accuracy);
        }
    }
    rows.add("pack-fact-precision", precision(contents, agreement.precision));
    rows.count("pack-fact-smallest-count", u64::from(agreement.smallest_count));
}

fn density(rows: &mut Rows, contents: &Contents<'_>) {
    let Some(surface) = contents.surface else { return };
    let words = rows.words;
    let made = &surface.made;
    rows.part("pack-part-density");
    rows.add("pack-fact-kernel", words.say("pack-method-kernel"));
    rows.metres("pack-fact-bandwidth", surface.bandwidth_m.round());
    rows.add("pack-fact-bandwidth-choice", words.say(surface.bandwidth_method));
    if (made.kernel.east_m - made.kernel.north_m).abs() > 0.5 || made.kernel.lean != 0.0 {
        let axes = [("east", made.kernel.east_m), ("north", made.kernel.north_m)]
            .map(|(name, metres)| (name, length(words, metres.round()).into()));
        rows.add("pack-fact-bandwidth-axes", words.say_with("pack-fact-bandwidth-axes-value", &axes));
    }
    if let Some(varying) = made.varying {
        rows.metres("pack-fact-pilot", varying.pilot_m.round());
    }
    rows.add(
        "pack-fact-edge",
        words.say(match made.edge {
            EdgeCorrection::Diggle => "pack-edge-diggle",
            EdgeCorrection::Uniform => "pack-edge-uniform",
            EdgeCorrection::None => "pack-edge-none",
        }),
    );
    rows.add(
        "pack-fact-per",
        words.say(match made.effort {
            Effort::None => "pack-per-land",
            Effort::Walked => "pack-per-walked",
            Effort::Covered => "pack-per-covered",
        }),
    );
    rows.metres("pack-fact-pixel", surface.pixel_m);
    rows.figure("pack-fact-density-pieces", surface.pieces_told());
    for (id, left) in [
        ("pack-fact-left-out-of-place", surface.left_out_of_place),
        ("pack-fact-left-by-parish", surface.left_out_by_parish),
        ("pack-fact-left-by-setting", made.left_by_setting),
        ("pack-fact-left-off-land", made.left_off_land),
        ("pack-fact-left-unwalked", made.left_unwalked),
    ] {
        if !left.is_nothing() {
            rows.figure(id, left);
        }
    }
}

fn concentrations(rows: &mut Rows, contents: &Contents<'_>) {
    let settings = &contents.study.concentrations;
    let words = rows.words;
    rows.part("pack-part-concentrations");
    match settings.bound {
        Bound::Share => rows.add("pack-fact-share", percent(words, settings.share)),
        Bound::Envelope { simulations, level, pointwise } => {
            rows.add(
                "pack-fact-bound",
                words.say(if pointwise { "pack-bound-pointwise" } else { "pack-bound-global" }),
            );
            rows.count("pack-fact-simulations", u64::from(simulations));
            rows.add("pack-fact-level", words.number(level, if level < 0.01 { 3 } else { 2 }));
        }
    }
    match settings.prominence {
        Prominence::OfPeak(share) => rows.add("pack-fact-prominence", percent(words, share)),
        Prominence::PerHectare(pieces) => rows.add("pack-fact-prominence-density", words.number(pieces, 1)),
    }
    rows.count("pack-fact-smallest", u64::from(settings.smallest));
    rows.count("pack-fact-resamples", u64::from(settings.resamples));
    // A seed is a name, not a quantity: no thousands are set off.
    rows.add("pack-fact-seed", settings.seed.to_string());
}
