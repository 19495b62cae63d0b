//! Tables as CSV, Markdown and HTML. The workbook is in `workbook`.

use super::{Contents, Pack, handling, workbook};
use crate::analyse::{Table, Value};
use crate::fault::Result;
use crate::study::PublicStudy;
use crate::words::{Language, Words};

/// Adds every table as CSV and Markdown, and all of them in one workbook.
pub(super) fn add(pack: &mut Pack, contents: &Contents<'_>, ending: &str) -> Result<()> {
    for table in contents.tables {
        pack.add(format!("tables/{}{ending}.csv", table.name), csv(table, contents.study));
        pack.add(format!("tables/{}{ending}.md", table.name), markdown(table, contents.study));
    }
    if !contents.tables.is_empty() {
        pack.add(format!("tables/tables{ending}.xlsx"), workbook(contents.tables, contents.study)?);
    }
    Ok(())
}

/// A table as CSV (RFC 4180) in UTF-8 with a byte-order mark, without which spreadsheets misread
/// accents and dashes. Comma and decimal point, or semicolon and decimal comma, as the study says.
/// What is not for publication says so in a column of its own, so that machines still read the file.
pub fn csv(table: &Table, study: &PublicStudy) -> Vec<u8> {
    let words = Words::of(study.language);
    // Spreadsheets split columns where the language of the machine has it: French ones at semicolons.
    let comma = study.tables.decimal_comma.unwrap_or(study.language == Language::French);
    let (delimiter, point) = if comma { (b';', ",") } else { (b',', ".") };
    let mut writer = csv::WriterBuilder::new()
        .delimiter(delimiter)
        .terminator(csv::Terminator::CRLF)
        .flexible(true)
        .from_writer(b"\xef\xbb\xbf".to_vec());
    let heading = words.say("pack-column-handling");
    let marked = handling(study).filter(|_| table.headings.iter().all(|name| *name != heading));
    let plain = |value: &Value| match value {
        Value::Empty => String::new(),
        Value::Text(text) => harmless(text),
        Value::Whole(n) => n.to_string(),
        Value::Number(n, decimals) => format!("{n:.decimals$}").replace('.', point),
    };
    // Nothing can fail: rows may differ in length, and what is written to is memory.
    let headings = table.headings.iter().map(|text| harmless(text));
    let _ = writer.write_record(headings.chain(marked.as_ref().map(|_| heading.clone())));
    for row in table.rows.iter().chain(&table.totals) {
        let _ = writer.write_record(row.iter().map(plain).chain(marked.clone()));
    }
    writer.into_inner().unwrap_or_default()
}

/// Text that no spreadsheet runs: a cell that begins like a formula is led by an apostrophe
/// (the usual remedy, as OWASP describes it under "CSV injection").
fn harmless(text: &str) -> String {
    let text = text.replace('\0', "");
    let runs = |c: char| matches!(c, '=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '＝' | '＋' | '－' | '＠');
    if text.trim_start_matches(' ').starts_with(runs) { format!("'{text}") } else { text }
}

/// A table as Markdown, with its title above and its notes below.
pub fn markdown(table: &Table, study: &PublicStudy) -> String {
    let words = Words::of(study.language);
    let line = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    let mut out = format!("**{}**\n\n", plain_markdown(&table.title));
    if let Some(mark) = handling(study) {
        out.push_str(&format!("{}\n\n", plain_markdown(&mark)));
    }
    out.push_str(&line(table.headings.iter().map(|text| plain_markdown(text)).collect()));
    let rule = (0..table.headings.len())
        .map(|column| if is_figures(table, column) { "--:".to_owned() } else { ":--".to_owned() });
    out.push_str(&line(rule.collect()));
    for row in &table.rows {
        out.push_str(&line(row.iter().map(|value| plain_markdown(&said(value, words))).collect()));
    }
    if let Some(totals) = &table.totals {
        let bold = |value: &Value| match said(value, words) {
            text if text.is_empty() => text,
            text => format!("**{}**", plain_markdown(&text)),
        };
        out.push_str(&line(totals.iter().map(bold).collect()));
    }
    for note in &table.notes {
        out.push_str(&format!("\n{}\n", plain_markdown(note)));
    }
    out
}

/// Text in which Markdown sees nothing of its own.
fn plain_markdown(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\n' | '\r' => out.push(' '),
            '|' | '\\' | '`' | '*' | '_' | '[' | ']' | '#' => out.extend(['\\', c]),
            '<' => out.push_str("&lt;"),
            '&' => out.push_str("&amp;"),
            c => out.push(c),
        }
    }
    out
}

/// A table as a whole HTML page.
pub fn html_page(table: &Table, study: &PublicStudy) -> Vec<u8> {
    let mark = handling(study).map(|mark| {
        let mark = escape(&mark);
        format!("<aside aria-label=\"{mark}\"><p class=\"mark\">{mark}</p></aside>\n")
    });
    format!(
        "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{} – {}</title>\n<style>\n{}</style>\n</head>\n<body>\n{}<main><section>\n<h1>{}</h1>\n\
         <div class=\"wide scroll\" role=\"region\" aria-labelledby=\"caption\" tabindex=\"0\">\n{}</div>\n{}</section></main>\n</body>\n</html>\n",
        study.language.code(),
        escape(&table.title),
        escape(&study.title),
        include_str!("report/page.css"),
        mark.unwrap_or_default(),
        escape(&study.title),
        html(table, Words::of(study.language)),
        table.notes.iter().map(|note| format!("<p class=\"note\">{}</p>\n", escape(note))).collect::<String>(),
    )
    .into_bytes()
}

/// A table as an HTML fragment: caption, column and row headings with their scope.
fn html(table: &Table, words: &Words) -> String {
    let figures: Vec<bool> = (0..table.headings.len()).map(|column| is_figures(table, column)).collect();
    let class = |column: usize| if figures.get(column) == Some(&true) { " class=\"n\"" } else { "" };
    let mut out = format!("<table>\n<caption id=\"caption\">{}</caption>\n<thead><tr>", escape(&table.title));
    for (column, heading) in table.headings.iter().enumerate() {
        // A heading without words heads nothing.
        match heading.is_empty() {
            true => out.push_str("<td></td>"),
            false => out.push_str(&format!("<th scope=\"col\"{}>{}</th>", class(column), escape(heading))),
        }
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    let row = |values: &[Value]| {
        let mut out = String::from("<tr>");
        for (column, value) in values.iter().enumerate() {
            let (open, close) = if column == 0 { ("th scope=\"row\"", "th") } else { ("td", "td") };
            let text = escape(&said(value, words));
            out.push_str(&format!("<{open}{}>{text}</{close}>", class(column)));
        }
        out.push_str("</tr>\n");
        out
    };
    for values in &table.rows {
        out.push_str(&row(values));
    }
    out.push_str("</tbody>\n");
    if let Some(totals) = &table.totals {
        out.push_str(&format!("<tfoot>\n{}</tfoot>\n", row(totals)));
    }
    out.push_str("</table>\n");
    out
}

/// Text for HTML and XML.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}

/// A value for people.
pub(super) fn said(value: &Value, words: &Words) -> String {
    match value {
        Value::Empty => String::new(),
        Value::Text(text) => text.clone(),
        Value::Whole(n) => words.number(*n as f64, 0),
        Value::Number(n, decimals) => words.number(*n, *decimals),
    }
}

/// Whether a column holds figures (or bands of them) and is set flush right. The first holds labels.
pub(super) fn is_figures(table: &Table, column: usize) -> bool {
    let figure = |value: &Value| match value {
        Value::Empty => true,
        Value::Text(text) => {
            text.chars().all(|c| c.is_ascii_digit() || matches!(c, '–' | '+' | '-' | ' ' | '.' | ','))
        }
        Value::Whole(_) | Value::Number(..) => true,
    };
    let values = table.rows.iter().chain(&table.totals).filter_map(|row| row.get(column));
    column > 0 && values.clone().all(figure) && values.clone().any(|value| *value != Value::Empty)
}
