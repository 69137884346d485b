//! What the parts of a job need, gathered from their answers: above the capabilities, which know nothing of each other.

use crate::answer::commands::{Asked, Known, Part};
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
    self, ANCHOR, BEARER, BEARER_BOLT, DPC, FromVan, HANGER, HEAD_BINDER, Item, JOIST, Kind, LINE, Much,
    Need, NotOrdered, Order, PACKER, PEG, PROFILE_BOARD, Price, STRAP, Size, TEMPORARY_SCREW, TIMBER, Unit,
    WALL_PLATE,
};
use crate::packers::{Packer, Total};
use crate::packing::Packs;
use crate::plates::{Layer, Plates, Trouble};
use crate::stock::{Bar, Buy, InVanTaken};

/// Said of a job without a part that needs anything: it has no options to name.
const NOTHING: &str = "there is nothing to order: give `plates`, `cuts`, `packs`, `joists`, `lines` or `order.extras` in the job file (`pegline job new` writes one)";

impl Asked for Order {
    /// Every part that something is given for is answered, unless it is among the `known`.
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError> {
        let mut gathering = Gathering {
            question: order::Question {
                tax: job.order.tax,
                waste: job.order.waste.clone(),
                length_unit: match job.units {
                    Units::Mm | Units::M => Unit::Metre,
                    Units::FeetInches => Unit::Foot,
                },
                ..order::Question::default()
            },
        };
        let parts = job.order.parts;
        let plates = if parts.plates { Some(Plates::part(job, known)?) } else { None };
        match &plates {
            Some(plates) => gathering.plates(plates, job),
            None => gathering.missing("wall plate, head binder, DPC, anchors", "`plates.width` and `stock`"),
        }
        if parts.cuts {
            let taken = plates.as_ref().map_or(&[][..], |plates| plates.from_van.as_slice());
            let cuts = Cuts::part(&after(job, taken), &[])?;
            gathering.timber(&cuts.bars, &cuts.buy, cuts.proven, "cuts", |_| TIMBER);
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
            let packs = Packs::part(job, known)?;
            let named = job.packs.as_ref().map_or(&[][..], |packing| packing.packers.as_slice());
            if named.is_empty() {
                gathering.missing("packers", "the thicknesses in `packs.packers`");
            }
            gathering.packers(&packs.totals, named, "packs");
            if !packs.verdict.good() {
                gathering.remark(format!("packs: {}", packs_headline(&packs, job.units)));
            }
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
        let mut question = gathering.question;
        if question.needs.is_empty() && question.from_van.is_empty() {
            return Err(AnswerError::Missing { typed: NOTHING, in_file: NOTHING });
        }
        question.prices.extend(job.order.prices.iter().cloned());
        Ok(order::order(&question)?)
    }
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
        job.has_timber = !(cuts.timber.for_sale.is_empty() && cuts.timber.in_van.is_empty());
    }
    job
}

struct Gathering {
    question: order::Question,
}

impl Gathering {
    /// Adds a need, unless nothing is needed.
    fn need(&mut self, item: &str, size: Size, much: Much, from: &str) {
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
                rate: None,
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
    fn plates(&mut self, plates: &Plates, job: &Job) {
        let on = |bar: usize, layer: Layer| {
            plates
                .runs
                .iter()
                .filter(|run| run.layer == layer)
                .any(|run| run.pieces.iter().any(|piece| piece.bar == bar))
        };
        let item = |bar: usize| {
            if on(bar, Layer::Plate) { WALL_PLATE } else { HEAD_BINDER }
        };
        self.timber(&plates.bars, &plates.buy, plates.proven, "plates", item);
        let both =
            (0..plates.bars.len()).filter(|bar| on(*bar, Layer::Plate) && on(*bar, Layer::Binder)).count();
        if both > 0 {
            self.remark(match both {
                1 => "1 of the lengths listed as wall plate is cut for the head binder too".to_owned(),
                n => format!("{n} of the lengths listed as wall plate are cut for the head binder too"),
            });
        }
        let listed = |item: &str| job.order.prices.iter().any(|price| price.item == item);
        if !plates.priced && (listed(WALL_PLATE) || listed(HEAD_BINDER)) {
            self.remark(
                "the plates' lengths are the least timber, not the least money: put their prices in `stock` for that",
            );
        }
    }

    /// The lengths to buy, and those from the van, shortest first.
    fn timber(
        &mut self,
        bars: &[Bar],
        buy: &[Buy],
        proven: bool,
        from: &'static str,
        item: impl Fn(usize) -> &'static str,
    ) {
        for name in [WALL_PLATE, HEAD_BINDER, TIMBER, JOIST] {
            let of_item = |in_van: bool| -> Vec<(Tenths, u64)> {
                let mut lengths: Vec<Tenths> = bars
                    .iter()
                    .enumerate()
                    .filter(|(i, bar)| bar.in_van == in_van && item(*i) == name)
                    .map(|(_, bar)| bar.stock)
                    .collect();
                lengths.sort_unstable();
                lengths
                    .chunk_by(|a, b| a == b)
                    .filter_map(|alike| Some((*alike.first()?, count(alike.len()))))
                    .collect()
            };
            for (length, count) in of_item(false) {
                self.question.needs.push(Need {
                    item: name.to_owned(),
                    size: Size::Length(length.to_mm()),
                    much: Much::Lengths { count, each: length },
                    from: from.to_owned(),
                    rate: buy.iter().find(|line| line.length == length).and_then(|line| line.rate),
                });
            }
            for (length, quantity) in of_item(true) {
                self.question.from_van.push(FromVan {
                    item: name.to_owned(),
                    size: Size::Length(length.to_mm()),
                    quantity,
                    from,
                });
            }
        }
        if !proven {
            self.remark(format!(
                "{from}: a better list than this may exist; `pegline {from}` says by how much"
            ));
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
        match &joists.cut {
            Some(cut) => self.timber(&cut.bars, &cut.buy, cut.proven, "joists", |_| JOIST),
            None => self.missing("joists", "their lengths in `joists.stock`"),
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
        for size in &lines.board_sizes {
            let much = Much::Lengths { count: count(size.count), each: Tenths::nearest(size.length.0) };
            self.need(PROFILE_BOARD, Size::Length(size.length), much, "lines");
        }
    }

    /// The user's own items. A price that stands with one comes before the price list's.
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
            self.need(&extra.item, extra.size.clone(), much, "extras");
            if let Some(rate) = extra.rate {
                self.question.prices.push(Price {
                    item: extra.item.clone(),
                    size: extra.size.clone(),
                    unit: Some(extra.unit.clone()),
                    pack: None,
                    rate,
                    waste: None,
                });
            }
        }
    }
}

fn count(number: usize) -> u64 {
    u64::try_from(number).unwrap_or(u64::MAX)
}
