//! The plates of a job, checked.

mod section;

pub use section::{AnchorsSection, PlatesSection};

use super::along::StretchEntry;
use super::cuts::seconds;
use crate::cutting::{Favour, MAX_RUNS};
use crate::exact::parse_money;
use crate::job::faults::Faults;
use crate::job::{JobFile, LengthEntry};
use crate::length::Units;
use crate::lines::{Item, ItemKind, MarksQuestion};
use crate::plates::{
    AnchorRule, CLOSEST, Corners, DpcRule, Options, Partition, PlatesError, SpliceRules, StrapRule, Stretch,
    Studs,
};
use crate::rules::{AnchorSet, STRAP_SPACING, anchor_set};
use crate::stock::Timber;
use crate::words::quoted;

/// The longest name that is written on a piece, characters.
const LONGEST_NAME: usize = 12;

/// What is asked of the plates, apart from the plan: `None` where no width is given. What stands along the sides has been
/// checked and is in `marks`.
pub(in crate::job) fn plates(
    file: &JobFile,
    marks: Option<&MarksQuestion>,
    timber: Option<&Timber>,
    units: (Units, Units),
    faults: &mut Faults,
) -> Option<Options> {
    let (bare, shown) = units;
    let none = PlatesSection::default();
    let section = file.plates.as_ref().unwrap_or(&none);
    let items = marks.map_or(&[][..], |marks| &marks.items);
    let partitions = partitions(file.partitions.as_deref().unwrap_or_default(), bare, faults);
    let splices = splices(section, units, faults);
    let anchors = section.anchors.as_ref();
    let mut options = Options {
        binder: section.binder.unwrap_or(false),
        openings: doors(file, items),
        partitions,
        met: stretches(items, ItemKind::Partition),
        joints: stretches(items, ItemKind::Joint).iter().map(|joint| (joint.side, joint.from)).collect(),
        splices,
        seconds: seconds("plates.seconds", section.seconds, faults),
        anchors: anchors.and_then(|section| anchor_rule(section, units, faults)),
        dpc: dpc(section, units, faults),
        fix_every: apart("plates.fix_every", section.fix_every.as_ref(), units, faults),
        straps: strap_rule(section.straps.as_ref(), units, faults),
        step: shown.tape_step(),
        ..Options::new(0.0, timber.cloned().unwrap_or_default())
    };
    if options.anchors.is_some() {
        // Studs only keep anchors clear of themselves.
        let centres = marks.and_then(|marks| marks.studs);
        options.studs = centres.and_then(|centres| studs(centres, anchors, units, faults));
    }
    if let Some(corners) = &section.corners {
        options.corners = faults.take::<Corners, _>("plates.corners", corners.parse()).unwrap_or_default();
    }
    if let Some(word) = section.openings.as_ref().filter(|word| word.contains(':')) {
        let word = quoted(word);
        faults.add(
            "plates.openings",
            format!("this is keep or cut: write an opening as --opening {word} here"),
        );
    } else if let Some(word) = &section.openings {
        options.cut_openings = one_of("plates.openings", word, ["keep", "cut"], faults) == 1;
    }
    if let Some(favour) = &section.favour {
        options.favour = objective(favour, timber, faults);
    }
    options.width = faults.positive("plates.width", section.width.as_ref(), bare)?;
    Some(options)
}

/// Which of the words was written; the first where neither was.
fn one_of<const N: usize>(field: &str, given: &str, words: [&str; N], faults: &mut Faults) -> usize {
    let found = words.iter().position(|word| word.eq_ignore_ascii_case(given.trim()));
    if found.is_none() {
        faults.add(field, format!("`{given}` is not known here: write {}", words.join(" or ")));
    }
    found.unwrap_or(0)
}

/// The distance between two of anything set out along a plate.
fn apart(
    field: &str,
    entry: Option<&LengthEntry>,
    (bare, shown): (Units, Units),
    faults: &mut Faults,
) -> Option<f64> {
    let every = faults.positive(field, entry, bare)?;
    if every < CLOSEST {
        faults.add(field, PlatesError::TooClose { every }.message(shown));
        return None;
    }
    Some(every)
}

fn splices(section: &PlatesSection, units: (Units, Units), faults: &mut Faults) -> SpliceRules {
    let mut rules = SpliceRules {
        panels: apart("plates.panels", section.panels.as_ref(), units, faults),
        corner_distance: faults.not_negative(
            "plates.corner_distance",
            section.corner_distance.as_ref(),
            units.0,
        ),
        ..SpliceRules::default()
    };
    for (field, entry, rule) in [
        ("plates.least_piece", &section.least_piece, &mut rules.least_piece),
        ("plates.post_clear", &section.post_clear, &mut rules.post_clear),
        ("plates.panel_clear", &section.panel_clear, &mut rules.panel_clear),
        ("plates.lap", &section.lap, &mut rules.lap),
    ] {
        if let Some(length) = faults.not_negative(field, entry.as_ref(), units.0) {
            *rule = length;
        }
    }
    if let Some(word) = &section.panels_from {
        rules.panels_from_last = one_of("plates.panels_from", word, ["first", "last"], faults) == 1;
    }
    rules
}

fn objective(favour: &str, timber: Option<&Timber>, faults: &mut Faults) -> Favour {
    match favour.trim().to_ascii_lowercase().as_str() {
        "splices" => Favour::Splices,
        "cost" => Favour::Cost,
        money => {
            let Ok(worth) = parse_money(money) else {
                faults.add(
                    "plates.favour",
                    format!(
                        "`{favour}` is not known here: write splices, cost, or what a splice is worth, such as 4 or 4.50"
                    ),
                );
                return Favour::default();
            };
            if timber.is_some_and(|timber| !timber.priced()) {
                faults.add(
                    "plates.favour",
                    "a splice can't be worth money where the stock has no prices: give its lengths prices, or favour splices or cost",
                );
            }
            Favour::ASplice(worth)
        }
    }
}

fn anchor_rule(section: &AnchorsSection, units: (Units, Units), faults: &mut Faults) -> Option<AnchorRule> {
    let set: Option<&'static AnchorSet> =
        section.rules.as_ref().and_then(|name| faults.take("plates.anchors.rules", anchor_set(name)));
    let spacing = apart("plates.anchors.spacing", section.spacing.as_ref(), units, faults);
    let end = faults.positive("plates.anchors.end", section.end.as_ref(), units.0);
    let edge = faults.not_negative("plates.anchors.edge", section.edge.as_ref(), units.0);
    let apart = faults.not_negative("plates.anchors.apart", section.apart.as_ref(), units.0);
    if section.rules.is_some() && set.is_none() {
        return None;
    }
    if set.is_none() && spacing.is_none() && end.is_none() && edge.is_none() {
        return None;
    }
    let (Some(spacing), Some(end)) = (spacing.or(set.map(|set| set.spacing)), end.or(set.map(|set| set.end)))
    else {
        faults.add(
            "plates.anchors",
            "an anchor rule needs the most between two and the most from an end: give both (--anchor-spacing and --anchor-end, or `spacing` and `end` in the job file), or the rules us or nz",
        );
        return None;
    };
    let edge = edge.or(set.map(|set| set.edge)).unwrap_or(0.0);
    let apart = apart.unwrap_or_else(|| AnchorRule::APART.min(spacing / 3.0));
    let rule = AnchorRule { set, spacing, end, edge, apart };
    let checked = rule.check();
    let field = if matches!(checked, Err(PlatesError::Apart { .. })) { "apart" } else { "edge" };
    let checked = checked.map_err(|error| error.message(units.1));
    faults.take(&format!("plates.anchors.{field}"), checked).map(|()| rule)
}

/// A spacing of the user's own, or the published one by its key.
fn strap_rule(entry: Option<&LengthEntry>, units: (Units, Units), faults: &mut Faults) -> Option<StrapRule> {
    if let LengthEntry::Text(word) = entry?
        && word.trim().eq_ignore_ascii_case("nhbc")
    {
        return Some(StrapRule { every: STRAP_SPACING.value, source: Some(STRAP_SPACING.source) });
    }
    apart("plates.straps", entry, units, faults).map(|every| StrapRule { every, source: None })
}

fn studs(
    centres: f64,
    section: Option<&AnchorsSection>,
    units: (Units, Units),
    faults: &mut Faults,
) -> Option<Studs> {
    let field = "plates.anchors.stud_clear";
    let clear = section.and_then(|section| faults.not_negative(field, section.stud_clear.as_ref(), units.0));
    let clear = clear.unwrap_or(Studs::CLEAR);
    let studs = Studs { centres, clear };
    faults.take(field, studs.check().map_err(|error| error.message(units.1))).map(|()| studs)
}

fn dpc(section: &PlatesSection, units: (Units, Units), faults: &mut Faults) -> DpcRule {
    let mut rule = DpcRule::default();
    if let Some(lap) = faults.not_negative("plates.dpc_lap", section.dpc_lap.as_ref(), units.0) {
        rule.lap = lap;
    }
    rule.roll = faults.positive("plates.dpc_roll", section.dpc_roll.as_ref(), units.0);
    if faults.take("plates.dpc_roll", rule.check().map_err(|error| error.message(units.1))).is_none() {
        rule.roll = None;
    }
    rule
}

/// The openings that go down to the plate.
fn doors(file: &JobFile, items: &[Item]) -> Vec<Stretch> {
    // The items stand in the file's order; where one could not be read the job has a fault and is not answered.
    stretches(items, ItemKind::Opening)
        .into_iter()
        .zip(file.openings.iter().flatten())
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
fn partitions(entries: &[StretchEntry], bare: Units, faults: &mut Faults) -> Vec<Partition> {
    let mut partitions: Vec<Partition> = vec![];
    for (i, entry) in entries.iter().enumerate() {
        if entry.length.is_none() {
            continue;
        }
        let field = format!("partitions[{i}]");
        let length = faults.positive(&format!("{field}.length"), entry.length.as_ref(), bare);
        let name = entry.name.as_deref().map_or_else(|| format!("P{}", i + 1), str::to_uppercase);
        let name = name.trim().to_owned();
        let problem = if name.chars().count() > LONGEST_NAME || name.chars().any(char::is_control) {
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
            faults.add(&format!("{field}.name"), format!("`{}`: {problem}", quoted(&name)));
        }
        partitions.extend(length.map(|length| Partition { name, length }));
    }
    if partitions.len() > MAX_RUNS {
        faults.add(
            "partitions",
            format!("{} have a length of plate: {MAX_RUNS} is the most", partitions.len()),
        );
    }
    partitions
}

/// Whether a name could be a side's: two letters.
fn is_side(name: &str) -> bool {
    name.len() == 2 && name.bytes().all(|byte| byte.is_ascii_alphabetic())
}
