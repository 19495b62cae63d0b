//! Command lines drawn out of everything that can be typed. What can be typed is read from what the program says of
//! itself, which is made from `src/cli`: a command, an option or a value that is added there is drawn from then on, and
//! one that these rules cannot draw is named as missing.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use rand::Rng;
use rand::seq::IndexedRandom;
use rand_chacha::ChaCha8Rng;
use regex::Regex;

use super::super::common::{root, run, said};
use super::studies::KEY;

/// Commands that write nothing for an audience, and why the rule does not speak of them.
const EXCEPTED: [(&str, &str); 8] = [
    ("check", "for the register's owner alone"),
    ("convert", "converts places that are typed, and knows no audience"),
    ("coarsen", "cuts places that are typed, and knows no audience"),
    ("new", "for the register's owner alone: writes a study file and knows no agreement"),
    ("ledger", "for the register's owner alone"),
    ("photographs", "opens no register"),
    ("licences", "opens no register"),
    ("help", "opens no register"),
];

/// A command, and what it says can be typed.
pub struct Command {
    pub name: String,
    places: Vec<Entry>,
    options: Vec<Entry>,
}

/// A place or an option of a command line.
struct Entry {
    name: String,
    takes_value: bool,
    /// The only values there are, where they are listed.
    values: Vec<String>,
    default: Option<String>,
}

/// Whom a command line is for, and what there is to name.
pub struct Situation<'a> {
    pub audience: &'a str,
    pub parishes: &'a [String],
}

/// The commands that are drawn, in the order in which the program lists them.
pub fn commands() -> Vec<Command> {
    let name = Regex::new(r"(?m)^  ([a-z][a-z-]*) ").unwrap();
    let help = said(&run(&["--help"])).0;
    let listed = help.split("Commands:").nth(1).and_then(|rest| rest.split("Options:").next()).unwrap();
    let listed: Vec<&str> =
        name.captures_iter(listed).filter_map(|found| Some(found.get(1)?.as_str())).collect();
    for (command, _) in EXCEPTED {
        assert!(listed.contains(&command), "{command} is no command any more");
    }
    let drawn = listed.into_iter().filter(|name| EXCEPTED.iter().all(|(excepted, _)| excepted != name));
    drawn.map(Command::read).collect()
}

impl Command {
    fn read(name: &str) -> Self {
        let help = said(&run(&[name, "-h"])).0;
        let part = |title: &str| -> String {
            let after = help.split(&format!("\n{title}:\n")).nth(1).unwrap_or_default();
            after.split("\n\n").next().unwrap_or_default().to_owned()
        };
        let places = entries(&part("Arguments"), r"(?m)^ {2}[<\[]([A-Z|]+)[>\]](?:\.\.\.)?()");
        let mut options =
            entries(&part("Options"), r"(?m)^ {2}(?:-\w, | {4})--([a-z-]+)( <\S+>)?(?:\.\.\.)?");
        options.retain(|option| option.name != "help");
        assert!(!options.is_empty(), "{name}: {help}");
        Self { name: name.to_owned(), places, options }
    }

    /// Everything of it that is to be drawn at least once: every option, and every value of those that are listed.
    pub fn all(&self) -> BTreeSet<String> {
        let mut all = BTreeSet::new();
        for entry in self.places.iter().chain(&self.options) {
            let name = format!("{} {}", self.name, entry.name);
            all.extend(entry.values.iter().map(|value| format!("{name} {value}")));
            if entry.values.is_empty() {
                all.insert(name);
            }
        }
        all
    }

    /// Draws the command's `nth` line: options and values take turns to be typed, the others come by chance. What is
    /// typed is noted in `drawn`.
    pub fn draw(
        &self,
        random: &mut ChaCha8Rng,
        nth: usize,
        situation: &Situation<'_>,
        drawn: &mut BTreeSet<String>,
    ) -> Vec<String> {
        let mut line = vec![self.name.clone()];
        let mut note = |entry: &Entry, value: Option<&str>| {
            let value = value.filter(|_| !entry.values.is_empty());
            let value = value.map(|value| format!(" {value}")).unwrap_or_default();
            drawn.insert(format!("{} {}{value}", self.name, entry.name));
        };
        for place in &self.places {
            let value = match (place.name.as_str(), place.values.len()) {
                ("STUDY", _) => "study.toml",
                ("PACK", _) => PACK,
                (other, 0) => panic!("{}: {other} cannot be drawn: say in typed.rs how", self.name),
                (_, count) => &place.values[nth % count],
            };
            note(place, Some(value));
            line.push(value.to_owned());
        }
        let turn = nth % self.options.len();
        for (index, option) in self.options.iter().enumerate() {
            // What is made to take long has every third of its turns.
            let slow = SLOW.contains(&option.name.as_str()) && !(nth / self.options.len()).is_multiple_of(3);
            let mine = index == turn && !slow && random.random_bool(0.9);
            if !mine && !random.random_bool(self.chance(option, situation)) {
                continue;
            }
            line.push(format!("--{}", option.name));
            if !option.takes_value {
                note(option, None);
                continue;
            }
            let value = match option.values.len() {
                0 => self.value(random, &option.name, situation),
                count if mine => option.values[(nth / self.options.len()) % count].clone(),
                _ => option.values.choose(random).cloned().unwrap_or_default(),
            };
            note(option, Some(&value));
            line.push(value);
        }
        let tiff = line.iter().any(|word| word.ends_with(".tif"));
        if tiff && !line.iter().any(|word| word == "--dpi") {
            // A picture for print takes long.
            line.extend(["--dpi", "72"].map(str::to_owned));
        }
        line
    }

    /// How often an option is typed out of its turn. Those that rule out others come seldom.
    fn chance(&self, option: &Entry, situation: &Situation<'_>) -> f64 {
        match option.name.as_str() {
            "for" if option.default.as_deref() == Some(situation.audience) => 0.5,
            "for" => 1.0,
            "study" if self.name == "audit" => 1.0,
            "out" => 0.8,
            slow if SLOW.contains(&slow) => 0.0,
            "parish" => 0.05,
            "beside" | "split-year" | "passphrase" | "class" | "period" | "density" => 0.08,
            "each" | "seal-to" | "unsealed" => 0.15,
            _ => 0.35,
        }
    }

    /// A value that is not one of a list.
    fn value(&self, random: &mut ChaCha8Rng, option: &str, situation: &Situation<'_>) -> String {
        let mut one = |of: &[&str]| of.choose(random).map(|value| (*value).to_owned()).unwrap_or_default();
        match (self.name.as_str(), option) {
            (_, "for") => situation.audience.to_owned(),
            (_, "study") => "study.toml".to_owned(),
            (_, "beside") => "beside.toml".to_owned(),
            (_, "office") => one(&["office", "members"]),
            (_, "country") => one(&["scotland", "france", "atlantis"]),
            (_, "class") => one(&["flake", "blade", "arrowhead", "tool", "teapot"]),
            (_, "period") => one(&["mesolithic", "neolithic", "yesterday"]),
            (_, "split-year") => one(&["1975", "2020"]),
            (_, "style") => one(&["colour", "ink", "contrast", "gaudy"]),
            (_, "paper") => one(&["a5", "a4", "figure-column", "90x120", "20x20"]),
            (_, "dpi") => one(&["72", "96", "5"]),
            (_, "parish") => situation.parishes.choose(random).cloned().unwrap_or_default(),
            (_, "seal-to") => one(&[KEY, "key.txt", "study.toml"]),
            (_, "passphrase-file") => "passphrase.txt".to_owned(),
            ("map", "out") => one(&["sheet.svg", "sheet.png", "sheet.pdf", "sheet.tif", "sheet.doc"]),
            ("table", "out") => one(&["table.csv", "table.md", "table.html", "table.xlsx", "table.doc"]),
            ("blank", "out") => one(&["page.pdf", "page.pdf", "page.doc"]),
            ("parish-sheet", "out") => one(&["pages", "pages", "page.pdf"]),
            (_, "out") => one(&["told", "told/inside"]),
            (command, option) => panic!("{command} --{option} cannot be drawn: say in typed.rs how"),
        }
    }
}

/// Options that take long, by design or by what they ask for: typed in their turn alone.
const SLOW: [&str; 2] = ["passphrase-file", "compare-bandwidths"];

/// The folder that `audit` looks into.
pub const PACK: &str = "told";

/// What a part of the help lists.
fn entries(text: &str, head: &str) -> Vec<Entry> {
    let spaces = Regex::new(r"\s+").unwrap();
    let values = Regex::new(r"\[possible values: ([^\]]+)\]").unwrap();
    let default = Regex::new(r"\[default: ([^\]]+)\]").unwrap();
    let text = format!("{text}\n");
    let heads: Vec<_> = Regex::new(head).unwrap().captures_iter(&text).collect();
    let start =
        |index: usize| heads.get(index).and_then(|head| head.get(0)).map_or(text.len(), |all| all.start());
    let read = |index: usize| {
        let about = spaces.replace_all(&text[start(index)..start(index + 1)], " ").into_owned();
        let listed = values.captures(&about).map(|found| found[1].to_owned()).unwrap_or_default();
        Entry {
            name: heads[index][1].to_owned(),
            takes_value: heads[index].get(2).is_some(),
            values: listed.split(", ").filter(|value| !value.is_empty()).map(str::to_owned).collect(),
            default: default.captures(&about).map(|found| found[1].to_owned()),
        }
    };
    (0..heads.len()).map(read).collect()
}

/// The commands that the rule is about are found, with what can be typed; and the program hides nothing that can be
/// typed, so that what it says of itself is all.
#[test]
fn every_command_and_option_is_drawn_from() {
    let commands = commands();
    let found: BTreeMap<&str, &Command> = commands.iter().map(|one| (one.name.as_str(), one)).collect();
    for (command, file, options) in [
        ("map", "map.rs", 14),
        ("table", "table.rs", 6),
        ("density", "density.rs", 5),
        ("concentrations", "density.rs", 4),
        ("shore", "shore.rs", 4),
        ("report", "report.rs", 4),
        ("parish-sheet", "parish.rs", 5),
        ("submit", "submit.rs", 8),
        ("audit", "audit.rs", 4),
        ("blank", "blank.rs", 7),
    ] {
        assert!(found[command].options.len() >= options, "{command}");
        assert!(root().join("src/cli").join(file).exists());
    }
    assert!(found["map"].all().contains("map by concentrations"), "{:?}", found["map"].all());
    // Every file of arguments for an audience is one of a command that is drawn.
    let of_audience = Regex::new(r"common: StudyArguments,|long = .for.").unwrap();
    let about = Regex::new(r"(?s)\nenum Command \{(.*?)\n\}").unwrap();
    let listed = fs::read_to_string(root().join("src/cli/mod.rs")).unwrap();
    let listed = about.captures(&listed).unwrap()[1].to_lowercase();
    for entry in fs::read_dir(root().join("src/cli")).unwrap() {
        let path = entry.unwrap().path();
        let text = fs::read_to_string(&path).unwrap();
        assert!(!Regex::new(r"\bhide\w* *=|hide\(true\)").unwrap().is_match(&text), "{}", path.display());
        let arguments = of_audience.find_iter(&text).count();
        let stem = path.file_stem().unwrap().to_string_lossy().into_owned();
        if arguments == 0 || stem == "console" {
            continue;
        }
        let of_file: Vec<&str> = listed.lines().filter(|line| line.contains(&format!("{stem}::"))).collect();
        assert_eq!(of_file.len(), arguments, "{stem}: {of_file:?}");
        for line in of_file {
            let name = line.trim().split('(').next().unwrap_or_default();
            let of_name = |command: &str| command.replace('-', "") == name;
            let is_drawn = commands.iter().any(|command| of_name(&command.name));
            assert!(
                is_drawn || EXCEPTED.iter().any(|(excepted, _)| of_name(excepted)),
                "{name} writes for an audience and is not drawn"
            );
        }
    }
}
