//! A page as HTML: one file, nothing fetched from anywhere, made to be read on a screen and printed.

use std::fmt::Write;

use super::blocks::{Block, Figure, Page, Picture, Steps, Verdict};
use super::glue::lengths_glued;
use super::table::{Align, Table};
use crate::markup::escaped;

/// Plain on a screen of any width, light or dark; in print black on white, so that any printer will do, a drawing on a page
/// of its own at its true size. On a screen a drawing is not true to its scale, so there it claims none.
const STYLE: &str = "
@page { margin: 12mm; }
:root { color-scheme: light dark; --ink: #000; --paper: #fff; }
body { font: 10pt/1.35 Arial, Helvetica, 'Liberation Sans', sans-serif; color: var(--ink); background: var(--paper); margin: 0 auto; max-width: 186mm; }
h1 { font-size: 16pt; margin: 0 0 1mm; }
h2 { font-size: 1.3em; margin: 1em 0 0.2em; padding-top: 0.15em; border-top: 0.5mm solid; break-after: avoid; }
h3 { font-size: 1em; margin: 0.5em 0 0.1em; break-after: avoid; }
p { margin: 0 0 0.25em; overflow-wrap: break-word; }
ol { margin: 0 0 0.5em; padding-left: 6mm; }
figure { margin: 0 0 1mm; color-scheme: only light; background: #fff; }
.narrow { display: none; }
table { border-collapse: collapse; margin: 0 0 0.4em; break-inside: avoid; }
th, td { padding: 0 0.7em 0 0; text-align: left; vertical-align: top; }
th { border-bottom: 0.25mm solid; }
.n { text-align: right; font-variant-numeric: tabular-nums; }
pre { font: 0.9em/1.15 'Liberation Mono', 'DejaVu Sans Mono', Menlo, Consolas, monospace; margin: 0 0 0.4em; break-inside: avoid; }
.verdict, .caution { font-weight: bold; }
.bad { border: 0.5mm solid; padding: 0.2em 0.4em; }
@media screen {
  body { padding: 0 2mm; display: flex; flex-direction: column; }
  .parts { order: 1; }
  figure { width: min(297mm, 97vw); margin-left: calc(50% - min(148.5mm, 48.5vw)); }
  figure svg { display: block; width: 100%; height: auto; }
  .scale { display: none; }
  pre, table { display: block; max-width: 100%; overflow-x: auto; }
  pre { font-size: min(0.9em, 1.9vw); }
}
@media screen and (max-width: 600px) {
  .wide { display: none; }
  .narrow { display: block; }
  table { font-size: 0.8em; }
  th, td { padding-right: 0.4em; }
}
@media screen and (prefers-color-scheme: dark) { :root { --ink: #eee; --paper: #111; } }
@media print {
  body { max-width: none; font-size: 9pt; line-height: 1.2; }
  figure { break-before: page; margin: 0; overflow: hidden; }
  figure svg { display: block; }
  pre { font-size: 9pt; }
}
";

/// The page as a whole HTML document with `title`.
///
/// It is well-formed XML too. Drawings come last on paper, where each has a page of its own, and over the parts on a screen.
#[must_use]
pub fn html(page: &Page, title: &str) -> String {
    let mut out = String::new();
    // Writing to a string can't fail.
    let _ = write!(
        out,
        "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\" />\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n\
         <title>{title}</title>\n<style>{STYLE}{}</style>\n</head>\n<body>\n<h1>{title}</h1>\n",
        sheets(page),
        title = escaped(title)
    );
    for doubt in &page.remarks.doubts {
        paragraph(&mut out, "note", &format!("Check first: {doubt}"));
    }
    if let Some(verdict) = &page.remarks.verdict {
        out.push_str(&verdict_html(verdict));
    }
    let is_figure = |block: &&Block| matches!(block, Block::Figure(_));
    let (figures, text): (Vec<&Block>, Vec<&Block>) = page.blocks.iter().partition(is_figure);
    let is_part = |block: &&Block| matches!(block, Block::Part(_));
    let (head, parts) = text.split_at(text.iter().position(is_part).unwrap_or(text.len()));
    for block in head {
        block_html(&mut out, block);
    }
    out.push_str("<div class=\"parts\">\n");
    for block in parts {
        block_html(&mut out, block);
    }
    for note in &page.remarks.notes {
        paragraph(&mut out, "note", &format!("Note: {note}"));
    }
    for caution in &page.remarks.cautions {
        paragraph(&mut out, "caution", &format!("Caution: {caution}"));
    }
    out.push_str("</div>\n");
    for figure in figures {
        block_html(&mut out, figure);
    }
    out.push_str("</body>\n</html>\n");
    out
}

/// The pages to print on: for the text the drawings' paper upright, and one for each way that a drawing lies on it. A hair less
/// than the paper, or a blank page follows.
fn sheets(page: &Page) -> String {
    let pictures = page.blocks.iter().filter_map(|block| match block {
        Block::Figure(figure) => figure.picture.as_ref(),
        _ => None,
    });
    let mut known: Vec<&str> = vec![];
    let mut out = String::new();
    for Picture { paper, size: (width, height), .. } in pictures {
        if !known.contains(&paper.as_str()) {
            known.push(paper);
            let _ = writeln!(
                out,
                "@page {name} {{ size: {paper}; margin: 0; }}\n\
                 @media print {{ .{name} {{ page: {name}; width: {width}mm; height: {}mm; }} }}",
                height - 0.5,
                name = name(paper),
            );
        }
    }
    let text = known.first().and_then(|paper| paper.split(' ').next()).unwrap_or("A4");
    format!("@page {{ size: {text}; }}\n{out}")
}

/// The paper as a name in the style sheet.
fn name(paper: &str) -> String {
    paper.replace(' ', "-")
}

fn block_html(out: &mut String, block: &Block) {
    match block {
        Block::Part(text) => line(out, "h2", text),
        Block::Verdict(verdict) => out.push_str(&verdict_html(verdict)),
        Block::Heading(text) => line(out, "h3", text),
        Block::Paragraph(text) => line(out, "p", text.trim()),
        Block::Fact(name, what) => {
            let _ = writeln!(out, "<p><b>{}:</b> {}</p>", held(name), held(what));
        }
        Block::Table(table) => table_html(out, table),
        Block::Lines(lines) => {
            let text = lines.iter().map(|line| escaped(line)).collect::<Vec<_>>().join("\n");
            let _ = writeln!(out, "<pre>{text}</pre>");
        }
        Block::Figure(Figure { picture: Some(picture), .. }) => {
            let _ = writeln!(
                out,
                "<figure class=\"{}\">\n<div class=\"wide\">\n{}</div>",
                name(&picture.paper),
                picture.svg
            );
            if let Some(narrow) = &picture.narrow {
                let _ = writeln!(out, "<div class=\"narrow\">\n{narrow}</div>");
            }
            out.push_str("</figure>\n");
        }
        Block::Figure(Figure { text, picture: None }) => {
            for block in text {
                block_html(out, block);
            }
        }
        Block::Steps(steps) => steps_html(out, steps),
    }
}

/// A text whose lengths are not broken over two lines.
fn held(text: &str) -> String {
    escaped(&lengths_glued(text))
}

fn line(out: &mut String, tag: &str, text: &str) {
    let _ = writeln!(out, "<{tag}>{}</{tag}>", held(text));
}

fn paragraph(out: &mut String, class: &str, text: &str) {
    let _ = writeln!(out, "<p class=\"{class}\">{}</p>", held(text));
}

/// Never by colour alone: a bad one stands in a box.
fn verdict_html(verdict: &Verdict) -> String {
    let class = if verdict.good { "verdict" } else { "verdict bad" };
    let mut out = String::new();
    paragraph(&mut out, class, &verdict.words);
    out
}

fn table_html(out: &mut String, table: &Table) {
    out.push_str("<table>\n<thead><tr>");
    let class = |i: usize| match table.columns.get(i).map(|column| column.align) {
        Some(Align::Right) => " class=\"n\"",
        _ => "",
    };
    for (i, column) in table.columns.iter().enumerate() {
        let _ = write!(out, "<th scope=\"col\"{}>{}</th>", class(i), held(&column.head));
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for row in &table.rows {
        out.push_str("<tr>");
        for (i, cell) in row.iter().enumerate() {
            let _ = write!(out, "<td{}>{}</td>", class(i), held(cell));
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody>\n</table>\n");
}

fn steps_html(out: &mut String, steps: &Steps) {
    line(out, "h3", &steps.title);
    out.push_str("<ol>\n");
    for step in &steps.steps {
        line(out, "li", step);
    }
    out.push_str("</ol>\n");
}
