//! The plates of a job, checked.

use super::check::Faults;
use super::plates_file::{AnchorsSection, OpeningEntry, PartitionEntry, PlatesSection};
use super::timber::seconds;
use super::{JobFile, LengthEntry};
use crate::cutting::{MAX_RUNS, Objective};
use crate::length::{Length, Units};
use crate::money::parse_money;
use crate::plan::Footprint;
use crate::plates::{AnchorRule, Corners, DpcRule, Opening, Options, Partition, SpliceRules, Studs};
use crate::rules::{AnchorSet, anchor_set};
use crate::stock::Timber;

/// The closest that studs or panel joints can stand, mm: anything less is a slip of the keys.
const CLOSEST: f64 = 100.0;

/// What is asked of the plates, apart from the plan: `None` where no width is given or something is wrong.
pub(super) fn plates(
    file: &JobFile,
    footprint: Option<&Footprint>,
    timber: Option<&Timber>,
    units: (Units, Units),
    faults: &mut Faults,
) -> Option<Options> {
    let (bare, shown) = units;
    let none = PlatesSection::default();
    let section = file.plates.as_ref().unwrap_or(&none);
    let openings = openings(file.openings.as_deref(), footprint, bare, faults);
    let partitions = partitions(file.partitions.as_deref(), footprint, bare, faults);
    let splices = splices(section, bare, faults);
    let anchors = section.anchors.as_ref();
    let mut options = Options {
        binder: section.binder.unwrap_or(false),
        openings,
        partitions,
        splices,
        seconds: seconds("plates.seconds", section.seconds, faults),
        anchors: anchors.and_then(|section| anchor_rule(section, bare, faults)),
        studs: anchors.and_then(|section| studs(section, bare, faults)),
        dpc: dpc(section, bare, faults),
        fix_every: at_least(
            CLOSEST,
            "plates.fix_every",
            section.fix_every.as_ref(),
            bare,
            faults,
        ),
        step: shown.tape_step(),
        ..Options::new(0.0, timber.cloned().unwrap_or_default())
    };
    if let Some(corners) = &section.corners {
        options.corners = faults
            .take::<Corners, _>("plates.corners", corners.parse())
            .unwrap_or_default();
    }
    if let Some(word) = &section.openings {
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
    let found = words
        .iter()
        .position(|word| word.eq_ignore_ascii_case(given.trim()));
    if found.is_none() {
        faults.add(
            field,
            format!("`{given}` is not known here: write {}", words.join(" or ")),
        );
    }
    found.unwrap_or(0)
}

/// A length of at least `least` mm.
fn at_least(
    least: f64,
    field: &str,
    entry: Option<&LengthEntry>,
    bare: Units,
    faults: &mut Faults,
) -> Option<f64> {
    let length = faults.positive(field, entry, bare)?;
    if length < least {
        faults.add(
            field,
            format!("{length} mm is too close: write {least} mm or more"),
        );
        return None;
    }
    Some(length)
}

fn splices(section: &PlatesSection, bare: Units, faults: &mut Faults) -> SpliceRules {
    let mut rules = SpliceRules {
        panels: at_least(CLOSEST, "plates.panels", section.panels.as_ref(), bare, faults),
        corner_distance: faults.not_negative(
            "plates.corner_distance",
            section.corner_distance.as_ref(),
            bare,
        ),
        ..SpliceRules::default()
    };
    for (field, entry, rule) in [
        ("plates.least_piece", &section.least_piece, &mut rules.least_piece),
        ("plates.post_clear", &section.post_clear, &mut rules.post_clear),
        ("plates.panel_clear", &section.panel_clear, &mut rules.panel_clear),
        ("plates.lap", &section.lap, &mut rules.lap),
    ] {
        if let Some(length) = faults.not_negative(field, entry.as_ref(), bare) {
            *rule = length;
        }
    }
    if let Some(word) = &section.panels_from {
        rules.panels_from_last = one_of("plates.panels_from", word, ["first", "last"], faults) == 1;
    }
    rules
}

fn objective(favour: &str, timber: Option<&Timber>, faults: &mut Faults) -> Objective {
    match favour.trim().to_ascii_lowercase().as_str() {
        "splices" => Objective::FewestSplices,
        "cost" => Objective::Cost,
        money => {
            let Ok(worth) = parse_money(money) else {
                faults.add(
                    "plates.favour",
                    format!(
                        "`{favour}` is not known here: write splices, cost, or what a splice is worth, such as 4 or 4.50"
                    ),
                );
                return Objective::default();
            };
            if timber.is_some_and(|timber| !timber.priced()) {
                faults.add(
                    "plates.favour",
                    "a splice can't be worth money where the stock has no prices: write prices as in 3.6m:10.80, or --favour splices or cost",
                );
            }
            Objective::CostPlusPerSplice(worth)
        }
    }
}

fn anchor_rule(section: &AnchorsSection, bare: Units, faults: &mut Faults) -> Option<AnchorRule> {
    let set: Option<&'static AnchorSet> = section
        .rules
        .as_ref()
        .and_then(|name| faults.take("plates.anchors.rules", anchor_set(name)));
    let spacing = at_least(
        CLOSEST,
        "plates.anchors.spacing",
        section.spacing.as_ref(),
        bare,
        faults,
    );
    let end = faults.positive("plates.anchors.end", section.end.as_ref(), bare);
    let edge = faults.not_negative("plates.anchors.edge", section.edge.as_ref(), bare);
    if section.rules.is_some() && set.is_none() {
        return None;
    }
    if set.is_none() && spacing.is_none() && end.is_none() && edge.is_none() {
        return None;
    }
    let (Some(spacing), Some(end)) = (
        spacing.or(set.map(|set| set.spacing)),
        end.or(set.map(|set| set.end)),
    ) else {
        faults.add(
            "plates.anchors",
            "an anchor rule needs the most between two and the most from an end: write --anchor-spacing and --anchor-end, or --anchors us or nz",
        );
        return None;
    };
    let edge = edge.or(set.map(|set| set.edge)).unwrap_or(0.0);
    if edge > end {
        faults.add(
            "plates.anchors.edge",
            format!("{edge} mm is the least distance from an end, and it is more than the most, {end} mm"),
        );
        return None;
    }
    Some(AnchorRule {
        set,
        spacing,
        end,
        edge,
    })
}

fn studs(section: &AnchorsSection, bare: Units, faults: &mut Faults) -> Option<Studs> {
    let clear = faults.not_negative("plates.anchors.stud_clear", section.stud_clear.as_ref(), bare);
    let centres = at_least(
        CLOSEST,
        "plates.anchors.studs",
        section.studs.as_ref(),
        bare,
        faults,
    )?;
    let clear = clear.unwrap_or(Studs::CLEAR);
    if clear * 2.0 >= centres {
        faults.add(
            "plates.anchors.stud_clear",
            format!("no place is {clear} mm clear of studs at {centres} mm: write less"),
        );
        return None;
    }
    Some(Studs { centres, clear })
}

fn dpc(section: &PlatesSection, bare: Units, faults: &mut Faults) -> DpcRule {
    let mut rule = DpcRule::default();
    if let Some(lap) = faults.not_negative("plates.dpc_lap", section.dpc_lap.as_ref(), bare) {
        rule.lap = lap;
    }
    rule.roll = faults.positive("plates.dpc_roll", section.dpc_roll.as_ref(), bare);
    if let Some(roll) = rule.roll.filter(|roll| *roll < 2.0 * rule.lap.max(CLOSEST)) {
        faults.add(
            "plates.dpc_roll",
            format!("a roll of {roll} mm is too short to lap: check the number and its unit"),
        );
        rule.roll = None;
    }
    rule
}

fn openings(
    entries: Option<&[OpeningEntry]>,
    footprint: Option<&Footprint>,
    bare: Units,
    faults: &mut Faults,
) -> Vec<Opening> {
    let mut openings = vec![];
    for (i, entry) in entries.unwrap_or_default().iter().enumerate() {
        let field = format!("openings[{i}]");
        let place = place(&format!("{field}.at"), &entry.at, footprint, bare, faults);
        let width = faults.positive(&format!("{field}.width"), Some(&entry.width), bare);
        let (Some((side, at)), Some(width), Some(footprint)) = (place, width, footprint) else {
            continue;
        };
        let length = footprint.sides()[side].length;
        if at + width > length {
            faults.add(
                &field,
                format!(
                    "the opening ends {} past the end of {}, which is {} long",
                    bare.with_unit(at + width - length),
                    footprint.side_name(side),
                    bare.with_unit(length)
                ),
            );
        }
        openings.push(Opening { side, at, width });
    }
    openings
}

fn partitions(
    entries: Option<&[PartitionEntry]>,
    footprint: Option<&Footprint>,
    bare: Units,
    faults: &mut Faults,
) -> Vec<Partition> {
    let entries = entries.unwrap_or_default();
    if entries.len() > MAX_RUNS {
        faults.add(
            "partitions",
            format!("{} are given: {MAX_RUNS} is the most", entries.len()),
        );
        return vec![];
    }
    let sides: Vec<String> = footprint.map_or_else(Vec::new, |footprint| {
        (0..footprint.len())
            .map(|side| footprint.side_name(side))
            .collect()
    });
    let mut partitions: Vec<Partition> = vec![];
    for (i, entry) in entries.iter().enumerate() {
        let field = format!("partitions[{i}]");
        let name = entry.name.trim().to_uppercase();
        let plain = name.chars().all(|c| c.is_ascii_alphanumeric()) && name.len() <= 8;
        let taken = sides.contains(&name) || partitions.iter().any(|other| other.name == name);
        if !plain || !name.starts_with(|c: char| c.is_ascii_alphabetic()) {
            faults.add(
                &format!("{field}.name"),
                format!(
                    "`{}` can't be a name: write up to 8 letters and digits, a letter first",
                    entry.name
                ),
            );
        } else if taken {
            faults.add(
                &format!("{field}.name"),
                format!("there is a run called `{name}` already: write another name"),
            );
        }
        let length = faults.positive(&format!("{field}.length"), Some(&entry.length), bare);
        let meets = entry
            .meets
            .as_ref()
            .and_then(|meets| place(&format!("{field}.meets"), meets, footprint, bare, faults));
        if let Some(length) = length {
            partitions.push(Partition { name, length, meets });
        }
    }
    partitions
}

/// A place on a side that has a plate: `BC@1200`.
fn place(
    field: &str,
    text: &str,
    footprint: Option<&Footprint>,
    bare: Units,
    faults: &mut Faults,
) -> Option<(usize, f64)> {
    let Some((side, at)) = text.split_once('@') else {
        faults.add(
            field,
            format!(
                "`{text}` is no place on a side: write its letters, @ and how far along, such as BC@1200"
            ),
        );
        return None;
    };
    let at = faults.take(field, Length::parse(at, bare))?.mm;
    // Without a plan the question can't be answered anyway, and that is what will be told.
    let footprint = footprint?;
    let side = faults.take(field, footprint.parse_side(side))?;
    let length = footprint.sides()[side].length;
    let name = footprint.side_name(side);
    if footprint.sides()[side].house {
        faults.add(
            field,
            format!("{name} is an existing wall and has no plate: write another side"),
        );
        return None;
    }
    if !(0.0..=length).contains(&at) {
        faults.add(
            field,
            format!(
                "{name} is {} long: write how far along it from {}, 0 to that",
                bare.with_unit(length),
                &name[..1]
            ),
        );
        return None;
    }
    Some((side, at))
}
