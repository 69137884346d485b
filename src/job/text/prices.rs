//! A price list in a file of its own: JSON, or CSV as a spreadsheet saves it.

use schemars::schema_for;

use super::cells::{cell_column, cells};
use super::read::{nowhere, read_as};
use super::{JobFileError, LARGEST_FILE, Place, locate};
use crate::job::sections::{MOST_PRICES, PriceEntry};
use crate::job::{DecimalEntry, Fault, Faults, LengthEntry, MoneyEntry};
use crate::words::{nearest, quoted};

/// The columns that a price list in CSV may have; `item` and `rate` it must have.
pub const PRICE_COLUMNS: [&str; 9] =
    ["item", "size", "unit", "pack", "rate", "waste_percent", "markup_percent", "tax_percent", "available"];

/// The columns of [`PRICE_COLUMNS`] that must be there.
const NEEDED: [&str; 2] = ["item", "rate"];

/// A price list as read, and where in its text each price stands.
#[derive(Debug, Clone, PartialEq)]
pub struct PriceFile {
    /// The prices, in the order they stand.
    pub entries: Vec<PriceEntry>,
    places: Places,
}

#[derive(Debug, Clone, PartialEq)]
enum Places {
    Json(String),
    Csv(Sheet),
}

/// Where the prices of a CSV text stand.
#[derive(Debug, Clone, PartialEq)]
struct Sheet {
    /// The line of each price, from 1, and its text.
    rows: Vec<(usize, String)>,
    /// What stands in each column.
    columns: Vec<Option<&'static str>>,
    delimiter: char,
}

impl PriceFile {
    /// Where a fault of the field at `path` below the list (`[3].rate`) stands: its place, and the column's name in CSV.
    #[must_use]
    pub fn place(&self, path: &str) -> (Place, Option<String>) {
        match &self.places {
            Places::Json(text) => (locate(text, path), None),
            Places::Csv(sheet) => {
                let index = path.split(['[', ']']).nth(1).and_then(|index| index.parse().ok());
                let column = path.rsplit('.').next().unwrap_or_default();
                let row = index.and_then(|index: usize| sheet.rows.get(index));
                let place = row.map_or_else(Place::whole_text, |(line, text)| {
                    Place::on_line(*line, sheet.column(text, column), text)
                });
                (place, PRICE_COLUMNS.contains(&column).then(|| column.to_owned()))
            }
        }
    }
}

impl Sheet {
    /// Where on its line the cell of `column` starts, in characters from 1.
    fn column(&self, text: &str, column: &str) -> usize {
        let place = self.columns.iter().position(|known| *known == Some(column));
        place.map_or(1, |place| cell_column(text, place, self.delimiter))
    }
}

/// Reads a price list: JSON if it begins with a bracket, else CSV with commas, semicolons or tabs between its columns.
///
/// In CSV the first line names the columns; lines without anything in them are passed over. Every fault is told.
pub fn read_prices(text: &str) -> Result<PriceFile, JobFileError> {
    // Spreadsheets put a byte-order mark before UTF-8.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.len() > LARGEST_FILE {
        return Err(nowhere(format!("the price list is over {LARGEST_FILE} bytes (1 MiB), the most taken")));
    }
    match text.trim_start().chars().next() {
        None => Err(nowhere(format!(
            "the price list is empty: write its columns' names on the first line ({}), then a price a line",
            PRICE_COLUMNS.join(",")
        ))),
        Some('[') => Ok(PriceFile {
            entries: read_as(text, "the list's closing ]", || schema_for!(Vec<PriceEntry>))?,
            places: Places::Json(text.to_owned()),
        }),
        Some('{') => Err(nowhere(
            "this is one JSON object: a price list is a list of them, from [ to ], or CSV".to_owned(),
        )),
        Some(_) => csv(text),
    }
}

/// What is known of a CSV text while it is read.
struct Reading {
    faults: Faults<(Fault, Place)>,
    lines: Vec<String>,
    delimiter: char,
}

impl Reading {
    /// A fault on a line, from 1, in the cell at `cell`, from 0.
    fn add(&mut self, line: usize, cell: usize, column: &str, message: String) {
        let text = self.lines.get(line.saturating_sub(1)).map_or("", String::as_str);
        self.faults.push(|| {
            let place = Place::on_line(line, cell_column(text, cell, self.delimiter), text);
            (Fault::new(column, message), place)
        });
    }
}

fn csv(text: &str) -> Result<PriceFile, JobFileError> {
    let head = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let count = |byte: u8| head.bytes().filter(|b| *b == byte).count();
    // The last of equals is taken, so the comma is put last.
    let delimiter = [b'\t', b';', b','].into_iter().max_by_key(|byte| count(*byte)).unwrap_or(b',');
    let mut reading = Reading {
        faults: Faults::default(),
        lines: text.lines().map(str::to_owned).collect(),
        delimiter: char::from(delimiter),
    };
    let (entries, sheet) = sheet(text, delimiter, &mut reading)?;
    if !reading.faults.is_empty() {
        return Err(JobFileError { faults: reading.faults });
    }
    Ok(PriceFile { entries, places: Places::Csv(sheet) })
}

/// The prices that the rows are read as, and the rows; what is wrong with them is added to `reading`.
fn sheet(text: &str, delimiter: u8, reading: &mut Reading) -> Result<(Vec<PriceEntry>, Sheet), JobFileError> {
    let mut reader = ::csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .has_headers(false)
        .flexible(true)
        .trim(::csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut columns: Option<Vec<Option<&'static str>>> = None;
    let (mut entries, mut rows) = (vec![], vec![]);
    for record in reader.records() {
        let Ok(record) = record else {
            return Err(nowhere("the price list can't be read as CSV".to_owned()));
        };
        let line = record.position().and_then(|position| usize::try_from(position.line()).ok()).unwrap_or(1);
        // A record's position is before the empty lines that it passed over.
        let empty = reading.lines.iter().skip(line - 1).take_while(|text| text.trim().is_empty());
        let line = line + empty.count();
        if record.iter().all(str::is_empty) {
            continue;
        }
        match &columns {
            None => match header(&record, line, reading) {
                named if named.is_empty() => break,
                named => columns = Some(named),
            },
            Some(_) if entries.len() == MOST_PRICES => {
                reading.add(
                    line,
                    0,
                    "",
                    format!("this is past the {MOST_PRICES} prices that are taken: leave some out"),
                );
                break;
            }
            Some(columns) => {
                if let Some(entry) = row(&record, columns, line, reading) {
                    entries.push(entry);
                    rows.push((line, reading.lines.get(line - 1).cloned().unwrap_or_default()));
                }
            }
        }
    }
    Ok((entries, Sheet { rows, columns: columns.unwrap_or_default(), delimiter: reading.delimiter }))
}

/// The column that stands in each place of the first line; none if it names none at all.
fn header(record: &::csv::StringRecord, line: usize, reading: &mut Reading) -> Vec<Option<&'static str>> {
    let known = |given: &str| {
        let name = given.to_lowercase().replace(' ', "_");
        PRICE_COLUMNS.into_iter().find(|column| *column == name)
    };
    if !record.iter().any(|given| known(given).is_some()) {
        reading.add(
            line,
            0,
            "",
            format!(
                "this line names none of the columns: write {} above the prices, item and rate at least",
                PRICE_COLUMNS.join(",")
            ),
        );
        return vec![];
    }
    let mut columns: Vec<Option<&'static str>> = vec![];
    for (i, given) in record.iter().enumerate() {
        let known = known(given);
        match known {
            Some(column) if columns.contains(&Some(column)) => {
                reading.add(
                    line,
                    i,
                    column,
                    "there are two columns of that name: leave one of them out".to_owned(),
                );
            }
            None if !given.is_empty() => {
                let instead = match nearest(given, &PRICE_COLUMNS) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("the columns are {}", PRICE_COLUMNS.join(", ")),
                };
                reading.add(line, i, "", format!("there is no column `{}` here: {instead}", quoted(given)));
            }
            _ => {}
        }
        columns.push(known);
    }
    for needed in NEEDED {
        if !columns.contains(&Some(needed)) {
            reading.add(
                line,
                0,
                needed,
                format!(
                    "there is no such column: name the columns on the first line, such as {}",
                    PRICE_COLUMNS.join(",")
                ),
            );
        }
    }
    columns
}

fn row(
    record: &::csv::StringRecord,
    columns: &[Option<&'static str>],
    line: usize,
    reading: &mut Reading,
) -> Option<PriceEntry> {
    let starts = reading.lines.get(line.saturating_sub(1));
    let (starts, open) = starts.map_or((vec![], false), |text| cells(text, reading.delimiter));
    if open {
        // What follows went into the same text.
        let opening = starts.len().saturating_sub(1);
        reading.add(
            line,
            opening,
            "",
            "a double quote opens a text here that is not closed on this line: close it, or leave it out"
                .to_owned(),
        );
        return None;
    }
    let mut past = record.iter().enumerate().skip(columns.len());
    if let Some((place, extra)) = past.find(|(_, cell)| !cell.is_empty()) {
        let instead = if reading.delimiter == ',' {
            "write a number with a point alone, as 1200.50, and put a text with a comma in double quotes"
        } else {
            "name its column on the first line, or leave it out"
        };
        let message = format!("`{}` stands past the last column: {instead}", quoted(extra));
        reading.add(line, place, "", message);
        return None;
    }
    let cell = |name: &str| -> Option<String> {
        let place = columns.iter().position(|column| *column == Some(name))?;
        record.get(place).filter(|cell| !cell.is_empty()).map(str::to_owned)
    };
    // Where semicolons or tabs stand between the columns a comma is a decimal sign.
    let number = |name: &str| match reading.delimiter {
        ',' => cell(name),
        _ => cell(name).map(|text| text.replace(',', ".")),
    };
    Some(PriceEntry {
        // What must be there and is not is told with whatever else is wrong with the values.
        item: cell("item").unwrap_or_default(),
        size: cell("size").map(LengthEntry::Text),
        unit: cell("unit"),
        pack: number("pack").map(DecimalEntry::Text),
        rate: MoneyEntry::Text(number("rate").unwrap_or_default()),
        waste_percent: number("waste_percent").map(DecimalEntry::Text),
        markup_percent: number("markup_percent").map(DecimalEntry::Text),
        tax_percent: number("tax_percent").map(DecimalEntry::Text),
        available: number("available").map(DecimalEntry::Text),
    })
}
