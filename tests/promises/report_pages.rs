//! Reports, submissions and tables as readers meet them: in a real browser by the rules of accessibility, by the
//! rules of HTML, and as tagged PDF; in one language and in two.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::LazyLock;

use regex::Regex;

use super::common::{copy, demo, python, root, run};

/// The study in a language, or in two: how its file is changed, and what a reader is told it is in.
const EDITIONS: [(&str, &str, &str); 3] = [
    ("en", "language = \"en\"", "[agreement.AUDIENCE]"),
    ("fr", "language = \"fr\"", "[agreement.AUDIENCE]"),
    ("en,fr", "language = \"en\"", "[agreement.AUDIENCE]\nlanguages = [\"en\", \"fr\"]"),
];

struct Written {
    folder: PathBuf,
    /// HTML pages, in order.
    pages: Vec<PathBuf>,
    /// PDFs, each with the languages that it is in.
    papers: Vec<(PathBuf, &'static str)>,
}

/// The demo's pack, submission and a table in each edition, made once for all tests here.
static WRITTEN: LazyLock<Written> = LazyLock::new(|| {
    // Under the build's folder: what a static holds is never dropped, and so never tidied away.
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("report-pages");
    let _ = std::fs::remove_dir_all(&folder);
    let (mut pages, mut papers) = (Vec::new(), Vec::new());
    for (languages, language, section) in EDITIONS {
        let name = languages.replace(',', "-");
        let study = folder.join(format!("study-{name}"));
        copy(demo().parent().unwrap(), &study);
        let file = study.join("study.toml");
        let mut text = std::fs::read_to_string(&file).unwrap().replacen("language = \"en\"", language, 1);
        for audience in ["public", "office"] {
            let agreement = format!("[agreement.{audience}]");
            text = text.replacen(&agreement, &section.replace("AUDIENCE", audience), 1);
        }
        // A submission prints every find: one of the three registers makes a sheet that is long enough.
        let short = text.replacen("files = [\"finds-*.csv\"]", "files = [\"finds-visitor.csv\"]", 1);
        assert_ne!(short, text);
        let office = study.join("office.toml");
        std::fs::write(&file, text).unwrap();
        std::fs::write(&office, short).unwrap();
        let (file, office) = (file.to_str().unwrap(), office.to_str().unwrap());
        let to = |end: &str| folder.join(format!("{name}/{end}"));
        let went = |arguments: &[&str]| {
            let done = run(arguments);
            assert!(done.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&done.stderr));
        };
        std::fs::create_dir_all(to("")).unwrap();
        went(&["report", file, "--quiet", "--out", to("public").to_str().unwrap()]);
        went(&["submit", office, "--quiet", "--for", "office", "--out", to("office").to_str().unwrap()]);
        let table = to("table.html");
        let rows = ["table", file, "--quiet", "--rows", "parish", "--columns", "period", "--out"];
        went(&[&rows[..], &[table.to_str().unwrap()]].concat());
        pages.extend([to("public/report.html"), to("office/submission.html"), table]);
        papers.extend([(to("public/report.pdf"), languages), (to("office/submission.pdf"), languages)]);
    }
    Written { folder, pages, papers }
});

fn check(script: &str, arguments: impl Iterator<Item = String>) {
    let done = Command::new(python())
        .arg(root().join("tests/reference").join(script))
        .args(arguments)
        .output()
        .expect("Python runs");
    println!("{}", String::from_utf8_lossy(&done.stdout));
    assert!(done.status.success(), "{script}: {}", String::from_utf8_lossy(&done.stderr));
}

#[test]
fn no_rule_of_accessibility_is_broken_in_a_browser() {
    check("pages.py", WRITTEN.pages.iter().map(|page| page.display().to_string()));
}

#[test]
fn every_page_keeps_the_rules_of_html() {
    check("html_rules.py", WRITTEN.pages.iter().map(|page| page.display().to_string()));
}

#[test]
fn every_pdf_is_tagged_as_pdf_ua_asks() {
    let papers = WRITTEN.papers.iter();
    check(
        "pdf_tags.py",
        papers.flat_map(|(path, languages)| [path.display().to_string(), (*languages).to_owned()]),
    );
}

fn read(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap()
}

fn all<'a>(pattern: &str, text: &'a str) -> Vec<&'a str> {
    Regex::new(pattern).unwrap().captures_iter(text).map(|found| found.get(1).unwrap().as_str()).collect()
}

#[test]
fn every_reference_leads_somewhere_and_comes_before_what_it_names() {
    for page in &WRITTEN.pages {
        let html = read(page);
        let html = Regex::new(r#"data:image[^"]*"#).unwrap().replace_all(&html, "data:");
        let mut ids = all(r#" id="([^"]+)""#, &html);
        let count = ids.len();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), count, "{}: two things have one name", page.display());
        for to in all(r##"href="#([^"]+)""##, &html) {
            assert!(ids.binary_search(&to).is_ok(), "{}: #{to} is nowhere", page.display());
        }
        if !page.ends_with("report.html") {
            continue;
        }
        for id in ids.iter().filter(|id| id.starts_with("figure-") || id.starts_with("table-")) {
            let named = html.find(&format!("href=\"#{id}\""));
            let stands = html.find(&format!(" id=\"{id}\"")).unwrap();
            assert!(named.is_some_and(|named| named < stands), "{}: {id} is not introduced", page.display());
        }
        // Sources are numbered as they are first cited, and each leads back.
        let mut cited: Vec<&str> = all(r##"href="#source-(\d+)""##, &html);
        let mut first: Vec<&str> = Vec::new();
        cited.retain(|number| {
            !first.contains(number) && {
                first.push(number);
                true
            }
        });
        let wanted: Vec<String> = (1..=first.len()).map(|n| n.to_string()).collect();
        assert_eq!(first, wanted);
        assert!(first.len() >= 6, "the method rests on something");
        assert_eq!(all(r#"<li id="source-(\d+)""#, &html).len(), first.len());
        assert!(all(r##"class="back" href="#(cite-[^"]+)""##, &html).len() >= first.len());
    }
}

#[test]
fn each_part_of_a_report_in_two_languages_is_marked_with_its_own() {
    let folder = WRITTEN.folder.join("en-fr/public");
    let html = read(&folder.join("report.html"));
    let parts = |language: &str| html.matches(&format!("<div lang=\"{language}\">")).count();
    assert!(parts("en") > 40 && parts("en") == parts("fr"), "{} and {}", parts("en"), parts("fr"));
    // Words that only one of them has stand in a part of it.
    let inside = |language: &str, words: &str| {
        let pattern = format!(r#"(?s)lang="{language}">(?:[^<]|<(?:p|b|a|/b|/a)[^>]*>)*{words}"#);
        assert!(Regex::new(&pattern).unwrap().is_match(&html), "{words} is not marked as {language}");
    };
    inside("en", "Every place was cut");
    inside("fr", "Chaque lieu a été ramené");
    inside("fr", "talon");
    // Each sheet and table is there in both.
    for language in ["en", "fr"] {
        assert!(folder.join(format!("maps/finds-by-cell-{language}.svg")).exists());
        assert!(folder.join(format!("tables/class-by-period-{language}.csv")).exists());
    }
    assert!(!folder.join("maps/finds-by-cell.svg").exists());
    let readme = read(&folder.join("README.txt"));
    assert!(readme.contains("What is here:") && readme.contains("Ce qu’il contient"), "{readme}");
}

#[test]
fn a_table_in_two_languages_tells_its_figures_once() {
    let html = read(&WRITTEN.folder.join("en-fr/public/report.html"));
    let table = all(r#"(?s)id="table-2">(.*?)</table>"#, &html)[0].to_owned();
    let headings = all(r#"(?s)<thead>(.*?)</thead>"#, &table)[0].to_owned();
    assert!(headings.contains("lang=\"en\"") && headings.contains("lang=\"fr\""));
    let alone = read(&WRITTEN.folder.join("en/public/report.html"));
    let alone = all(r#"(?s)id="table-2">(.*?)</table>"#, &alone)[0].to_owned();
    let figures = |table: &str| -> Vec<String> {
        all(r#"<td class="n[^"]*">([^<]*)</td>"#, table)
            .into_iter()
            .map(|figure| figure.replace([',', '\u{202f}'], ""))
            .collect()
    };
    assert!(figures(&table).len() > 20);
    assert_eq!(figures(&table), figures(&alone));
    // No comma that one reader takes for thousands and the other for decimals.
    assert!(!all(r#"<td class="n[^"]*">([^<]*)</td>"#, &table).iter().any(|figure| figure.contains(',')));
}
