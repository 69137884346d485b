//! Practice sheets as one HTML file to be printed on A4: a sheet a pupil with squared space to work in, or the key.

use std::fmt::Write;

use super::blank::unit_after;
use crate::markup::escaped;
use crate::page::unbroken;
use crate::practice::{Answered, Answers, Class, Pupil, Question, Sheet};

/// Black on white whatever the reader's theme; a question never breaks across a page, a pupil's sheet begins on a new one.
const STYLE: &str = "
:root { color-scheme: only light; }
@page { size: A4; margin: 12mm 15mm; }
body { font: 9.5pt/1.3 Arial, Helvetica, 'Liberation Sans', sans-serif; color: #000; background: #fff; margin: 0 auto; max-width: 180mm; }
section + section { break-before: page; }
h1 { font-size: 10pt; font-weight: normal; margin: 0 0 2mm; }
h2 { font-size: 10pt; margin: 0; break-after: avoid; }
p { margin: 0 0 1mm; }
.head { display: flex; gap: 4mm; margin: 0 0 2mm; font-size: 11pt; }
.head span, .fill span { flex: 1; border-bottom: 0.25mm solid #000; }
.head .short, .fill span { flex: 0 0 28mm; }
.question { break-inside: avoid; margin: 0 0 3mm; }
.work { display: flex; gap: 5mm; align-items: stretch; }
.work svg { flex: 1; height: 25mm; min-width: 0; border: 0.2mm solid #999; box-sizing: border-box; }
.fill { display: flex; gap: 2mm; flex-wrap: wrap; margin: 1.5mm 0 0; font-weight: bold; }
.fill span { margin-right: 1mm; }
.fill b { display: flex; gap: 2mm; white-space: nowrap; }
.fill i { font-style: normal; font-weight: normal; margin-right: 6mm; }
pre { font: 7.5pt/1.05 'Liberation Mono', 'DejaVu Sans Mono', Menlo, Consolas, monospace; margin: 0; }
.key { columns: 2; column-gap: 8mm; font-size: 8.5pt; }
.key ol { margin: 0; padding-left: 6mm; }
@media (max-width: 600px) { .key { columns: 1; } .work { flex-wrap: wrap; } }
";

/// Five-millimetre squares, drawn once and used for every question's space.
const SQUARES: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"0\" height=\"0\" style=\"position:absolute\">\
    <defs><pattern id=\"squares\" width=\"5mm\" height=\"5mm\" patternUnits=\"userSpaceOnUse\">\
    <path d=\"M0 0h18.9v18.9\" fill=\"none\" stroke=\"#999\" stroke-width=\"0.6\"/></pattern></defs></svg>\n";

/// A sheet for each pupil.
#[must_use]
pub fn paper_sheets(class: &Class<Sheet>) -> String {
    let mut body = SQUARES.to_owned();
    for pupil in &class.sheets {
        sheet(&mut body, pupil);
    }
    document("Practice", &body)
}

/// The key: each pupil's answers, with the sketches and the working.
#[must_use]
pub fn paper_key(class: &Class<Answers>) -> String {
    let mut body = String::new();
    for pupil in &class.sheets {
        key(&mut body, pupil);
    }
    document("Practice: answers", &body)
}

fn document(title: &str, body: &str) -> String {
    format!(
        "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\" />\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n\
         <title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n{body}</body>\n</html>\n"
    )
}

fn line(out: &mut String, tag: &str, text: &str) {
    // Writing to a string can't fail.
    let _ = writeln!(out, "<{tag}>{}</{tag}>", escaped(&unbroken(text)));
}

fn sheet(out: &mut String, pupil: &Pupil<Sheet>) {
    let sheet = &pupil.sheet;
    out.push_str("<section>\n");
    line(out, "h1", &sheet.ask.to_string());
    let name = escaped(&pupil.name);
    let _ = writeln!(
        out,
        "<p class=\"head\">Name <span>{name}</span> Date <span class=\"short\"></span> Score \
         <span class=\"short\"></span> of {}</p>",
        sheet.questions.len()
    );
    line(out, "p", sheet.rule);
    for one in &sheet.questions {
        question(out, one, sheet);
    }
    out.push_str("</section>\n");
}

fn question(out: &mut String, question: &Question, sheet: &Sheet) {
    out.push_str("<div class=\"question\">\n");
    line(out, "h2", &format!("Question {}", question.number));
    line(out, "p", &question.given);
    line(out, "p", &question.asked);
    out.push_str("<div class=\"work\">\n");
    sketch(out, &question.sketch);
    out.push_str(
        "<svg xmlns=\"http://www.w3.org/2000/svg\"><rect width=\"100%\" height=\"100%\" fill=\"url(#squares)\"/>\
         </svg>\n</div>\n<p class=\"fill\">",
    );
    for blank in &question.blanks {
        let unit = unit_after(blank, sheet.ask.units);
        let _ = write!(out, "<b>{} = <span></span><i>{unit}</i></b> ", escaped(&blank.label));
    }
    out.push_str("</p>\n</div>\n");
}

/// The plan in characters, if there is one.
fn sketch(out: &mut String, lines: &[String]) {
    if !lines.is_empty() {
        let rows: Vec<String> = lines.iter().map(|row| escaped(row.get(4..).unwrap_or(row))).collect();
        let _ = writeln!(out, "<pre>{}</pre>", rows.join("\n"));
    }
}

fn key(out: &mut String, pupil: &Pupil<Answers>) {
    out.push_str("<section>\n");
    let head = pupil.sheet.ask.to_string();
    line(out, "h1", &if pupil.name.is_empty() { head } else { format!("{}. {head}", pupil.name) });
    out.push_str("<div class=\"key\">\n");
    for question in &pupil.sheet.questions {
        answered(out, question);
    }
    out.push_str("</div>\n</section>\n");
}

fn answered(out: &mut String, question: &Answered) {
    out.push_str("<div class=\"question\">\n");
    line(out, "h2", &format!("Question {}", question.number));
    line(out, "p", &question.given);
    line(out, "p", &question.asked);
    sketch(out, &question.sketch);
    out.push_str("<ol>\n");
    for step in &question.working {
        line(out, "li", step);
    }
    out.push_str("</ol>\n");
    for blank in &question.blanks {
        let _ =
            writeln!(out, "<p><b>{} = {}</b></p>", escaped(&blank.label), escaped(&unbroken(&blank.text)));
    }
    out.push_str("</div>\n");
}
