//! A job file to start from.

use std::str::FromStr;

use super::{
    AnchorsSection, DecimalEntry, ForSaleEntry, HeightsSection, JobFile, LayerEntry, LengthEntry,
    LinesSection, MoneyEntry, OrderSection, PacksSection, PlatesSection, PriceEntry, ReadingEntry, SCHEMA,
    StockSection, StraightSection, StretchEntry, TapeSection,
};
use crate::order::{ANCHOR, DPC};
use crate::plan::corner_name;
use crate::words::quoted;

/// The shapes that a starter can be had for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Four corners.
    Rectangle,
    /// Six corners: a rectangle with one corner cut out.
    L,
    /// Eight corners: a bar with a leg.
    T,
    /// Eight corners: a bar with two legs.
    U,
}

/// A shape that there is no starter for.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("there is no starter for `{0}`: write rectangle, L, T or U")]
pub struct UnknownShape(pub String);

impl FromStr for Shape {
    type Err = UnknownShape;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text.trim().to_ascii_lowercase().as_str() {
            "rectangle" => Ok(Self::Rectangle),
            "l" => Ok(Self::L),
            "t" => Ok(Self::T),
            "u" => Ok(Self::U),
            _ => Err(UnknownShape(quoted(text))),
        }
    }
}

/// A job file for `shape` with every field filled in by an invented example.
#[must_use]
pub fn starter(shape: Shape) -> JobFile {
    let plan = match shape {
        Shape::Rectangle => "6000x4000",
        Shape::L => "7800x6000-3000x2400",
        Shape::T => "9000x3000+3600x2400",
        Shape::U => "9000x3000+2400x2100@0+2400x2100@6600",
    };
    let corners = match shape {
        Shape::Rectangle => 4,
        Shape::L => 6,
        Shape::T | Shape::U => 8,
    };
    JobFile {
        schema: Some(SCHEMA),
        name: Some("Rear extension".to_owned()),
        units: Some("mm".to_owned()),
        plan: Some(plan.to_owned()),
        house: Some(vec!["AB".to_owned()]),
        tape: Some(TapeSection {
            class: Some("II".to_owned()),
            length: Some(LengthEntry::Text("30m".to_owned())),
            ..TapeSection::default()
        }),
        openings: Some(vec![StretchEntry {
            side: Some("CD".to_owned()),
            at: Some(length("600")),
            width: Some(length("900")),
            name: Some("door".to_owned()),
            ..StretchEntry::default()
        }]),
        studs: Some(length("600")),
        lines: Some(LinesSection {
            setback: Some(length("1m")),
            layers: Some(
                [("skin", "102"), ("cavity", "50"), ("plate", "140")]
                    .map(|(name, width)| LayerEntry {
                        name: Some(name.to_owned()),
                        width: Some(length(width)),
                    })
                    .to_vec(),
            ),
            footing: Some(length("600")),
            ..LinesSection::default()
        }),
        straight: Some(StraightSection {
            side: Some("CD".to_owned()),
            block: Some(length("20")),
            readings: Some(
                [("0", "20"), ("1200", "22"), ("2400", "19")]
                    .map(|(at, reading)| ReadingEntry {
                        at: Some(length(at)),
                        reading: Some(length(reading)),
                    })
                    .to_vec(),
            ),
            limit: Some(length("3")),
            ..StraightSection::default()
        }),
        packs: Some(packs(corners)),
        heights: Some(heights()),
        stock: Some(StockSection {
            lengths: Some(
                [("3.6m", "10.80"), ("4.8m", "15.60"), ("6.0m", "21.60")]
                    .map(|(stock, price)| ForSaleEntry {
                        length: length(stock),
                        price: Some(MoneyEntry::Text(price.to_owned())),
                    })
                    .to_vec(),
            ),
            ..StockSection::default()
        }),
        plates: Some(PlatesSection {
            width: Some(length("140")),
            binder: Some(true),
            anchors: Some(AnchorsSection {
                spacing: Some(length("1200")),
                end: Some(length("150")),
                ..AnchorsSection::default()
            }),
            ..PlatesSection::default()
        }),
        order: Some(order()),
        ..JobFile::default()
    }
}

/// Two invented prices, waste and tax.
fn order() -> OrderSection {
    let price = |item: &str, unit: &str, pack: &str, rate: &str| PriceEntry {
        item: item.to_owned(),
        size: None,
        unit: Some(unit.to_owned()),
        pack: Some(DecimalEntry::Text(pack.to_owned())),
        rate: MoneyEntry::Text(rate.to_owned()),
        waste_percent: None,
    };
    OrderSection {
        prices: Some(vec![price(DPC, "m", "30", "9.50"), price(ANCHOR, "each", "10", "14.50")]),
        tax_percent: Some(DecimalEntry::Text("20".to_owned())),
        waste: Some(vec!["line=5".to_owned()]),
        ..OrderSection::default()
    }
}

/// A staff reading at each corner.
fn packs(corners: usize) -> PacksSection {
    let read = [1412, 1409, 1405, 1411, 1415, 1410, 1408, 1413];
    let staff = (0..corners).zip(read).map(|(i, mm)| format!("{}={mm}", corner_name(i))).collect();
    PacksSection {
        staff: Some(vec![staff]),
        packers: Some(["1", "2", "3", "5", "10"].map(length).to_vec()),
        limit: Some(length("10")),
        ..PacksSection::default()
    }
}

/// A wall head high enough for the ceiling.
fn heights() -> HeightsSection {
    let stack = ["plate=38", "rail=38", "rail=38", "binder=38", "floor=25", "lining=15"];
    HeightsSection {
        drops: Some(["2503", "2501", "2502"].map(length).to_vec()),
        level_depth: Some(length("50")),
        stack: Some(stack.map(str::to_owned).to_vec()),
        ceiling: Some(length("2400")),
        ..HeightsSection::default()
    }
}

fn length(text: &str) -> LengthEntry {
    LengthEntry::Text(text.to_owned())
}
