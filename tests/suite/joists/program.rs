//! Joists as they are typed, ordered and drawn.

use serde_json::Value;

use crate::program::pegline;

const JOISTS: [&str; 13] = [
    "joists",
    "7800x6000-3000x2400",
    "--house",
    "AB",
    "--from",
    "AB",
    "--to",
    "EF,CD",
    "--centres",
    "400",
    "--bearing",
    "100",
    "--hanger-gap=3",
];
const GARDEN_ROOM: &str = "examples/garden-room.json";

fn with(more: &[&str]) -> Vec<String> {
    JOISTS.iter().chain(more).map(|word| (*word).to_owned()).collect()
}

/// By hand: from A the wall's 100 and 50 clear make 150, then every 400 to 4550; one more ends 50 clear of DE, whose face
/// is at 4700, and begins at 4603. Past it, on CD, 4950 to 7350, and 7603. 6000 - 3 and 3600 - 3 are left.
#[test]
fn the_joists_of_an_l_come_out_on_a_page() {
    let read =
        ["--heights-from", "A=0,B=-6", "--heights-to", "F=0,E=-3", "--packers", "1,2,3,5,10", "--full"];
    let page = pegline(with(&read)).answer();
    let said: Vec<&str> = page.lines().take(5).collect();
    assert_eq!(
        said,
        [
            "21 joists from A at 400 mm centres: 13 of 5997 mm and 8 of 3597 mm; pack up to",
            "2.8 mm, raise hangers up to 5.8 mm",
            "",
            "Heights are not read on both sides of every joist on CD: what goes under those",
            "is not worked out",
        ]
    );
    for row in [
        " 1        150   EF   F                150        5997",
        " 13      4603   EF   F               4603        5997",
        " 14      4950   CD   D                150        3597",
        " 21      7603   CD   D               2803        3597",
        " 11                      3.1            2.5   2",
    ] {
        assert!(page.lines().any(|line| line == row), "{row}\n{page}");
    }
    assert!(page.contains("nothing here sizes a joist"));
}

/// A staff reads the more the lower: the same levels both ways.
#[test]
fn staff_readings_are_heights_upside_down() {
    let seats = |more: &[&str]| -> Value {
        let answer = pegline(with(more).into_iter().chain(["--json".to_owned()])).json();
        answer["result"]["joists"].as_array().unwrap().iter().map(|j| j["to"]["seat"]["up"].clone()).collect()
    };
    let heights = seats(&["--heights-from", "A=0,B=-6", "--heights-to", "F=0,E=-3,D=-1,C=-2"]);
    let staff = seats(&["--staff-from", "A=1400,B=1406", "--staff-to", "F=1400,E=1403,D=1401,C=1402"]);
    assert_eq!(heights, staff);
    assert!(heights[3].as_f64().unwrap() > 0.0);
}

/// The ceiling of the heights is under the highest of the wall head, and level joists keep it from end to end; by a fall of
/// 1:40 it drops 25 mm in each metre.
#[test]
fn the_ceiling_of_the_heights_is_carried_through() {
    let ask = |command: &[&str]| pegline(command.iter().chain(&["--job", GARDEN_ROOM, "--json"])).json();
    let ceiling = ask(&["heights"])["result"]["ceiling_height"].as_f64().unwrap();
    let level = ask(&["joists"])["result"]["ceiling"].clone();
    assert_eq!((level["at_from"].as_f64(), level["at_to"].as_f64()), (Some(ceiling), Some(ceiling)));
    let falls = ask(&["joists", "--fall", "1:40"])["result"].clone();
    let drop = falls["ceiling"]["at_from"].as_f64().unwrap() - falls["ceiling"]["at_to"].as_f64().unwrap();
    assert!((drop - 5960.0 / 40.0).abs() < 0.002, "{drop}");
}

#[test]
fn an_order_has_the_joists_their_hangers_and_the_bearer() {
    let joists = pegline(["joists", "--job", GARDEN_ROOM, "--json"]).json()["result"].clone();
    let order = pegline(["order", "--job", GARDEN_ROOM, "--json"]).json();
    let line = |item: &str, size: Option<f64>| -> f64 {
        let lines = order["result"]["lines"].as_array().unwrap().iter();
        let mut lines = lines.filter(|line| line["item"] == item);
        let found = lines.find(|line| size.is_none() || line["size"].as_f64() == size);
        found.unwrap_or_else(|| panic!("no {item}: {order}"))["quantity"].as_f64().unwrap()
    };
    for buy in joists["cut"]["buy"].as_array().unwrap() {
        assert_eq!(line("joist", buy["length"].as_f64()), buy["count"].as_f64().unwrap());
    }
    assert_eq!(line("joist hanger", Some(47.0)), joists["hangers"][0]["count"].as_f64().unwrap());
    // From wall to wall, 7800 less twice 140, and a bolt at each end and at most every 600.
    assert_eq!((line("bearer", None), line("bearer bolt", None)), (7.52, 14.0));
}

/// Every joist is drawn true to scale from end to end.
#[test]
fn a_drawing_of_the_joists_has_each_of_them_to_scale() {
    let joists = pegline(["joists", "--job", GARDEN_ROOM, "--json"]).json()["result"].clone();
    let drawn =
        pegline(["sketch", "--of", "joists", "--job", GARDEN_ROOM, "--json"]).json()["result"].clone();
    let scale = drawn["ratio"].as_f64().unwrap();
    let lines: Vec<&Value> =
        drawn["lines"].as_array().unwrap().iter().filter(|line| line["part"] == "joist").collect();
    let joists = joists["joists"].as_array().unwrap();
    assert_eq!(lines.len(), joists.len());
    for (line, joist) in lines.iter().zip(joists) {
        assert_eq!(line["name"], joist["name"]);
        let at = |i: usize, j: usize| line["points"][i][j].as_f64().unwrap();
        let long = (at(1, 1) - at(0, 1)) * scale;
        assert!((long - joist["length"].as_f64().unwrap()).abs() < 0.2, "{long}: {joist}");
        assert!((at(0, 0) - at(1, 0)).abs() < 1e-9);
    }
    assert!(
        pegline(["sketch", "--of", "joists", "--job", GARDEN_ROOM, "--svg"])
            .answer()
            .contains("Joist layout")
    );
}
