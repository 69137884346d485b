//! The page of heights: panel, studs and ceiling from the wall head, and the stack that they add up in.

mod drawing;
mod sentences;

use super::cautions::PACKING_AND_BEARINGS;
use super::figures::{self, lengths};
use crate::answer::Answered;
use crate::geometry::Mm;
use crate::heights::{End, HeightVerdict, Heights, Role, Span, Supports, WallHead};
use crate::job::Job;
use crate::length::{Units, trimmed};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table, Verdict, each};
use crate::rules::{COMMON_CEILING, COMMON_CEILING_IN_FEET, ROOF_FALLS};
use crate::words::capital;
use crate::working;

impl Answered for Heights {
    fn good(&self) -> bool {
        self.verdict.good()
    }

    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let units = job.units;
        let mut remarks = Remarks::default();
        let headline = sentences::sentences(self, units).into_iter().next().unwrap_or_default();
        remarks.verdict = Some(Verdict { good: self.verdict.good(), words: capital(&headline) });
        not_as_it_should(&mut remarks, self, units);
        if detail != Detail::Short {
            notes(&mut remarks, self, job);
        }
        remarks.caution(PACKING_AND_BEARINGS);
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        for sentence in sentences::sentences(self, units).into_iter().skip(1) {
            page.paragraph(capital(&sentence));
        }
        if let Some(name) = job.name.as_ref().filter(|_| detail != Detail::Short) {
            page.fact("Job", name);
        }
        if let Some(head) = &job.heights {
            as_given(page, head, self, units, detail);
        }
        page.heading("Heights");
        page.table(table(self, units));
        if detail == Detail::Short {
            if let Some(supports) = &self.supports {
                pack_at_joists(page, supports, units);
            }
            return;
        }
        if let Some(supports) = &self.supports {
            joists(page, supports, units);
        }
        let length = |mm| lengths(units, &[mm]).concat();
        page.heading("What adds up to what, not to scale");
        if page.columns >= drawing::WIDTH {
            page.lines(drawing::draw(&self.stack, &length));
        } else {
            for (title, spans) in drawing::columns(&self.stack) {
                let span = |span: &Span| format!("{} {}", span.name, length(span.thickness()));
                let spans: Vec<String> = spans.iter().rev().map(span).collect();
                page.fact(format!("{}, from the top", capital(title)), spans.join(", "));
            }
        }
    }

    /// The rows for a spreadsheet, in mm: each height that is there or needed.
    fn rows(&self, _: Units) -> Rows {
        let (needed, supports) = (self.needed.as_ref(), self.supports.as_ref());
        let heights: [(&str, Option<Mm>, Option<Mm>); 10] = [
            ("wall_head", Some(self.wall_head), needed.map(|n| n.wall_head)),
            ("kit_height", Some(self.kit_height), needed.map(|n| n.kit_height)),
            ("panel_height", Some(self.panel_height), needed.map(|n| n.panel_height)),
            ("stud_length", self.stud_length, needed.and_then(|n| n.stud_length)),
            ("ceiling_height", Some(self.ceiling_height), needed.map(|n| n.ceiling_height)),
            ("spread", self.spread, None),
            ("hanger", supports.map(|s| s.house), None),
            ("bearing", supports.map(|s| s.wall), None),
            ("fall", supports.map(|s| s.fall), supports.map(|s| s.wanted)),
            ("packing_at_joists", supports.map(|s| s.packing), None),
        ];
        each(heights.into_iter().filter(|(_, found, wanted)| found.is_some() || wanted.is_some()))
            .column("height", |(name, ..)| name)
            .column("mm", |(_, found, _)| found)
            .column("needed_mm", |(.., wanted)| wanted)
            .into()
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        let Some(head) = &job.heights else { return vec![] };
        working::heights::steps(self, head, job.units)
    }
}

/// Echoes the drops and the layers: a slip of the keys shows here.
fn as_given(page: &mut Page, head: &WallHead, answer: &Heights, units: Units, detail: Detail) {
    let unit = units.head("").trim().to_owned();
    let with_unit = |list: String| format!("{list} {unit}").trim_end().to_owned();
    let figure = |mm: f64| lengths(units, &[mm]).concat();
    let whole = detail != Detail::Short;
    if let Some(depth) = head.level_depth.filter(|_| !head.drops.is_empty() && whole) {
        let drops: Vec<String> = answer
            .drops
            .iter()
            .map(|drop| {
                drop.place.iter().fold(figure(drop.drop.0), |figure, place| format!("{place} {figure}"))
            })
            .collect();
        let drops = with_unit(drops.join(", "));
        page.fact("Drops", format!("{drops} from the top of a level {} deep", units.fine(depth)));
        let packs: Vec<String> = answer
            .drops
            .iter()
            .filter_map(|drop| Some(format!("{} {}", drop.place.as_ref()?, figure(drop.pack?.0))))
            .collect();
        if !packs.is_empty() {
            page.fact("Packs there, which come off", with_unit(packs.join(", ")));
        }
    }
    if !head.drops.is_empty() && head.level_depth.is_some() {
        let heads: Vec<String> = answer.wall_heads.iter().map(|mm| figure(mm.0)).collect();
        let list = with_unit(heads.join(", "));
        let apart = units.fine(answer.spread.map_or(0.0, |mm| mm.0));
        page.fact(
            "Wall head",
            match (heads.len(), answer.verdict) {
                (1, _) => list,
                (_, HeightVerdict::DropsDisagree) => format!("{list}: {apart} apart"),
                _ => format!("{list}: {apart} apart, and the highest is kept"),
            },
        );
    }
    if !head.layers.is_empty() && whole {
        let layers: Vec<String> = head
            .layers
            .iter()
            .map(|layer| format!("{} {}", layer.name, units.fine(layer.thickness)))
            .collect();
        page.fact("Layers", layers.join(", "));
    }
}

/// What was found beside what the wanted ceiling needs.
fn table(answer: &Heights, units: Units) -> Table {
    let needed = answer.needed.as_ref().filter(|_| answer.verdict != HeightVerdict::AsNeeded);
    let panel = if answer.stack.names_the_kit() { "Panel" } else { "Panel, plate and binder" };
    let mut rows = vec![
        ("Wall head above the datum", answer.wall_head, needed.map(|n| n.wall_head)),
        ("Kit, plate to binder", answer.kit_height, needed.map(|n| n.kit_height)),
        (panel, answer.panel_height, needed.map(|n| n.panel_height)),
    ];
    if let Some(stud) = answer.stud_length {
        rows.push(("Stud", stud, needed.and_then(|n| n.stud_length)));
    }
    rows.push(("Ceiling above the floor", answer.ceiling_height, needed.map(|n| n.ceiling_height)));
    let found: Vec<f64> = rows.iter().map(|(_, mm, _)| mm.0).collect();
    let wanted: Vec<f64> = rows.iter().filter_map(|(_, _, mm)| Some((*mm)?.0)).collect();
    let head = match answer.verdict {
        HeightVerdict::AsNeeded => "Needed",
        _ => "As found",
    };
    let mut needs = lengths(units, &wanted).into_iter();
    let figures: Vec<(String, Option<String>)> =
        lengths(units, &found).into_iter().map(|figure| (figure, needs.next())).collect();
    Table::of(rows.iter().zip(&figures))
        .words("Height", |((name, ..), _)| *name)
        .numbers(units.head(head), |(_, (figure, _))| figure)
        .when(needed.is_some(), |table| {
            table.numbers(units.head("Needed"), |(_, (_, need))| need.as_deref().unwrap_or_default())
        })
        .into()
}

fn joists(page: &mut Page, supports: &Supports, units: Units) {
    page.heading("Joists on two supports");
    page.fact("Hanger on the house", format!("{} above the datum", units.fine(supports.house.0)));
    page.fact("Bearing on the wall", format!("{} above the datum", units.fine(supports.wall.0)));
    let fall = supports.fall.0;
    let way = if fall < 0.0 { "rises" } else { "falls" };
    page.fact(
        "As it stands",
        match &supports.one_in {
            Some(n) => format!(
                "the joist {way} {} from house to wall over {}: 1:{}, {}",
                units.fine(fall.abs()),
                units.fine(supports.run.0),
                trimmed(n.0, 0),
                figures::fall(units, supports.fall_per_metre.0.abs())
            ),
            None => format!("the joist lies level over {}", units.fine(supports.run.0)),
        },
    );
    let wanted = supports.wanted.0;
    page.fact(
        "Wanted",
        match wanted {
            w if w > 0.0 => format!("a fall of {} to the wall", units.fine(w)),
            w if w < 0.0 => format!("a fall of {} to the house", units.fine(-w)),
            _ => "level".to_owned(),
        },
    );
    pack_at_joists(page, supports, units);
}

fn pack_at_joists(page: &mut Page, supports: &Supports, units: Units) {
    let packing = units.fine(supports.packing.0);
    page.fact(
        "Pack",
        match supports.pack_under {
            Some(End::House) => format!("{packing} up at the hanger on the house"),
            Some(End::Wall) => format!("{packing} under the bearing on the wall"),
            None => "nothing: it is right".to_owned(),
        },
    );
}

/// What is against a rule, or was taken otherwise than it was meant.
fn not_as_it_should(remarks: &mut Remarks, answer: &Heights, units: Units) {
    if !answer.least.met {
        remarks.note(format!(
            "the ceiling is under {}, the least of {} ({})",
            units.fine(answer.least.limit.0),
            answer.least.source.publication,
            answer.least.source.seen.words()
        ));
    }
    if answer.drops.iter().any(|drop| drop.place.is_some() && drop.pack.is_none()) {
        remarks.note(
            "a drop with its place is taped down to the masonry there; the job has no pack at that place, so it is taken \
             as taped to the packed line",
        );
    }
}

fn notes(remarks: &mut Remarks, answer: &Heights, job: &Job) {
    let units = job.units;
    let wanted = job.heights.as_ref();
    if wanted.is_some_and(|head| head.ceiling.is_none()) {
        let (usual, typed) = match units {
            Units::Mm | Units::M => (COMMON_CEILING, "2.4m"),
            Units::FeetInches => (COMMON_CEILING_IN_FEET, "8ft"),
        };
        remarks.note(format!(
            "no ceiling was asked for: {} ({}; --ceiling {typed} compares with it)",
            usual.says,
            usual.source.seen.words()
        ));
    }
    let one_in = wanted.and_then(|head| head.joists.as_ref()?.one_in);
    if let Some(fall) = ROOF_FALLS.iter().find(|fall| one_in == Some(fall.one_in)) {
        remarks.note(format!(
            "a fall of 1:{}: {} ({}; {})",
            fall.one_in,
            fall.says,
            fall.source.publication,
            fall.source.seen.words()
        ));
    }
    if answer.stud_length.is_none() {
        let rail = units.example("38", "1-1/2in");
        remarks
            .note(format!("for the stud length, name the panel's rails as layers: rail={rail},rail={rail}"));
    }
    let slab = wanted.is_some_and(|head| head.layers.iter().any(|layer| layer.role == Role::Slab));
    remarks.note(if slab {
        "the datum is the line that the plate lies on; the slab lies below it".to_owned()
    } else {
        format!(
            "the datum is the line that the plate lies on, and the floor is laid from it; a slab that lies lower is a \
             layer: slab={}",
            units.example("100", "4in")
        )
    });
}
