//! Tables of a pack: no spreadsheet runs what a register says, and each language has its marks.

use super::pack_made::{office, public, text};

/// The cells of a CSV file.
pub(super) fn rows(csv: &str, delimiter: u8) -> Vec<Vec<String>> {
    let body = csv.strip_prefix('\u{feff}').expect("a byte-order mark");
    csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .has_headers(false)
        .from_reader(body.as_bytes())
        .records()
        .map(|row| row.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

#[test]
fn no_spreadsheet_runs_what_a_register_says() {
    let (public, office) = (public("en"), office("en"));
    for (pack, path) in
        [(&public, "tables/class-by-period.csv"), (&office, "finds.csv"), (&office, "fieldwork.csv")]
    {
        for row in rows(text(pack, path), b',') {
            for cell in row {
                let first = cell.chars().next().unwrap_or(' ');
                assert!(!"=+-@\t\r\n".contains(first), "{path}: {cell:?} would be run");
            }
        }
    }
    // A workbook's text is text: no cell holds a formula.
    let mut archive =
        zip::ZipArchive::new(std::io::Cursor::new(&public.files()["tables/tables.xlsx"])).unwrap();
    for index in 0..archive.len() {
        let mut file = archive.by_index(index).unwrap();
        if file.name().starts_with("xl/worksheets/") {
            let mut sheet = String::new();
            std::io::Read::read_to_string(&mut file, &mut sheet).unwrap();
            assert!(!sheet.contains("<f>") && !sheet.contains("<f "));
        }
    }
}

#[test]
fn csv_goes_by_language() {
    let english = rows(text(&public("en"), "tables/class-by-period.csv"), b',');
    assert_eq!(english[1], ["'=1+1", "1234", "12.5"]);
    assert!(text(&public("en"), "tables/class-by-period.csv").contains("\r\n"), "RFC 4180 line ends");
    let french = rows(text(&public("fr"), "tables/class-by-period.csv"), b';');
    assert_eq!(french[1], ["'=1+1", "1234", "12,5"]);
}

#[test]
fn finds_stand_in_the_order_of_their_numbers() {
    let rows = rows(text(&office("en"), "finds.csv"), b',');
    let numbers: Vec<&str> = rows[1..].iter().map(|row| row[0].as_str()).collect();
    assert_eq!(numbers, ["1b", "2", "3", "10"]);
    let at = |heading: &str| rows[0].iter().position(|name| name == heading).unwrap();
    assert_eq!(rows[1][at("Easting of south-west corner (m)")], "552120");
    assert_eq!(rows[1][at("Northing of south-west corner (m)")], "541050");
    assert_eq!(rows[3][at("Square")], "", "a find known by its parish has no square");
    assert_eq!(rows[3][at("Parish")], "Southby");
    assert_eq!(rows[2][at("Marks of human work")], "striking platform; bulb of percussion");
}
