//! The pack: the same bytes each time, harmless files, nothing overwritten, nothing beyond what was
//! agreed.

use strew::exact::RowState;
use strew::pack::{Pack, Readers};

use super::pack_made::{OFFICE, made, office, office_release, public, public_release, study, text};
use super::pack_tables::rows;

#[test]
fn the_same_bytes_twice() {
    for language in ["en", "fr"] {
        for (one, two) in [(public(language), public(language)), (office(language), office(language))] {
            for (path, bytes) in one.files() {
                assert!(two.files()[path] == *bytes, "{language}: {path} differs from itself");
            }
            assert_eq!(one, two);
        }
    }
}

#[test]
fn the_pack_holds_what_the_agreement_gives() {
    let pack = public("en");
    let paths: Vec<&str> = pack.files().keys().map(String::as_str).collect();
    assert_eq!(
        paths,
        [
            "MANIFEST.json",
            "README.txt",
            "layers/cells.geojson",
            "layers/cells.kml",
            "layers/concentrations.geojson",
            "layers/contours.geojson",
            "layers/density.tif",
            "layers/fields.csv",
            "layers/strew.gpkg",
            "report.html",
            "report.pdf",
            "tables/class-by-period.csv",
            "tables/class-by-period.md",
            "tables/tables.xlsx",
        ]
    );
    let bare = study("en", "[agreement.public]\nprecision = \"1 km\"\ngive = [\"tables\"]\n");
    let pack = made(&bare, &public_release(), |c| strew::pack::compose(c).unwrap());
    assert!(pack.files().keys().all(|path| !path.starts_with("layers/") && !path.starts_with("report")));
}

#[test]
fn every_file_of_an_office_says_not_for_publication() {
    for (language, mark) in [("en", "Not for publication"), ("fr", "Ne pas publier")] {
        let pack = office(language);
        assert_eq!(pack.readers(), Readers::Owner);
        for (path, bytes) in pack.files() {
            // A PDF's words are compressed; its page is made from the same document as the HTML.
            if !path.ends_with(".pdf") {
                let said = String::from_utf8_lossy(bytes).to_lowercase();
                assert!(said.contains(&mark.to_lowercase()), "{path} does not say so");
            }
        }
    }
    assert_eq!(public("en").readers(), Readers::Everyone);
}

#[test]
fn the_manifest_lists_every_file_with_its_checksum() {
    use sha2::Digest as _;
    for pack in [public("en"), office("fr")] {
        let manifest: serde_json::Value = serde_json::from_str(text(&pack, "MANIFEST.json")).unwrap();
        let files = manifest["files"].as_array().unwrap();
        assert_eq!(files.len(), pack.files().len() - 1);
        for file in files {
            let bytes = &pack.files()[file["path"].as_str().unwrap()];
            assert_eq!(file["size"], bytes.len());
            let sum: String = sha2::Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect();
            assert_eq!(file["sha256"], sum);
        }
        let rows = &manifest["rows"];
        let aside: u64 = rows["set_aside"].as_object().unwrap().values().map(|n| n.as_u64().unwrap()).sum();
        assert_eq!(rows["read"].as_u64().unwrap(), rows["used"].as_u64().unwrap() + aside);
    }
}

#[test]
fn the_readme_fits_a_plain_window() {
    for pack in [public("en"), office("fr")] {
        let readme = text(&pack, "README.txt");
        assert!(readme.lines().all(|line| line.chars().count() <= 78));
        assert!(readme.contains("MANIFEST.json"));
    }
}

#[test]
fn the_report_is_one_page_that_fetches_nothing() {
    for language in ["en", "fr"] {
        for (pack, path) in [(public(language), "report.html"), (office(language), "submission.html")] {
            let html = text(&pack, path);
            assert_eq!(html.matches("<h1").count(), 1);
            assert!(html.contains(&format!("<html lang=\"{language}\">")));
            let fetched = regex::Regex::new(r#"(?:src|href|srcset|action)="([^"]*)""#).unwrap();
            for found in fetched.captures_iter(html) {
                assert!(found[1].starts_with('#') || found[1].starts_with("data:"), "{}", &found[1]);
            }
            assert!(!html.contains("url(") && !html.contains("@import") && !html.contains("<script"));
            for image in regex::Regex::new("<(?:img|svg)[^>]*>").unwrap().find_iter(html) {
                let described = regex::Regex::new(r#"alt="[^"]{20,}""#).unwrap();
                assert!(described.is_match(image.as_str()), "a picture without words");
            }
            // Headings step down by one.
            let mut level = 0;
            for found in regex::Regex::new("<h([1-6])").unwrap().captures_iter(html) {
                let next: u32 = found[1].parse().unwrap();
                assert!(next <= level + 1, "h{level} is followed by h{next}");
                level = next;
            }
            // Every table tells what its headings stand over.
            assert_eq!(html.matches("<table>").count(), html.matches("<caption").count());
            assert!(!html.contains("<th>"));
            // A message that was not found would stand there by its name.
            assert!(!regex::Regex::new(r">[^<]*\bpack-[a-z]+-").unwrap().is_match(html));
        }
    }
}

#[test]
fn words_of_the_register_are_no_markup() {
    let office = office("en");
    assert!(!text(&office, "submission.html").contains("<b> &"));
    let public = public("en");
    assert!(text(&public, "report.html").contains("Open fields &amp; houses &lt;near&gt;"));
    assert!(text(&public, "tables/class-by-period.md").contains("=Meso\\|lithic"));
}

/// Where a ledger tells how each row stands to what was given before, every form of the submission says so.
#[test]
fn a_submission_tells_what_is_new_amended_withdrawn_and_unchanged() {
    let mut release = office_release();
    for (find, state) in release.finds.iter_mut().zip(RowState::ALL) {
        if let Some(details) = &mut find.details {
            details.state = Some(state);
        }
    }
    let pack = made(&study("en", OFFICE), &release, |c| strew::pack::submission(c).unwrap());
    let rows = rows(text(&pack, "finds.csv"), b',');
    assert_eq!(rows[0][1], "State");
    let mut states: Vec<&str> = rows[1..].iter().map(|row| row[1].as_str()).collect();
    states.sort_unstable();
    assert_eq!(states, ["amended", "new", "unchanged", "withdrawn"]);
    let html = text(&pack, "submission.html");
    assert!(html.contains("1 new, 1 amended, 1 withdrawn, 1 unchanged."), "the cover counts them");
    assert!(!html.contains("no account was kept"));
    assert!(html.contains("withdrawn</") || html.contains("withdrawn<br"), "each row says its own");
    let untold = rows_of_states(&office("en"));
    assert!(untold.iter().all(String::is_empty), "without a ledger nothing is made up: {untold:?}");
}

fn rows_of_states(pack: &Pack) -> Vec<String> {
    rows(text(pack, "finds.csv"), b',')[1..].iter().map(|row| row[1].clone()).collect()
}

#[test]
fn a_public_pack_says_nothing_that_is_not_shown() {
    // The release holds more than the agreement shows; none of it may come out.
    let mut release = public_release();
    for find in &mut release.finds {
        find.stated_parish = None;
    }
    let study = study(
        "en",
        "[agreement.public]\nprecision = \"1 km\"\nshow = [\"class\"]\ngive = [\"layers\", \"report\", \"tables\", \"finds\"]\n",
    );
    let pack = made(&study, &release, |c| strew::pack::compose(c).unwrap());
    let cells: serde_json::Value = serde_json::from_str(text(&pack, "layers/cells.geojson")).unwrap();
    let shown: Vec<&String> = cells["features"][0]["properties"].as_object().unwrap().keys().collect();
    assert_eq!(shown, ["classes", "reference", "side_m"]);
    let finds = rows(text(&pack, "finds/finds.csv"), b',');
    assert_eq!(
        finds[0],
        [
            "Class",
            "Square",
            "Easting of south-west corner (m)",
            "Northing of south-west corner (m)",
            "Side (m)",
            "Parish"
        ]
    );
}
