//! `check`: reads everything, private ground too, and says what was set aside, what is doubtful and what
//! each audience would be shown. For the register's owner alone.

use std::collections::BTreeMap;
use std::path::Path;

use serde_json::{Value as Json, json};

use super::Progress;
use crate::exact::{FileShape, Matter, Problem, Problems, Register, Release, ReleasedPlace, Tally};
use crate::fault::Result;
use crate::ground::{Ground, Partition};
use crate::study::{Study, land_key};
use crate::units::Length;
use crate::words::{Language, Value, Words};

/// What a check found.
pub struct Checked {
    /// The language of the study.
    pub language: Language,
    /// The report, to be read.
    pub text: String,
    /// The report, for machines.
    pub json: Json,
    /// Rows set aside.
    pub set_aside: u64,
}

/// Checks a study; `audience` decides which ground is in reach and how far squares grow.
pub fn check(path: &Path, audience: &str, progress: &dyn Progress) -> Result<Checked> {
    progress.step("step-study");
    let study = Study::load(path)?;
    let language = study.language();
    checked(&study, audience, progress).map_err(|fault| fault.said_in(language))
}

fn checked(study: &Study, audience: &str, progress: &dyn Progress) -> Result<Checked> {
    // A study without a public audience is checked for its first.
    let first = study.audiences().next().unwrap_or(audience);
    let audience = if audience == "public" && study.audience(audience).is_err() { first } else { audience };
    let public = study.audience(audience)?;
    crate::sheet::known_looks(&public.sheets)?;
    progress.step("step-ground");
    let ground = Ground::read_with_private(public, &study.private)?;
    let partition = Partition::fix(public, &ground)?;
    progress.step("step-register");
    let mut register = Register::read(study)?;
    progress.step("step-release");
    let shown =
        study.audiences().map(|name| Shown::to(&register, study, name)).collect::<Result<Vec<_>>>()?;
    let tally = register.check_on_ground(public, &ground, &partition)?;
    let language = study.language();
    let (shapes, problems) = (register.shapes(), register.problems());
    let agreements = agreements(study, register.lands().show_owner(), Words::of(language))?;
    let report = Report {
        agreements: &agreements,
        words: Words::of(language),
        language,
        audience,
        shapes: shapes.show_owner(),
        problems: problems.show_owner(),
        tally: &tally,
        shown: &shown,
    };
    Ok(Checked { language, text: report.text(), json: report.json(), set_aside: tally.set_aside_total() })
}

/// What one audience would be shown.
struct Shown {
    audience: String,
    precision: String,
    finds: u64,
    pieces: u64,
    /// Finds by the side of their square, metres; 0 stands for a parish.
    by_side: BTreeMap<u32, u64>,
}

impl Shown {
    fn to(register: &Register, study: &Study, audience: &str) -> Result<Self> {
        let public = study.audience(audience)?;
        let ground = Ground::read(public, &study.private.root)?;
        let partition = Partition::fix(public, &ground)?;
        let Release { finds, .. } = register.release(public, &partition)?;
        let mut by_side = BTreeMap::new();
        for find in &finds {
            let side = match find.place {
                ReleasedPlace::Cell(cell) => cell.side_m,
                ReleasedPlace::Parish(_) => 0,
            };
            *by_side.entry(side).or_default() += 1;
        }
        Ok(Self {
            audience: audience.to_owned(),
            precision: public.agreement.precision.to_string(),
            finds: finds.len() as u64,
            pieces: finds.iter().map(|find| u64::from(find.count)).sum(),
            by_side,
        })
    }
}

/// The audiences that commands take unless told otherwise.
const USUAL: [&str; 2] = ["public", "office"];

/// What may be wrong with the agreements: a name that is nearly a usual one, land that no row is off. `lands` are those
/// of the register, by name as names are compared.
fn agreements(study: &Study, lands: &BTreeMap<String, String>, words: &Words) -> Result<Vec<String>> {
    /// Two words alike but for a letter or two.
    const NEAR: f64 = 0.85;
    let near = |word: &str, known: &[&str]| -> Option<String> {
        let likely = known
            .iter()
            .map(|one| (strsim::damerau_levenshtein(word, one), strsim::jaro_winkler(word, one), one));
        let likely = likely.filter(|(steps, likeness, _)| *steps > 0 && *steps <= 3 && *likeness > NEAR);
        likely.min_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1))).map(|(_, _, one)| (*one).to_owned())
    };
    let known: Vec<&str> = lands.keys().map(String::as_str).collect();
    let mut told = Vec::new();
    for name in study.audiences() {
        let missing: Vec<&str> = USUAL.into_iter().filter(|usual| study.audience(usual).is_err()).collect();
        if let Some(nearest) = near(name, &missing) {
            let values = [("audience", name.into()), ("nearest", nearest.into())];
            told.push(words.say_with("check-audience-near", &values));
        }
        for land in &study.audience(name)?.agreement.landowner {
            let key = land_key(land);
            if lands.contains_key(&key) {
                continue;
            }
            let nearest = near(&key, &known).and_then(|key| lands.get(&key).cloned());
            let mut values = vec![("audience", name.into()), ("land", land.clone().into())];
            told.push(match nearest {
                Some(nearest) => {
                    values.push(("nearest", nearest.into()));
                    words.say_with("check-land-near", &values)
                }
                None => {
                    let hint = words.hint("check-land-unknown", &values).unwrap_or_default();
                    format!("{}. {hint}", words.say_with("check-land-unknown", &values))
                }
            });
        }
    }
    Ok(told)
}

/// All that is said, before it is said.
struct Report<'a> {
    words: &'static Words,
    language: Language,
    audience: &'a str,
    shapes: &'a [FileShape],
    problems: &'a Problems,
    tally: &'a Tally,
    /// Doubts about the agreements themselves.
    agreements: &'a [String],
    shown: &'a [Shown],
}

impl Report<'_> {
    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.words.say_with(id, values)
    }

    fn number(&self, number: u64) -> String {
        self.words.number(number as f64, 0)
    }

    fn text(&self) -> String {
        let mut out = String::new();
        self.files(&mut out);
        self.problems(&mut out);
        if !self.agreements.is_empty() {
            line(&mut out, &self.say("check-agreements", &[]));
            self.agreements.iter().for_each(|told| line(&mut out, &format!("  {told}")));
            out.push('\n');
        }
        self.totals(&mut out);
        out
    }

    /// How each file was understood.
    fn files(&self, out: &mut String) {
        for shape in self.shapes {
            line(out, &file_told("check-file", shape, self.words));
            if shape.heading_row == 0 {
                out.push('\n');
                continue;
            }
            if shape.decimal_comma {
                line(out, &format!("  {}", self.say("check-decimal-comma", &[])));
            }
            if let Some(system) = &shape.system {
                line(
                    out,
                    &format!("  {}", self.say("check-system", &[("system", system.to_string().into())])),
                );
            }
            let understood: Vec<String> = shape
                .columns
                .iter()
                .filter_map(|(heading, field)| Some(format!("\"{heading}\" → {}", (*field)?.name())))
                .collect();
            let not = not_understood(shape, self.words);
            line(
                out,
                &format!("  {}", self.say("check-understood", &[("list", understood.join(", ").into())])),
            );
            if !not.is_empty() {
                line(out, &format!("  {}", self.say("check-not-understood", &[("list", not.into())])));
            }
            out.push('\n');
        }
    }

    /// Every row set aside, then every doubt, kind by kind.
    fn problems(&self, out: &mut String) {
        let mut by_matter: BTreeMap<Matter, Vec<&Problem>> = BTreeMap::new();
        for problem in self.problems.listed() {
            by_matter.entry(problem.matter).or_default().push(problem);
        }
        let mut part = None;
        for (matter, count) in self.problems.counts() {
            let set_aside = matches!(matter, Matter::SetAside(_));
            if part != Some(set_aside) {
                part = Some(set_aside);
                line(out, &self.say(if set_aside { "check-set-aside" } else { "check-doubts" }, &[]));
                out.push('\n');
            }
            let id = matter.message();
            line(out, &format!("{} × {}", self.number(*count), self.words.say(&id)));
            if let Some(hint) = self.words.hint(&id, &[]) {
                line(out, &format!("  {hint}"));
            }
            let listed = by_matter.get(matter).map_or(&[][..], Vec::as_slice);
            let mut said = None;
            for problem in listed {
                // What was said of the row before need not be said again.
                self.problem(problem, said != Some(problem.detail.as_ref()), out);
                said = Some(problem.detail.as_ref());
            }
            let more = count - listed.len() as u64;
            if more > 0 {
                line(out, &format!("    {}", self.say("check-more", &[("n", more.into())])));
            }
            out.push('\n');
        }
    }

    fn problem(&self, problem: &Problem, with_detail: bool, out: &mut String) {
        let mut text = format!(
            "{}, {}",
            self.file(problem),
            self.say("spot-row", &[("row", problem.row.to_string().into())])
        );
        if let Some(column) = &problem.column {
            text.push_str(", ");
            text.push_str(&self.say("spot-column", &[("column", column.clone().into())]));
        }
        if let Some(written) = &problem.text {
            text = self.say("check-problem", &[("spot", text.into()), ("written", one_line(written).into())]);
        }
        line(out, &format!("    {text}"));
        if let Some(detail) = problem.detail.as_ref().filter(|_| with_detail) {
            line(out, &format!("      {}", detail.text(self.language)));
            if let Some(hint) = detail.hint(self.language) {
                line(out, &format!("      {hint}"));
            }
        }
    }

    fn file(&self, problem: &Problem) -> &str {
        self.shapes.get(problem.file as usize).map_or("", |shape| shape.name.as_str())
    }

    fn totals(&self, out: &mut String) {
        for shown in self.shown {
            let sides: Vec<String> = shown
                .by_side
                .iter()
                .map(|(side, finds)| {
                    let finds = self.number(*finds);
                    match side {
                        0 => self.say("check-by-parish", &[("finds", finds.into())]),
                        _ => {
                            let side = Length { metres: f64::from(*side) }.to_string();
                            self.say("check-in-squares", &[("finds", finds.into()), ("side", side.into())])
                        }
                    }
                })
                .collect();
            line(
                out,
                &self.say(
                    "check-audience",
                    &[
                        ("audience", shown.audience.clone().into()),
                        ("precision", shown.precision.clone().into()),
                        ("finds", self.number(shown.finds).into()),
                        ("pieces", self.number(shown.pieces).into()),
                        ("sides", sides.join(", ").into()),
                    ],
                ),
            );
        }
        out.push('\n');
        let doubts: u64 = self
            .problems
            .counts()
            .iter()
            .filter(|(m, _)| matches!(m, Matter::Doubt(_)))
            .map(|(_, n)| n)
            .sum();
        line(out, &self.say("check-doubts-total", &[("n", doubts.into())]));
        line(
            out,
            &self.say(
                "check-total",
                &[
                    ("audience", self.audience.into()),
                    ("read", self.number(self.tally.read).into()),
                    ("used", self.number(self.tally.used).into()),
                    ("aside", self.number(self.tally.set_aside_total()).into()),
                ],
            ),
        );
        line(out, &self.say("check-rows-as-spreadsheet", &[]));
    }

    fn json(&self) -> Json {
        let files: Vec<Json> = self
            .shapes
            .iter()
            .map(|shape| {
                let columns: Vec<Json> = shape
                    .columns
                    .iter()
                    .map(|(heading, field)| json!({ "heading": heading, "field": field.map(|f| f.name()) }))
                    .collect();
                json!({
                    "file": shape.name,
                    "encoding": shape.encoding,
                    "separator": kind_of_file(shape).is_none().then(|| shape.delimiter.to_string()),
                    "decimal_comma": shape.decimal_comma,
                    "heading_row": shape.heading_row,
                    "last_row": shape.last_row,
                    "system": shape.system.as_ref().map(ToString::to_string),
                    "columns": columns,
                })
            })
            .collect();
        let problems: Vec<Json> = self
            .problems
            .listed()
            .iter()
            .map(|problem| {
                let id = problem.matter.message();
                let (kind, name) = match problem.matter {
                    Matter::SetAside(reason) => ("set-aside", reason.name()),
                    Matter::Doubt(doubt) => ("doubt", doubt.name()),
                };
                let detail = problem.detail.as_ref();
                let hint = detail.and_then(|d| d.hint(self.language)).or_else(|| self.words.hint(&id, &[]));
                json!({
                    "file": self.file(problem),
                    "row": problem.row,
                    "column": problem.column,
                    "kind": kind,
                    "reason": name,
                    "message": detail.map_or_else(|| self.words.say(&id), |d| d.text(self.language)),
                    "hint": hint,
                    "text": problem.text,
                })
            })
            .collect();
        let audiences: Vec<Json> = self
            .shown
            .iter()
            .map(|shown| {
                let squares: Vec<Json> = shown
                    .by_side
                    .iter()
                    .filter(|(side, _)| **side > 0)
                    .map(|(side, finds)| json!({ "side_m": side, "finds": finds }))
                    .collect();
                json!({
                    "audience": shown.audience,
                    "precision": shown.precision,
                    "finds": shown.finds,
                    "pieces": shown.pieces,
                    "by_square": squares,
                    "by_parish": shown.by_side.get(&0).copied().unwrap_or(0),
                })
            })
            .collect();
        let doubts: BTreeMap<&str, u64> = self
            .problems
            .counts()
            .iter()
            .filter_map(|(matter, count)| match matter {
                Matter::Doubt(doubt) => Some((doubt.name(), *count)),
                Matter::SetAside(_) => None,
            })
            .collect();
        json!({
            "audience": self.audience,
            "agreements": self.agreements,
            "tally": self.tally,
            "doubts": doubts,
            "files": files,
            "problems": problems,
            "not_listed": self.problems.unlisted(),
            "audiences": audiences,
        })
    }
}

/// A cell on one line, and not for ever.
fn one_line(text: &str) -> String {
    const MOST: usize = 160;
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if text.chars().count() <= MOST {
        return text;
    }
    text.chars().take(MOST).chain(['…']).collect()
}

fn line(out: &mut String, text: &str) {
    out.push_str(text);
    out.push('\n');
}

/// How a file was understood: its separator where it has one, its headings where there are any. `id` is that of the
/// message for a text table.
pub(super) fn file_told(id: &'static str, shape: &FileShape, words: &Words) -> String {
    let book = kind_of_file(shape).map(|id| words.say(id));
    let separator = match shape.delimiter {
        '\t' => words.say("check-tab"),
        other => format!("\"{other}\""),
    };
    let values = [
        ("file", shape.name.clone().into()),
        ("encoding", book.clone().unwrap_or_else(|| shape.encoding.to_owned()).into()),
        ("separator", separator.into()),
        ("heading", Value::Text(words.number(shape.heading_row as f64, 0))),
        ("last", Value::Text(words.number(shape.last_row as f64, 0))),
    ];
    match (shape.heading_row, book) {
        (0, _) => words.say_with("check-file-passed-over", &values),
        (_, Some(_)) => words.say_with(&format!("{id}-book"), &values),
        (_, None) => words.say_with(id, &values),
    }
}

/// What a file that is no text table is called: a spreadsheet's own, or waypoints.
fn kind_of_file(shape: &FileShape) -> Option<&'static str> {
    match shape.encoding {
        "spreadsheet" => Some("check-encoding-spreadsheet"),
        "GPX" => Some("check-encoding-waypoints"),
        _ => None,
    }
}

/// Headings that nothing was made of, each with the field that it may be meant for.
pub(super) fn not_understood(shape: &FileShape, words: &Words) -> String {
    let told = shape.unused().map(|(heading, near)| match near {
        Some(field) => words
            .say_with("check-heading-near", &[("heading", heading.into()), ("field", field.name().into())]),
        None => format!("\"{heading}\""),
    });
    told.collect::<Vec<_>>().join(", ")
}
