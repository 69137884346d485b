//! The CSV of every command, read back by a general-purpose reader: the shape of the rows, and each figure against the
//! same figure in the JSON.

use std::collections::BTreeSet;

use csv::{Reader, StringRecord};
use serde_json::Value;

use crate::answers_support::told;
use crate::practice_support::TOPICS;
use crate::program::pegline;

/// A CSV answer as read back.
struct Sheet {
    header: Vec<String>,
    rows: Vec<StringRecord>,
}

impl Sheet {
    /// Reads it; a row with another number of fields than the header is an error of the reader.
    fn read(text: &str, what: &str) -> Self {
        assert!(text.ends_with('\n') && !text.contains('\r'), "{what}: line ends");
        let mut reader = Reader::from_reader(text.as_bytes());
        let header: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
        let names: BTreeSet<&String> = header.iter().collect();
        assert_eq!(names.len(), header.len(), "{what}: a column's name comes once");
        let plain =
            |name: &String| name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_');
        assert!(header.iter().all(plain), "{what}: {header:?}");
        let rows =
            reader.records().map(|row| row.unwrap_or_else(|error| panic!("{what}: {error}"))).collect();
        Self { header, rows }
    }

    fn cell(&self, row: usize, column: &str) -> &str {
        let at = self
            .header
            .iter()
            .position(|name| name == column)
            .unwrap_or_else(|| panic!("no column {column}"));
        &self.rows[row][at]
    }
}

/// Whether a cell says what the JSON says; a list is joined by plus signs.
fn agrees(cell: &str, json: &Value) -> bool {
    match json {
        Value::Null => cell.is_empty(),
        Value::Bool(yes) => cell == yes.to_string(),
        Value::Number(figure) => {
            cell.parse::<f64>().is_ok_and(|cell| (cell - figure.as_f64().unwrap()).abs() < 1e-9)
        }
        Value::String(text) => cell == text,
        Value::Array(list) => {
            let cells: Vec<&str> = cell.split('+').filter(|part| !part.is_empty()).collect();
            cells.len() == list.len() && cells.iter().zip(list).all(|(cell, json)| agrees(cell, json))
        }
        Value::Object(_) => false,
    }
}

/// A row as it follows from the JSON: the columns that must agree.
type Row<'a> = Vec<(&'static str, &'a Value)>;

fn list<'a>(value: &'a Value, key: &str) -> &'a [Value] {
    value[key].as_array().map_or(&[], Vec::as_slice)
}

/// One row for each of a list, its columns by JSON pointer.
fn each<'a>(items: &'a [Value], columns: &[(&'static str, &str)]) -> Vec<Row<'a>> {
    let row = |item: &'a Value| -> Row<'a> {
        columns
            .iter()
            .map(|(column, pointer)| (*column, item.pointer(pointer).unwrap_or(&Value::Null)))
            .collect()
    };
    items.iter().map(row).collect()
}

/// One row for each thing in a thing, the outer's columns first.
fn nested<'a>(
    outer: &'a [Value],
    columns: &[(&'static str, &str)],
    key: &str,
    below: &[(&'static str, &str)],
) -> Vec<Row<'a>> {
    let heads = each(outer, columns).into_iter().zip(outer);
    heads
        .flat_map(|(head, item)| {
            let rows = each(list(item, key), below).into_iter();
            rows.map(move |row| [head.clone(), row].concat())
        })
        .collect()
}

/// Columns of a check diagonal.
const DIAGONAL: [(&str, &str); 11] = [
    ("line", "/name"),
    ("from", "/from"),
    ("to", "/to"),
    ("across_mm", "/across"),
    ("down_mm", "/down"),
    ("length_mm", "/length"),
    ("tape_mm", "/tape"),
    ("lies", "/lies"),
    ("proof", "/proof"),
    ("spare", "/spare"),
    ("mm_at_end_per_mm", "/mm_at_end_per_mm"),
];

/// Columns of a reading.
const READING: [(&str, &str); 19] = [
    ("line", "/name"),
    ("tape", "/tape"),
    ("count", "/count"),
    ("read_mm", "/read"),
    ("spread_mm", "/spread"),
    ("held_on_mm", "/corrections/held_on"),
    ("temperature_mm", "/corrections/temperature"),
    ("slope_mm", "/corrections/slope"),
    ("sag_mm", "/corrections/sag"),
    ("used_mm", "/used"),
    ("sd_mm", "/sd"),
    ("residual_mm", "/residual"),
    ("redundancy", "/redundancy"),
    ("w", "/w"),
    ("suspect", "/suspect"),
    ("left_out", "/left_out"),
    ("slip_mm", "/slip"),
    ("likely", "/likely"),
    ("hides_mm", "/hides"),
];

/// The rows that `command`'s CSV must have, from its JSON.
#[expect(clippy::too_many_lines, reason = "a contract of one arm a command")]
fn rows<'a>(command: &str, result: &'a Value) -> Vec<Row<'a>> {
    match command {
        "diagonals" => each(list(result, "diagonals"), &DIAGONAL),
        "corners" => {
            let columns = [
                ("triple", "/triple"),
                ("multiple_mm", "/multiple"),
                ("first_side", "/first/side"),
                ("first_mm", "/first/length"),
                ("second_side", "/second/side"),
                ("second_mm", "/second/length"),
                ("diagonal_mm", "/diagonal"),
                ("mm_at_end_per_mm", "/mm_at_end_per_mm"),
            ];
            let corners = list(result, "corners").iter();
            corners
                .flat_map(|corner| {
                    let best = corner.get("triple").map(|_| corner);
                    let triangles = best.into_iter().chain(corner.get("three_four_five"));
                    let rows = triangles.flat_map(|triangle| each(std::slice::from_ref(triangle), &columns));
                    rows.map(|row| [vec![("corner", &corner["name"])], row].concat())
                })
                .collect()
        }
        "lines" => lines(result),
        "joists" => each(
            list(result, "joists"),
            &[
                ("joist", "/name"),
                ("role", "/role"),
                ("mark_mm", "/mark"),
                ("from", "/from/on"),
                ("from_held", "/from/held"),
                ("from_up_mm", "/from/seat/up"),
                ("from_packers_mm", "/from/seat/packers"),
                ("to", "/to/on"),
                ("to_held", "/to/held"),
                ("to_corner", "/to/from_corner"),
                ("to_mark_mm", "/to/mark"),
                ("to_up_mm", "/to/seat/up"),
                ("to_packers_mm", "/to/seat/packers"),
                ("length_mm", "/length"),
            ],
        ),
        "straight" => each(
            list(result, "stations"),
            &[
                ("at_mm", "/at"),
                ("reading_mm", "/reading"),
                ("out_mm", "/out"),
                ("from_ends_mm", "/from_ends"),
                ("from_best_mm", "/from_best"),
                ("over", "/over"),
            ],
        ),
        "plates" => bought(
            result,
            nested(
                list(result, "runs"),
                &[
                    ("layer", "/layer"),
                    ("run", "/side"),
                    ("start", "/start"),
                    ("end", "/end"),
                    ("run_mm", "/length"),
                ],
                "pieces",
                &[("piece", "/name"), ("from_mm", "/from"), ("to_mm", "/to"), ("cut_mm", "/length")],
            ),
        ),
        "cuts" => bought(
            result,
            nested(
                list(result, "bars"),
                &[
                    ("bar", "/number"),
                    ("stock_mm", "/stock"),
                    ("in_van", "/in_van"),
                    ("offcut_mm", "/offcut"),
                ],
                "pieces",
                &[("piece_mm", "/length")],
            ),
        ),
        "readings" => each(list(result, "readings"), &READING),
        "packs" => {
            let columns = [
                ("place", "/name"),
                ("side", "/side"),
                ("along_mm", "/along"),
                ("height_mm", "/height"),
                ("pack_mm", "/pack"),
                ("packers_mm", "/packers"),
                ("remainder_mm", "/remainder"),
            ];
            let mut rows = each(list(result, "stations"), &columns);
            rows.extend(each(list(result, "studs"), &columns));
            rows
        }
        "heights" => heights(result),
        "order" => order(result),
        "sketch" => each(
            list(result, "points"),
            &[
                ("what", "/kind"),
                ("name", "/name"),
                ("across_mm", "/across"),
                ("down_mm", "/down"),
                ("east_m", "/east_m"),
                ("north_m", "/north_m"),
            ],
        ),
        "day" => each(list(result, "parts"), &[("command", "/command"), ("good", "/good")]),
        other => panic!("say here how the CSV rows of `{other}` follow from its JSON"),
    }
}

/// The rows of the pieces, then one for each length to buy.
fn bought<'a>(result: &'a Value, mut rows: Vec<Row<'a>>) -> Vec<Row<'a>> {
    let columns = [("stock_mm", "/length"), ("buy", "/count"), ("rate", "/rate"), ("amount", "/amount")];
    rows.extend(each(list(result, "buy"), &columns));
    rows
}

/// A row for each line, then for what is in the van.
fn order(result: &Value) -> Vec<Row<'_>> {
    let mut rows = each(
        list(result, "lines"),
        &[
            ("item", "/item"),
            ("quantity", "/quantity"),
            ("unit", "/unit"),
            ("rate", "/rate"),
            ("amount", "/amount"),
            ("needed", "/needed"),
            ("needed_unit", "/needed_unit"),
            ("waste_percent", "/waste_percent"),
            ("from", "/from"),
            ("markup_percent", "/markup_percent"),
            ("markup", "/markup"),
            ("tax_percent", "/tax_percent"),
        ],
    );
    if let Some(sum) = result.get("contingency") {
        rows.push(vec![("amount", sum)]);
    }
    let taken = [("item", "/item"), ("quantity", "/quantity"), ("from", "/from")];
    rows.extend(each(list(result, "from_van"), &taken));
    rows
}

/// A row for each height there is.
fn heights(result: &Value) -> Vec<Row<'_>> {
    let supports = &result["supports"];
    let rows = [
        (&result["wall_head"], &result["needed"]["wall_head"]),
        (&result["kit_height"], &result["needed"]["kit_height"]),
        (&result["panel_height"], &result["needed"]["panel_height"]),
        (&result["stud_length"], &result["needed"]["stud_length"]),
        (&result["ceiling_height"], &result["needed"]["ceiling_height"]),
        (&result["spread"], &Value::Null),
        (&supports["house"], &Value::Null),
        (&supports["wall"], &Value::Null),
        (&supports["fall"], &supports["wanted"]),
        (&supports["packing"], &Value::Null),
    ];
    let there = |(found, needed): &(&Value, &Value)| !(found.is_null() && needed.is_null());
    let row = |(found, needed)| vec![("mm", found), ("needed_mm", needed)];
    rows.into_iter().filter(there).map(row).collect()
}

/// Strings with their nails, boards, what proves them, the offset outline, running marks.
fn lines(result: &Value) -> Vec<Row<'_>> {
    let mut rows = vec![];
    for line in list(result, "lines") {
        rows.push(vec![("line", &line["side"]), ("length_mm", &line["string_length"])]);
        rows.extend(nested(
            list(line, "boards"),
            &[("board", "/label"), ("at", "/at"), ("setback_mm", "/setback")],
            "marks",
            &[("mark", "/face"), ("offset_mm", "/offset"), ("x_mm", "/x"), ("y_mm", "/y")],
        ));
    }
    let profiles = list(result, "profiles").iter();
    for profile in profiles.filter(|profile| profile["kind"] == "profile") {
        rows.push(vec![
            ("board", &profile["label"]),
            ("x_mm", &profile["x"]),
            ("y_mm", &profile["y"]),
            ("length_mm", &profile["length"]),
        ]);
    }
    let checks = &result["checks"];
    rows.extend(each(list(checks, "parallel"), &[("length_mm", "/distance")]));
    for rectangle in list(checks, "rectangles") {
        rows.extend([
            vec![("length_mm", &rectangle["diagonal"])],
            vec![("length_mm", &rectangle["diagonal"])],
        ]);
    }
    let sized = [("line", "/name"), ("length_mm", "/length")];
    for key in ["sides", "diagonals", "straight_checks"] {
        rows.extend(each(list(&result["offset"], key), &sized));
    }
    for side in list(result, "marks") {
        rows.extend(nested(list(side, "marks"), &[("length_mm", "/at")], "things", &[]));
    }
    rows
}

/// The whole header of each command: columns keep their names and places, and new ones come at the end.
const HEADERS: [(&str, &str); 14] = [
    ("diagonals", "line,from,to,across_mm,down_mm,length_mm,tape_mm,lies,proof,spare,mm_at_end_per_mm"),
    (
        "corners",
        "corner,triple,multiple_mm,first_side,first_mm,second_side,second_mm,diagonal_mm,mm_at_end_per_mm",
    ),
    ("lines", "what,line,board,at,setback_mm,mark,offset_mm,x_mm,y_mm,length_mm"),
    ("straight", "at_mm,reading_mm,out_mm,stands,from_ends_mm,from_best_mm,over"),
    ("plates", "layer,run,start,end,run_mm,piece,from_mm,to_mm,cut_mm,bar,stock_mm,buy,rate,amount"),
    ("cuts", "bar,stock_mm,in_van,piece_mm,offcut_mm,buy,rate,amount"),
    (
        "readings",
        "line,tape,count,read_mm,spread_mm,held_on_mm,temperature_mm,slope_mm,sag_mm,used_mm,sd_mm,residual_mm,\
         redundancy,w,suspect,left_out,slip_mm,likely,hides_mm",
    ),
    ("packs", "place,side,along_mm,under,height_mm,pack_mm,packers_mm,remainder_mm,mind"),
    ("heights", "height,mm,needed_mm"),
    (
        "joists",
        "joist,role,mark_mm,from,from_held,from_up_mm,from_packers_mm,to,to_held,to_corner,to_mark_mm,to_up_mm,\
         to_packers_mm,length_mm",
    ),
    (
        "order",
        "item,size,size_mm,quantity,unit,rate,amount,needed,needed_unit,waste_percent,from,status,plot,\
         markup_percent,markup,tax_percent,money",
    ),
    ("sketch", "what,name,across_mm,down_mm,east_m,north_m"),
    ("sheet", "part,row,column,value"),
    ("day", "command,good"),
];

/// The last columns of a job in feet and inches: what is cut, bought or packed as a tape has it.
const AS_ON_A_TAPE: [(&str, &str); 5] = [
    ("lines", ",length"),
    ("plates", ",cut,stock"),
    ("cuts", ",cut,stock"),
    ("packs", ",pack,packers"),
    ("joists", ",length"),
];

/// Columns in mm that hold more than one figure.
const SEVERAL: [&str; 3] = ["packers_mm", "from_packers_mm", "to_packers_mm"];

/// Whether a cell is empty, or a figure written in the one way there is: no exponent, no zeros that say nothing.
fn is_plain(cell: &str) -> bool {
    let digits = cell.strip_prefix('-').unwrap_or(cell);
    let (whole, places) = digits.split_once('.').unwrap_or((digits, "1"));
    let all = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    cell.is_empty() || (all(whole) && all(places) && !places.ends_with('0') && cell != "-0")
}

#[test]
fn the_csv_of_every_command_reads_back_and_says_what_the_json_says() {
    let mut figures = 0;
    for answer in told() {
        let what = format!("{} of {}", answer.command, answer.job);
        let sheet = Sheet::read(&answer.csv, &what);
        let header = HEADERS.iter().find(|(command, _)| *command == answer.command);
        let feet = AS_ON_A_TAPE.iter().filter(|_| answer.json["units"] == "ft-in");
        let feet = feet.filter(|(command, _)| *command == answer.command).map(|(_, names)| *names);
        let header: String = header.iter().map(|(_, names)| *names).chain(feet).collect();
        assert_eq!(sheet.header.join(","), header, "{what}");
        for (row, record) in sheet.rows.iter().enumerate() {
            for (column, cell) in sheet.header.iter().zip(record) {
                let length = column.ends_with("_mm") && !SEVERAL.contains(&column.as_str());
                assert!(!length || is_plain(cell), "{what}: row {row}, {column}: {cell}");
            }
        }
        if answer.command == "sheet" {
            // Its rows are those of its parts' own CSV: the tests of the sheet hold them to it.
            continue;
        }
        let rows = rows(answer.command, &answer.json["result"]);
        assert_eq!(sheet.rows.len(), rows.len(), "{what}: rows\n{}", answer.csv);
        for (number, row) in rows.into_iter().enumerate() {
            for (column, json) in row {
                let cell = sheet.cell(number, column);
                assert!(agrees(cell, json), "{what}: row {number}, {column}: {cell}, in JSON {json}");
                figures += usize::from(json.is_number());
            }
        }
    }
    assert!(figures > 3000, "{figures} figures");
}

#[test]
fn the_csv_of_a_practice_sheet_and_of_its_answers_has_a_row_a_blank() {
    let sheets = [
        (&[][..], "question,given,asked,blank,name,seed"),
        (&["--answers"], "question,blank,answer,name,seed"),
    ];
    for topic in TOPICS {
        for units in ["mm", "ft-in"] {
            for (more, header) in sheets {
                let ask = ["practice", topic, "--level", "2", "--units", units];
                let what = format!("{topic} {units} {more:?}");
                let json = pegline(ask.iter().chain(more).chain(&["--json"])).json();
                let csv = pegline(ask.iter().chain(more).chain(&["--format", "csv"])).answer();
                let sheet = Sheet::read(&csv, &what);
                assert_eq!(sheet.header.join(","), header, "{what}");
                let blanks = nested(
                    list(&json["result"], "questions"),
                    &[("question", "/number")],
                    "blanks",
                    &[("blank", "/label")],
                );
                assert_eq!(sheet.rows.len(), blanks.len(), "{what}");
                for (number, row) in blanks.into_iter().enumerate() {
                    for (column, json) in row {
                        assert!(agrees(sheet.cell(number, column), json), "{what}: row {number}");
                    }
                }
            }
        }
    }
}
