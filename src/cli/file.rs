//! What a file is to hold, by the ending of its name.

use std::path::Path;

use super::failure::Failure;

/// Endings that something here is written for.
const WRITTEN: [&str; 4] = ["json", "csv", "svg", "html"];

/// Endings of files that nothing here is written for, and what to write instead.
const FOREIGN: [(&[&str], &str); 3] = [
    (
        &["pdf", "doc", "docx", "odt", "rtf"],
        "name it .txt or, for a sheet, .html, which a browser prints to PDF",
    ),
    (&["xls", "xlsx", "ods"], "name it .csv, which a spreadsheet opens"),
    (
        &["png", "jpg", "jpeg", "gif", "dxf", "dwg", "eps", "ps"],
        "a drawing is written as .svg by `pegline sketch`",
    ),
];

/// The ending of a file's name where it says what the file holds; one that nothing here can be in is refused.
pub(super) fn ending(path: &Path) -> Result<Option<&'static str>, Failure> {
    let Some(ending) = path.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase)
    else {
        return Ok(None);
    };
    if let Some((_, instead)) = FOREIGN.iter().find(|(endings, _)| endings.contains(&ending.as_str())) {
        return Err(Failure::input(format!(
            "-o {}: nothing here is written as .{ending}: {instead}",
            path.display()
        )));
    }
    let ending = if ending == "htm" { "html" } else { &ending };
    Ok(WRITTEN.into_iter().find(|known| *known == ending))
}
