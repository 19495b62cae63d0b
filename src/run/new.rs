//! `new`: looks at register files, guesses their columns, and composes a study file to edit.

use std::fmt::Write as _;
use std::path::{Component, Path, PathBuf};

use serde_json::{Value as Json, json};

use super::check::{file_told, not_understood};
use crate::coordinates::System;
use crate::exact::{Field, Guess, guess};
use crate::fault::{Fault, Result};
use crate::words::{Language, Value, Words};

/// A study file, composed and not yet written.
pub struct NewStudy {
    /// Where it goes.
    pub path: PathBuf,
    /// What stands in it.
    pub toml: String,
    /// What was guessed, to be read.
    pub told: String,
    /// What was guessed, for machines.
    pub json: Json,
    /// The language of the headings.
    pub language: Language,
}

/// Looks at `files` and composes `FOLDER/study.toml`. A study file that is there already is refused.
pub fn new_study(folder: &Path, files: &[PathBuf]) -> Result<NewStudy> {
    let path = folder.join("study.toml");
    if path.exists() {
        return Err(Fault::new("new-exists").with("path", path.display()));
    }
    let mut guesses = Vec::new();
    let mut paths = Vec::new();
    for file in files {
        let shown = file.display().to_string().replace('\\', "/");
        let looked = guess(file, &shown)?;
        guesses.push(looked.show_owner().clone());
        paths.push(from_folder(folder, file));
    }
    let french = guesses.iter().any(|guess| guess.french);
    let language = if french { Language::French } else { Language::English };
    let draft = Draft { words: Words::of(language), language, guesses: &guesses, paths: &paths, folder };
    Ok(NewStudy { path, toml: draft.toml(), told: draft.told(), json: draft.json(), language })
}

struct Draft<'a> {
    words: &'static Words,
    language: Language,
    guesses: &'a [Guess],
    paths: &'a [String],
    folder: &'a Path,
}

impl Draft<'_> {
    fn say(&self, id: &str, values: &[(&str, Value)]) -> String {
        self.words.say_with(id, values)
    }

    /// The grid that the study works in, as far as the files tell.
    fn grid(&self) -> System {
        let stated = self.guesses.iter().find_map(|guess| guess.shape.system.clone());
        match stated.filter(|system| *system != System::Wgs84) {
            Some(system) => system,
            None if self.guesses.iter().any(|guess| guess.letters) => System::BritishGrid,
            None if self.language == Language::French => System::Lambert93,
            None => System::BritishGrid,
        }
    }

    fn title(&self) -> String {
        self.guesses.iter().find_map(|guess| guess.title.clone()).unwrap_or_else(|| {
            let name = std::path::absolute(self.folder).unwrap_or_else(|_| self.folder.to_path_buf());
            name.file_name().map_or_else(|| "Finds".to_owned(), |name| name.to_string_lossy().into_owned())
        })
    }

    /// The study file. It loads as it stands, and shows no more than 1 km until it is edited.
    fn toml(&self) -> String {
        let mut out = String::new();
        let files: Vec<String> = self.paths.iter().map(|path| quoted(path)).collect();
        self.comment("new-toml-head", &mut out);
        let _ = writeln!(out, "[study]\ntitle = {}", quoted(&self.title()));
        self.comment("new-toml-grid", &mut out);
        let _ = writeln!(out, "grid = {}", quoted(&self.grid().to_string()));
        let _ = writeln!(out, "language = {}", quoted(self.language.code()));
        self.comment("new-toml-date", &mut out);
        let _ = writeln!(out, "# date = 2026-10-01\n\n[register]\nfiles = [{}]", files.join(", "));
        self.comment("new-toml-system", &mut out);
        let _ = writeln!(out, "# system = {}\n", quoted(&self.grid().to_string()));
        self.columns(&mut out);
        self.comment("new-toml-ground", &mut out);
        out.push_str(GROUND);
        self.comment("new-toml-public", &mut out);
        out.push_str(
            "[agreement.public]\nprecision = \"1 km\"\n# smallest_area = \"0.5 km2\"\n# reason = \"\"\n\n",
        );
        self.comment("new-toml-stricter", &mut out);
        out.push_str("# [[agreement.public.stricter]]\n# class = [\"arrowhead\", \"axehead\", \"dagger\"]\n# precision = \"2 km\"\n\n");
        self.comment("new-toml-office", &mut out);
        out.push_str("[agreement.office]\nprecision = \"1 km\"\n# recipient = \"\"\n");
        out
    }

    /// What each heading was taken for, as comments: named columns count for every file, and headings
    /// differ from file to file.
    fn columns(&self, out: &mut String) {
        self.comment("new-toml-columns", out);
        out.push_str("# [register.columns]\n");
        for (guess, path) in self.guesses.iter().zip(self.paths) {
            let _ = writeln!(out, "# {}", one_line(path));
            for field in Field::ALL {
                for (heading, _) in guess.shape.columns.iter().filter(|(_, taken)| taken == &Some(*field)) {
                    let _ = writeln!(out, "#   {} = {}", field.name(), quoted(heading));
                }
            }
            let unused = not_understood(&guess.shape, self.words);
            if !unused.is_empty() {
                let list = self.say("new-toml-unused", &[("list", one_line(&unused).into())]);
                let _ = writeln!(out, "#   {list}");
            }
        }
        out.push('\n');
    }

    fn comment(&self, id: &str, out: &mut String) {
        for line in self.words.say(id).lines() {
            let _ = writeln!(out, "# {line}");
        }
    }

    /// What was guessed, file by file.
    fn told(&self) -> String {
        let mut out = String::new();
        for guess in self.guesses {
            let shape = &guess.shape;
            let _ = writeln!(out, "{}", file_told("new-file", shape, self.words));
            for (heading, field) in &shape.columns {
                if let Some(field) = field {
                    let _ = writeln!(out, "  \"{heading}\" → {}", field.name());
                }
            }
            let unused = not_understood(&guess.shape, self.words);
            if !unused.is_empty() {
                let _ = writeln!(out, "  {}", self.say("check-not-understood", &[("list", unused.into())]));
            }
            if !placed(guess) {
                let _ = writeln!(out, "  {}", self.words.say("new-no-place"));
            }
        }
        let _ = writeln!(out, "{}", self.say("new-grid", &[("grid", self.grid().to_string().into())]));
        out
    }

    fn json(&self) -> Json {
        let files: Vec<Json> = self
            .guesses
            .iter()
            .map(|guess| {
                let columns: Vec<Json> = guess
                    .shape
                    .columns
                    .iter()
                    .map(|(heading, field)| json!({ "heading": heading, "field": field.map(|f| f.name()) }))
                    .collect();
                json!({
                    "file": guess.shape.name,
                    "encoding": guess.shape.encoding,
                    "separator": guess.shape.delimiter.to_string(),
                    "decimal_comma": guess.shape.decimal_comma,
                    "heading_row": guess.shape.heading_row,
                    "columns": columns,
                })
            })
            .collect();
        json!({ "grid": self.grid().to_string(), "language": self.language.code(), "files": files })
    }
}

const GROUND: &str = "# [ground]
# parishes = { file = \"ground/parishes.geojson\", name = \"name\" }
# land     = { file = \"ground/land.geojson\" }
# shore    = { file = \"ground/shore.geojson\" }
# walked   = { file = \"ground/walked.geojson\", public = false }

";

/// Whether some column tells where finds lay.
fn placed(guess: &Guess) -> bool {
    let places = [Field::Place, Field::Easting, Field::Latitude, Field::Parish];
    guess.shape.columns.iter().any(|(_, field)| field.is_some_and(|field| places.contains(&field)))
}

/// A string as TOML writes it.
fn quoted(text: &str) -> String {
    toml::Value::String(one_line(text)).to_string()
}

fn one_line(text: &str) -> String {
    text.split(|c: char| c.is_control()).collect::<Vec<_>>().join(" ")
}

/// The path of `file` as seen from `folder`, with `/`.
fn from_folder(folder: &Path, file: &Path) -> String {
    let whole = |path: &Path| {
        let absolute = std::path::absolute(path).unwrap_or_else(|_| path.to_path_buf());
        let mut parts: Vec<Component<'_>> = Vec::new();
        for part in absolute.components() {
            match part {
                Component::ParentDir if matches!(parts.last(), Some(Component::Normal(_))) => {
                    parts.pop();
                }
                part => parts.push(part),
            }
        }
        parts.iter().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect::<Vec<_>>()
    };
    let (folder, file) = (whole(folder), whole(file));
    let shared = folder.iter().zip(&file).take_while(|(a, b)| a == b).count();
    let up = std::iter::repeat_n("..", folder.len() - shared);
    up.chain(file[shared..].iter().map(String::as_str)).collect::<Vec<_>>().join("/")
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::from_folder;

    #[test]
    fn files_are_named_from_the_folder() {
        assert_eq!(from_folder(Path::new("/a/study"), Path::new("/a/study/finds.csv")), "finds.csv");
        assert_eq!(
            from_folder(Path::new("/a/study"), Path::new("/a/x/../lists/finds.csv")),
            "../lists/finds.csv"
        );
        assert_eq!(from_folder(Path::new("study"), Path::new("finds.csv")), "../finds.csv");
    }
}
