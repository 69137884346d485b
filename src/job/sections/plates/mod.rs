//! The plates of a job, checked.

mod section;

pub use section::{AnchorsSection, PlatesSection};

use super::along::{AlongEntries, StretchEntry};
use super::cuts::seconds;
use crate::cutting::{Favour, MAX_RUNS};
use crate::exact::parse_money;
use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
use crate::length::InUnits;
use crate::lines::{Item, ItemKind, MarksQuestion};
use crate::plates::{
    AnchorRule, CLOSEST, Corners, DpcRule, Options, Partition, PlatesError, SpliceRules, StrapRule, Stretch,
    Studs,
};
use crate::rules::{ANCHOR_SETS, AnchorSet, DPC_LAP, STRAP_SPACING, anchor_set, listed};
use crate::stock::Timber;
use crate::words::{quoted, steers};

/// The longest name that is written on a piece, characters.
const LONGEST_NAME: usize = 12;

/// What is asked of the plates, apart from the plan: `None` where no width is given. What stands along the sides has been
/// checked and is in `marks`.
pub(in crate::job) fn plates(
    section: Option<&PlatesSection>,
    along: AlongEntries<'_>,
    marks: Option<&MarksQuestion>,
    timber: Option<&Timber>,
    file: Cursor<'_>,
) -> Option<Options> {
    let at = file.field("plates");
    let none = PlatesSection::default();
    let section = section.unwrap_or(&none);
    let items = marks.map_or(&[][..], |marks| &marks.items);
    let partitions = partitions(along.partitions, file.field("partitions"));
    let splices = splices(section, at);
    let anchors = section.anchors.as_ref();
    let mut options = Options {
        binder: section.binder.unwrap_or(false),
        openings: doors(along.openings, items),
        partitions,
        met: stretches(items, ItemKind::Partition),
        joints: stretches(items, ItemKind::Joint).iter().map(|joint| (joint.side, joint.from)).collect(),
        splices,
        seconds: seconds(section.seconds, at.field("seconds")),
        anchors: anchors.and_then(|section| anchor_rule(section, at.field("anchors"))),
        dpc: dpc(section, at),
        fix_every: apart(section.fix_every.as_ref(), at.field("fix_every")),
        straps: strap_rule(section.straps.as_ref(), at.field("straps")),
        step: at.units.tape_step(),
        ..Options::new(0.0, timber.cloned().unwrap_or_default())
    };
    if options.anchors.is_some() {
        // Studs only keep anchors clear of themselves.
        let anchors_at = at.field("anchors");
        let centres = marks.and_then(|marks| marks.studs);
        options.studs = centres.and_then(|centres| studs(centres, anchors, anchors_at.field("stud_clear")));
    }
    if let Some(corners) = &section.corners {
        options.corners = at.field("corners").take::<Corners, _>(corners.parse()).unwrap_or_default();
    }
    if let Some(word) = section.openings.as_ref().filter(|word| word.contains(':')) {
        let word = quoted(word);
        at.field("openings").fault(format!("this is keep or cut: write an opening as --opening {word} here"));
    } else if let Some(word) = &section.openings {
        options.cut_openings = one_of(word, ["keep", "cut"], at.field("openings")) == 1;
    }
    if let Some(favour) = &section.favour {
        options.favour = objective(favour, timber, at.field("favour"));
    }
    options.width = at.field("width").positive(section.width.as_ref())?;
    Some(options)
}

/// Which of the words was written; the first where neither was.
fn one_of<const N: usize>(given: &str, words: [&str; N], at: Cursor<'_>) -> usize {
    let found = words.iter().position(|word| word.eq_ignore_ascii_case(given.trim()));
    if found.is_none() {
        at.fault(format!("`{given}` is not known here: write {}", words.join(" or ")));
    }
    found.unwrap_or(0)
}

/// The distance between two of anything set out along a plate.
fn apart(entry: Option<&LengthEntry>, at: Cursor<'_>) -> Option<f64> {
    let every = at.positive(entry)?;
    if every < CLOSEST {
        at.fault(PlatesError::TooClose { every }.message(at.units));
        return None;
    }
    Some(every)
}

fn splices(section: &PlatesSection, at: Cursor<'_>) -> SpliceRules {
    let mut rules = SpliceRules {
        panels: apart(section.panels.as_ref(), at.field("panels")),
        corner_distance: at.field("corner_distance").not_negative(section.corner_distance.as_ref()),
        ..SpliceRules::usual(at.units)
    };
    for (field, entry, rule) in [
        ("least_piece", &section.least_piece, &mut rules.least_piece),
        ("post_clear", &section.post_clear, &mut rules.post_clear),
        ("panel_clear", &section.panel_clear, &mut rules.panel_clear),
        ("lap", &section.lap, &mut rules.lap),
    ] {
        if let Some(length) = at.field(field).not_negative(entry.as_ref()) {
            *rule = length;
        }
    }
    if let Some(word) = &section.panels_from {
        rules.panels_from_last = one_of(word, ["first", "last"], at.field("panels_from")) == 1;
    }
    rules
}

fn objective(favour: &str, timber: Option<&Timber>, at: Cursor<'_>) -> Favour {
    match favour.trim().to_ascii_lowercase().as_str() {
        "splices" => Favour::Splices,
        "cost" => Favour::Cost,
        money => {
            let Ok(worth) = parse_money(money) else {
                at.fault(format!(
                        "`{favour}` is not known here: write splices, cost, or what a splice is worth, such as 4 or 4.50"
                    ),
                );
                return Favour::default();
            };
            if timber.is_some_and(|timber| !timber.priced()) {
                at.fault("a splice can't be worth money where the stock has no prices: give its lengths prices, or favour splices or cost",
                );
            }
            Favour::ASplice(worth)
        }
    }
}

fn anchor_rule(section: &AnchorsSection, at: Cursor<'_>) -> Option<AnchorRule> {
    let set: Option<&'static AnchorSet> =
        section.rules.as_ref().and_then(|name| at.field("rules").take(anchor_set(name)));
    let spacing = apart(section.spacing.as_ref(), at.field("spacing"));
    let end = at.field("end").positive(section.end.as_ref());
    let edge = at.field("edge").not_negative(section.edge.as_ref());
    let apart = at.field("apart").not_negative(section.apart.as_ref());
    if section.rules.is_some() && set.is_none() {
        return None;
    }
    if set.is_none() && spacing.is_none() && end.is_none() && edge.is_none() {
        return None;
    }
    let (Some(spacing), Some(end)) = (spacing.or(set.map(|set| set.spacing)), end.or(set.map(|set| set.end)))
    else {
        at.fault(format!("an anchor rule needs the most between two and the most from an end: give both (--anchor-spacing and --anchor-end, or `spacing` and `end` in the job file), or the rules {}", listed(ANCHOR_SETS.iter().map(|set| set.key))));
        return None;
    };
    let edge = edge.or(set.map(|set| set.edge)).unwrap_or(0.0);
    let apart = apart.unwrap_or_else(|| at.units.usual(AnchorRule::APART, 2.0).min(spacing / 3.0));
    let rule = AnchorRule { set, spacing, end, edge, apart };
    let checked = rule.check();
    let field = if matches!(checked, Err(PlatesError::Apart { .. })) { "apart" } else { "edge" };
    let checked = checked.map_err(|error| error.message(at.units));
    at.field(field).take(checked).map(|()| rule)
}

/// A spacing of the user's own, or the published one by its key.
fn strap_rule(entry: Option<&LengthEntry>, at: Cursor<'_>) -> Option<StrapRule> {
    if let LengthEntry::Text(word) = entry?
        && word.trim().eq_ignore_ascii_case("nhbc")
    {
        return Some(StrapRule { every: STRAP_SPACING.value, source: Some(STRAP_SPACING.source) });
    }
    apart(entry, at).map(|every| StrapRule { every, source: None })
}

fn studs(centres: f64, section: Option<&AnchorsSection>, at: Cursor<'_>) -> Option<Studs> {
    let clear = section.and_then(|section| at.not_negative(section.stud_clear.as_ref()));
    let clear = clear.unwrap_or(at.units.usual(Studs::CLEAR, 2.0));
    let studs = Studs { centres, clear };
    at.take(studs.check().map_err(|error| error.message(at.units))).map(|()| studs)
}

fn dpc(section: &PlatesSection, at: Cursor<'_>) -> DpcRule {
    let mut rule = DpcRule { lap: at.units.usual(DPC_LAP.value, 4.0), ..DpcRule::default() };
    if let Some(lap) = at.field("dpc_lap").not_negative(section.dpc_lap.as_ref()) {
        rule.lap = lap;
    }
    rule.roll = at.field("dpc_roll").positive(section.dpc_roll.as_ref());
    if at.field("dpc_roll").take(rule.check().map_err(|error| error.message(at.units))).is_none() {
        rule.roll = None;
    }
    rule
}

/// The openings that go down to the plate.
fn doors(openings: &[StretchEntry], items: &[Item]) -> Vec<Stretch> {
    // The items stand in the file's order; where one could not be read the job has a fault and is not answered.
    stretches(items, ItemKind::Opening)
        .into_iter()
        .zip(openings)
        .filter(|(_, entry)| !entry.is_window())
        .map(|(stretch, _)| stretch)
        .collect()
}

fn stretches(items: &[Item], kind: ItemKind) -> Vec<Stretch> {
    items
        .iter()
        .filter(|item| item.kind == kind)
        .map(|item| Stretch { side: item.side, from: item.from, to: item.to })
        .collect()
}

/// The partitions whose plates are to be cut.
fn partitions(entries: &[StretchEntry], list: Cursor<'_>) -> Vec<Partition> {
    let mut partitions: Vec<Partition> = vec![];
    for (i, entry) in entries.iter().enumerate() {
        if entry.length.is_none() {
            continue;
        }
        let at = list.nth(i);
        let length = at.field("length").positive(entry.length.as_ref());
        let name = entry.name.as_deref().map_or_else(|| format!("P{}", i + 1), str::to_uppercase);
        let name = name.trim().to_owned();
        let problem = if name.chars().count() > LONGEST_NAME || name.chars().any(steers) {
            format!("write a name of up to {LONGEST_NAME} characters, since it goes on the pieces")
        } else if !name.contains(char::is_alphabetic) {
            "write a name with a letter in it, since small letters mark the head binder".to_owned()
        } else if is_side(&name) {
            "write a name that no side can have".to_owned()
        } else if partitions.iter().any(|other| other.name == name) {
            "another partition is called so: write another name".to_owned()
        } else {
            String::new()
        };
        if !problem.is_empty() {
            at.field("name").fault(format!("`{}`: {problem}", quoted(&name)));
        }
        partitions.extend(length.map(|length| Partition { name, length }));
    }
    if partitions.len() > MAX_RUNS {
        list.fault(format!("{} have a length of plate: {MAX_RUNS} is the most", partitions.len()));
    }
    partitions
}

/// Whether a name could be a side's: two letters.
fn is_side(name: &str) -> bool {
    name.len() == 2 && name.bytes().all(|byte| byte.is_ascii_alphabetic())
}
