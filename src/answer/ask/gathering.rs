//! What the parts of a job need, gathered from their answers: above the capabilities, which know nothing of each other.

use super::listed::listed;
use super::lot::{Cut, Lot};
use crate::answer::commands::{Known, Part};
use crate::answer::error::AnswerError;
use crate::answer::headline::packs_headline;
use crate::answer::joists::RoofJoists;
use crate::cuts::Cuts;
use crate::exact::Tenths;
use crate::geometry::Mm;
use crate::job::{Extra, Job};
use crate::length::Units;
use crate::lines::Lines;
use crate::order::{
    self, ANCHOR, BEARER, BEARER_BOLT, DPC, FromVan, HANGER, HEAD_BINDER, Item, JOIST, Kind, LINE,
    MASONRY_NAIL, Much, Need, NotOrdered, PACKER, PEG, PROFILE_BOARD, Price, STRAP, Size, TEMPORARY_SCREW,
    TIMBER, Unit, WALL_PLATE,
};
use crate::packers::{Packer, Total};
use crate::packing::Packs;
use crate::plates::{Options, Plates, Trouble};
use crate::stock::{InVanTaken, Timber};

/// What a job needs, at its prices.
pub(super) fn gathered(job: &Job, known: &[Part]) -> Result<Gathering, AnswerError> {
    let job = &*listed(job);
    let mut gathering = Gathering {
        question: order::Question {
            tax: job.order.tax,
            markup: job.order.markup,
            contingency: job.order.contingency,
            waste: job.order.waste.clone(),
            prices: job.order.prices.clone(),
            money: job.order.money.clone(),
            to_be_complete: job.order.complete,
            length_unit: match job.units {
                Units::Mm | Units::M => Unit::Metre,
                Units::FeetInches => Unit::Foot,
            },
            ..order::Question::default()
        },
        lots: vec![],
    };
    let parts = job.order.parts;
    let plates = if parts.plates { Some(Plates::part(job, known)?) } else { None };
    match (&plates, &job.plates) {
        (Some(plates), Some(options)) => gathering.plates(plates, options, &job.order.prices),
        _ => gathering.missing("wall plate, head binder, DPC, anchors", "`plates.width` and `stock`"),
    }
    if parts.cuts {
        let taken = plates.as_ref().map_or(&[][..], |plates| plates.from_van.as_slice());
        let after = after(job, taken);
        let cuts = Cuts::part(&after, &[])?;
        if let Some(asked) = &after.cuts {
            gathering.cuts(&cuts, &asked.timber, asked.seconds, ("cuts", TIMBER));
        }
        if !taken.is_empty() {
            gathering.remark("the list of pieces is cut from what the plates leave in the van");
        }
    } else {
        gathering.missing("timber for a list of pieces", "`cuts.pieces`");
    }
    if let Some(plates) = &plates {
        gathering.on_the_plates(plates);
    }
    if parts.packs {
        gathering.packs(&*Packs::part(job, known)?, job);
    } else {
        gathering.missing("packers", "levels in `packs`");
    }
    if let Some(plates) = &plates {
        gathering.fixings(plates, job);
    }
    if parts.joists {
        gathering.joists(&*RoofJoists::part(job, known)?, job);
    }
    if parts.lines {
        gathering.lines(&*Lines::part(job, known)?);
    } else {
        gathering.missing("line, pegs, profile boards", "`lines`");
    }
    gathering.extras(&job.order.extras);
    Ok(gathering)
}

/// The job once this much is gone from the van.
fn after(job: &Job, taken: &[InVanTaken]) -> Job {
    let mut job = job.clone();
    if let Some(cuts) = &mut job.cuts {
        for taken in taken {
            let mut left = taken.count;
            let alike = cuts.timber.in_van.iter_mut().filter(|van| van.length == taken.length);
            for van in alike {
                let gone = left.min(van.count);
                van.count -= gone;
                left -= gone;
            }
        }
        cuts.timber.in_van.retain(|van| van.count > 0);
    }
    job
}

/// What was gathered.
pub(super) struct Gathering {
    /// What is to be ordered.
    pub(super) question: order::Question,
    /// The timber of it, as it was cut.
    pub(super) lots: Vec<Lot>,
}

impl Gathering {
    /// Adds a need, unless nothing is needed.
    fn need(&mut self, item: &str, size: Size, much: Much, from: &str) {
        self.need_at(item, size, much, from, None);
    }

    /// The same at a price of its own, if it has one.
    fn need_at(&mut self, item: &str, size: Size, much: Much, from: &str, own: Option<Price>) {
        let nothing = match &much {
            Much::Things(count) | Much::Lengths { count, .. } => *count == 0,
            Much::Running { length, .. } => length.0 <= 0,
            Much::Own { quantity, .. } => quantity.0 <= 0,
        };
        if !nothing {
            self.question.needs.push(Need {
                item: item.to_owned(),
                size,
                much,
                from: from.to_owned(),
                own,
                plot: None,
            });
        }
    }

    fn missing(&mut self, what: &'static str, give: &'static str) {
        self.question.not_ordered.push(NotOrdered { what, give });
    }

    fn remark(&mut self, words: impl Into<String>) {
        self.question.remarks.push(words.into());
    }

    /// The plates' timber. A length that any piece of the plate is cut from is wall plate.
    fn plates(&mut self, plates: &Plates, options: &Options, prices: &[Price]) {
        let lot = Lot::of_plates(
            plates,
            &Cut {
                timber: &options.timber,
                seconds: options.seconds,
                bars: &plates.bars,
                buy: &plates.buy,
                cost: plates.cost,
                proven: plates.proven,
            },
        );
        let both = lot.shared();
        self.lot(lot);
        if both > 0 {
            self.remark(match both {
                1 => "1 of the lengths listed as wall plate is cut for the head binder too".to_owned(),
                n => format!("{n} of the lengths listed as wall plate are cut for the head binder too"),
            });
        }
        let listed = |item: &str| prices.iter().any(|price| price.item == item);
        if !plates.priced && (listed(WALL_PLATE) || listed(HEAD_BINDER)) {
            self.remark(
                "the plates' lengths are the least timber, not the least money: give the wall plate's lengths in the price list, each with its price",
            );
        }
    }

    /// Timber that is all of one item.
    fn cuts(
        &mut self,
        cuts: &Cuts,
        timber: &Timber,
        seconds: f64,
        (from, item): (&'static str, &'static str),
    ) {
        let cut =
            Cut { timber, seconds, bars: &cuts.bars, buy: &cuts.buy, cost: cuts.cost, proven: cuts.proven };
        self.lot(Lot::of(from, item, &cut));
    }

    /// The lengths to buy, and those from the van.
    fn lot(&mut self, lot: Lot) {
        let from = lot.from;
        self.question.needs.extend(lot.needs(&self.question.prices));
        self.question.from_van.extend(lot.in_van());
        if !lot.proven {
            self.remark(format!(
                "{from}: a better list than this may exist; `pegline {from}` says by how much"
            ));
        }
        self.lots.push(lot);
    }

    /// The packers, and whether the packing is right.
    fn packs(&mut self, packs: &Packs, job: &Job) {
        let packing = job.packs.as_ref();
        let named = packing.map_or(&[][..], |packing| packing.packers.as_slice());
        if named.is_empty() {
            self.missing("packers", "the thicknesses in `packs.packers`");
        }
        self.packers(&packs.totals, named, "packs");
        if packing.is_some_and(|packing| packing.studs.is_none()) && !packs.totals.is_empty() {
            self.remark("packers are counted for the places read alone; `studs`, the studs' centres, counts a pack under every stud");
        }
        if !packs.verdict.good() {
            self.remark(format!("packs: {}", packs_headline(packs, job.units)));
        }
    }

    /// What goes under the plates.
    fn on_the_plates(&mut self, plates: &Plates) {
        let dpc = &plates.dpc;
        let much = Much::Running {
            length: Tenths::at_least(dpc.strip.0),
            lap: Tenths::at_least(dpc.lap.0),
            roll: dpc.roll.map(|roll| Tenths::nearest(roll.0)),
        };
        self.need(DPC, Size::Length(dpc.width), much, "plates");
    }

    /// The joists' timber, their hangers, the bearer and its bolts, and what goes under them.
    fn joists(&mut self, joists: &RoofJoists, job: &Job) {
        match (&joists.cut, &job.joists) {
            (Some(cut), Some(asked)) => {
                self.cuts(cut, &asked.timber, asked.seconds, ("joists", JOIST));
            }
            _ => self.missing("joists", "their lengths in `joists.stock`"),
        }
        for hangers in &joists.set_out.hangers {
            self.need(HANGER, Size::Length(hangers.width), Much::Things(count(hangers.count)), "joists");
        }
        for bearer in &joists.set_out.bearers {
            let length = Tenths::at_least(bearer.length.0);
            self.need(BEARER, Size::Any, Much::Running { length, lap: Tenths(0), roll: None }, "joists");
            self.need(BEARER_BOLT, Size::Any, Much::Things(count(bearer.bolts.unwrap_or(0))), "joists");
        }
        let named = job.joists.as_ref().map_or(&[][..], |asked| asked.question.packers.as_slice());
        if let Some(levels) = &joists.set_out.levels {
            self.packers(&levels.totals, named, "joists");
        }
        let scarce = |packers: &[Packer]| packers.iter().any(|packer| packer.count.is_some());
        if scarce(named) && job.packs.as_ref().is_some_and(|packing| scarce(&packing.packers)) {
            self.remark(
                "packers for the plate and for the joists are each taken from the van as if it were full",
            );
        }
        if !joists.set_out.verdict.good() {
            self.remark("the joists are not right yet: `pegline joists` says why");
        }
    }

    /// Packers that there are plenty of are ordered; those that were counted are in the van.
    fn packers(&mut self, totals: &[Total], named: &[Packer], from: &'static str) {
        for total in totals {
            let size = Size::Length(total.thickness);
            let plenty = named
                .iter()
                .any(|packer| packer.count.is_none() && size.same(&Size::Length(Mm(packer.thickness))));
            if plenty {
                self.need(PACKER, size, Much::Things(total.count), from);
            } else if total.count > 0 {
                self.question.from_van.push(FromVan {
                    item: PACKER.to_owned(),
                    size,
                    quantity: total.count,
                    from,
                });
            }
        }
    }

    fn fixings(&mut self, plates: &Plates, job: &Job) {
        let anchors = count(plates.anchors.len());
        self.need(ANCHOR, Size::Any, Much::Things(anchors), "plates");
        let straps = plates.straps.map_or(0, |straps| straps.count);
        self.need(STRAP, Size::Any, Much::Things(straps), "plates");
        let screws = plates.fixings.map_or(0, |fixings| fixings.count);
        self.need(TEMPORARY_SCREW, Size::Any, Much::Things(screws), "plates");
        if let Some(straps) = plates.straps
            && let Some(source) = straps.source
        {
            self.remark(format!(
                "straps at most {} apart ({}; {})",
                job.units.with_unit(straps.every.0),
                source.publication,
                source.seen.words()
            ));
        }
        if let Some(fixings) = plates.fixings {
            self.remark(format!(
                "temporary screws at most {} apart, two or more a piece (common practice, no source)",
                job.units.with_unit(fixings.every.0)
            ));
        }
        if plates.anchor_rule.is_none() {
            self.missing("anchors", "`plates.anchors`");
        }
        if plates.straps.is_none() {
            self.missing("straps", "`plates.straps`");
        }
        if plates.fixings.is_none() {
            self.missing("temporary screws", "`plates.fix_every`");
        }
        let short =
            plates.anchor_troubles.iter().filter(|trouble| trouble.problem == Trouble::TooShort).count();
        if short > 0 {
            self.remark(match short {
                1 => "1 piece of plate is too short for two anchors by the rule: none is counted for it"
                    .to_owned(),
                n => format!(
                    "{n} pieces of plate are too short for two anchors by the rule: none are counted for them"
                ),
            });
        }
        if job.plates.as_ref().is_some_and(|options| !options.binder) {
            self.missing("head binder", "`plates.binder`: true");
        }
    }

    fn lines(&mut self, lines: &Lines) {
        let much =
            Much::Running { length: Tenths::at_least(lines.string.length.0), lap: Tenths(0), roll: None };
        self.need(LINE, Size::Any, much, "lines");
        self.need(PEG, Size::Any, Much::Things(count(lines.pegs)), "lines");
        self.need(
            MASONRY_NAIL,
            Size::Any,
            Much::Things(count(lines.nails_in_the_wall().filter(|nail| !nail.past_wall).count())),
            "lines",
        );
        for size in &lines.board_sizes {
            let much = Much::Lengths { count: count(size.count), each: Tenths::nearest(size.length.0) };
            self.need(PROFILE_BOARD, Size::Length(size.length), much, "lines");
        }
    }

    /// The user's own items. A price that stands with one is that one's alone.
    fn extras(&mut self, extras: &[Extra]) {
        for extra in extras {
            let whole = u64::try_from(extra.quantity.0 / 100).unwrap_or(0);
            let kind = Item::named(&extra.item).map(|item| item.kind);
            let much = match (kind, &extra.unit, &extra.size) {
                (Some(Kind::Lengths), _, Size::Length(length)) => {
                    Much::Lengths { count: whole, each: Tenths::nearest(length.0) }
                }
                (_, Unit::Each, _) => Much::Things(whole),
                (kind, unit, _) => {
                    match unit.length(extra.quantity).filter(|_| kind == Some(Kind::Running)) {
                        Some(length) => Much::Running { length, lap: Tenths(0), roll: None },
                        None => Much::Own { quantity: extra.quantity, unit: unit.clone() },
                    }
                }
            };
            let own = extra.rate.map(|rate| Price {
                item: extra.item.clone(),
                size: extra.size.clone(),
                unit: Some(extra.unit.clone()),
                pack: None,
                rate,
                waste: None,
                added: extra.added,
                available: None,
            });
            self.need_at(&extra.item, extra.size.clone(), much, "extras", own);
        }
    }
}

fn count(number: usize) -> u64 {
    u64::try_from(number).unwrap_or(u64::MAX)
}
