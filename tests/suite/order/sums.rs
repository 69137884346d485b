//! Quantities and amounts of single lines, figured by hand.

use pegline::exact::{Hundredths, Pence, Percent, Rate, Tenths};
use pegline::geometry::Mm;
use pegline::length::Units;
use pegline::order::{
    Added, Line, Much, Need, Order, OrderError, Price, Question, Size, Unit, amount, order,
};

pub(super) fn need(item: &str, much: Much) -> Need {
    Need { item: item.to_owned(), size: Size::Any, much, from: "part".to_owned(), own: None, plot: None }
}

pub(super) fn price(item: &str, unit: Unit, pack: Option<i64>, rate: i64) -> Price {
    Price {
        item: item.to_owned(),
        size: Size::Any,
        unit: Some(unit),
        pack: pack.map(Hundredths),
        rate: Rate::from(Pence(rate)),
        waste: None,
        added: Added::default(),
        available: None,
    }
}

fn one(needed: Need, priced: Price, waste: i64) -> Line {
    let answer = order(&Question {
        waste: vec![(needed.item.clone(), Percent(waste))],
        needs: vec![needed],
        prices: vec![priced],
        ..Question::default()
    });
    answer.unwrap().lines.remove(0)
}

fn priced_order(rates: &[i64], tax: i64) -> Order {
    let items: Vec<String> = (0..rates.len()).map(|i| format!("item {i}")).collect();
    order(&Question {
        needs: items.iter().map(|item| need(item, Much::Things(1))).collect(),
        prices: items.iter().zip(rates).map(|(item, rate)| price(item, Unit::Each, None, *rate)).collect(),
        tax: Some(Percent(tax)),
        ..Question::default()
    })
    .unwrap()
}

#[test]
fn half_a_penny_goes_up_and_less_goes_down() {
    // 0.5 × 0.01 = 0.005; 0.49 × 0.01 = 0.0049; 1.5 × 0.03 = 0.045; 12.34 × 5.67 = 69.9678.
    for (quantity, rate, pence) in [(50, 1, 1), (49, 1, 0), (150, 3, 5), (1234, 567, 6997), (0, 999, 0)] {
        assert_eq!(amount(Hundredths(quantity), Rate::from(Pence(rate))), Pence(pence));
    }
}

#[test]
fn tax_is_rounded_once_on_the_net_and_not_line_by_line() {
    // 20 % of 0.12 is 0.024, 0.02 a line; on three lines together 0.072, so 0.07 and not 0.06.
    let answer = priced_order(&[12, 12, 12], 2000);
    assert_eq!((answer.net, answer.tax, answer.total), (Pence(36), Some(Pence(7)), Pence(43)));
    // 17.5 % of 0.20 is 0.035 exactly: half up.
    assert_eq!(priced_order(&[20], 1750).tax, Some(Pence(4)));
    // 5 % of 0.49 is 0.0245; 7.25 % of 100.00 is 7.25.
    assert_eq!(priced_order(&[49], 500).tax, Some(Pence(2)));
    assert_eq!(priced_order(&[10_000], 725).tax, Some(Pence(725)));
    assert_eq!(priced_order(&[10_000], 0).total, Pence(10_000));
}

#[test]
fn whole_packs_are_bought_and_one_over_takes_another() {
    for (needed, packs) in [(1, 1), (9, 1), (10, 1), (11, 2), (20, 2), (21, 3)] {
        let line = one(need("peg", Much::Things(needed)), price("peg", Unit::Each, Some(1000), 640), 0);
        assert_eq!(line.quantity, Hundredths::whole(packs), "{needed}");
        assert_eq!(line.unit, "pack of 10");
        assert_eq!(line.amount, Some(Pence(640 * packs)));
    }
}

#[test]
fn waste_is_added_before_anything_is_rounded_up() {
    // 19 and 5 % more are 19.95: 20, and so two packs of 10; 19 × 10 % = 20.9: 21, three packs.
    let pegs = |waste| one(need("peg", Much::Things(19)), price("peg", Unit::Each, Some(1000), 640), waste);
    assert_eq!((pegs(500).quantity, pegs(1000).quantity), (Hundredths::whole(2), Hundredths::whole(3)));
    // No waste is no whole one more; the least waste is.
    let loose = |waste| one(need("peg", Much::Things(19)), price("peg", Unit::Each, None, 64), waste);
    assert_eq!((loose(0).quantity, loose(1).quantity), (Hundredths::whole(19), Hundredths::whole(20)));
}

#[test]
fn timber_is_priced_by_the_piece_or_by_the_metre_that_whole_pieces_come_to() {
    let bars = || Need {
        size: Size::Length(Mm(4800.0)),
        ..need("wall plate", Much::Lengths { count: 3, each: Tenths::from_mm(4800) })
    };
    let piece = one(bars(), price("wall plate", Unit::Each, None, 1560), 0);
    assert_eq!((piece.quantity, piece.amount), (Hundredths::whole(3), Some(Pence(4680))));
    // 3 × 4.8 = 14.4 m at 3.25.
    let metres = one(bars(), price("wall plate", Unit::Metre, None, 325), 0);
    assert_eq!((metres.quantity, metres.amount), (Hundredths(1440), Some(Pence(4680))));
    // 10 % more than 3 is 3.3: 4 whole ones, 19.2 m.
    let more = one(bars(), price("wall plate", Unit::Metre, None, 325), 1000);
    assert_eq!((more.quantity, more.lengths), (Hundredths(1920), Some(4)));
    assert_eq!((more.spare, metres.spare), (Some(1), None));
    // 14.4 m are 47.244… ft, up to the next hundredth.
    let feet = one(bars(), price("wall plate", Unit::Foot, None, 100), 0);
    assert_eq!(feet.quantity, Hundredths(4725));
}

#[test]
fn rolls_lose_a_lap_at_each_joint() {
    let strip = |mm| Much::Running { length: Tenths::from_mm(mm), lap: Tenths::from_mm(100), roll: None };
    // Two rolls of 30 m are 59.9 m, three 89.8 m.
    for (mm, rolls) in [(1, 1), (30_000, 1), (30_001, 2), (59_900, 2), (59_901, 3), (89_800, 3), (89_801, 4)]
    {
        let line = one(need("DPC", strip(mm)), price("DPC", Unit::Metre, Some(3000), 950), 0);
        assert_eq!(line.quantity, Hundredths::whole(rolls), "{mm} mm");
    }
}

#[test]
fn a_roll_must_be_longer_than_its_lap_and_known_to_be_priced() {
    let running = |roll| Much::Running { length: Tenths::from_mm(14_000), lap: Tenths::from_mm(100), roll };
    let asked = |much, priced| {
        order(&Question { needs: vec![need("DPC", much)], prices: vec![priced], ..Question::default() })
            .map(|answer| answer.lines[0].quantity)
    };
    let by_roll = || price("DPC", Unit::Each, None, 950);
    assert_eq!(asked(running(None), by_roll()), Err(OrderError::NoRoll { item: "DPC".to_owned() }));
    assert_eq!(asked(running(Some(Tenths::from_mm(8000))), by_roll()), Ok(Hundredths::whole(2)));
    let said = asked(running(None), price("DPC", Unit::Metre, Some(10), 950)).unwrap_err().to_string();
    assert_eq!(said, "a roll of DPC is 100 mm long and a joint takes 100 mm: write a longer roll as `pack`");
}

#[test]
fn an_item_without_a_price_stays_on_the_list_and_out_of_the_total() {
    let answer = order(&Question {
        needs: vec![need("peg", Much::Things(14)), need("anchor", Much::Things(2))],
        prices: vec![price("anchor", Unit::Each, None, 145)],
        ..Question::default()
    })
    .unwrap();
    assert_eq!((answer.lines[0].quantity, answer.lines[0].amount), (Hundredths::whole(14), None));
    assert_eq!((answer.unpriced, answer.total), (1, Pence(290)));
}

#[test]
fn needs_of_one_item_share_their_packs() {
    let answer = order(&Question {
        needs: vec![
            need("peg", Much::Things(6)),
            Need { from: "extras".to_owned(), ..need("Peg", Much::Things(4)) },
        ],
        prices: vec![price("peg", Unit::Each, Some(1000), 640)],
        ..Question::default()
    })
    .unwrap();
    assert_eq!(answer.lines.len(), 1);
    assert_eq!((answer.lines[0].quantity, answer.total), (Hundredths::whole(1), Pence(640)));
    assert_eq!(answer.lines[0].from, "part, extras");
}

/// How many lines two needs of one item make, and how much is needed on the first.
fn together(first: Much, second: Much) -> (usize, Hundredths) {
    let needs = [first, second].map(|much| need("timber", much)).to_vec();
    let lines = order(&Question { needs, ..Question::default() }).unwrap().lines;
    (lines.len(), lines[0].needed)
}

#[test]
fn only_needs_that_are_counted_alike_share_a_line() {
    let bars = |count, mm| Much::Lengths { count, each: Tenths::from_mm(mm) };
    assert_eq!(together(bars(3, 4800), bars(2, 4800)), (1, Hundredths::whole(5)));
    assert_eq!(together(bars(3, 4800), bars(2, 4200)), (2, Hundredths::whole(3)));
    let own = |quantity, unit: &str| Much::Own {
        quantity: Hundredths::whole(quantity),
        unit: Unit::Named(unit.to_owned()),
    };
    assert_eq!(together(own(3, "bag"), own(2, "Bag")), (1, Hundredths::whole(5)));
    assert_eq!(together(own(3, "bag"), own(2, "tonne")), (2, Hundredths::whole(3)));
}

#[test]
fn a_price_of_one_length_is_by_the_piece_or_by_the_metre_and_of_nothing_else() {
    let of_one = |unit, pack| price("wall plate", unit, pack, 325).of_one(Tenths::from_mm(4800));
    // 4.8 × 3.25; in feet 4800 / 304.8 is 15.748…, up to 15.75, × 3.25 = 51.1875.
    assert_eq!(of_one(Unit::Metre, None), Some(Pence(1560)));
    assert_eq!(of_one(Unit::Foot, None), Some(Pence(5119)));
    assert_eq!(of_one(Unit::Each, None), Some(Pence(325)));
    assert_eq!(of_one(Unit::Each, Some(1000)), None);
    assert_eq!(of_one(Unit::Named("hour".to_owned()), None), None);
    let by_length = |unit| price("wall plate", unit, None, 325).by_length();
    assert_eq!([Unit::Metre, Unit::Foot, Unit::Each].map(by_length), [true, true, false]);
}

#[test]
fn a_pack_of_none_is_no_pack() {
    let line = one(need("peg", Much::Things(14)), price("peg", Unit::Each, Some(0), 64), 0);
    assert_eq!((line.quantity, line.pack), (Hundredths::whole(14), None));
}

#[test]
fn a_roll_is_shown_to_the_nearest_hundredth_of_a_foot() {
    // 20 m are 65.6167… ft.
    let strip = Much::Running {
        length: Tenths::from_mm(9000),
        lap: Tenths::from_mm(100),
        roll: Some(Tenths::from_mm(20_000)),
    };
    let answer =
        order(&Question { needs: vec![need("DPC", strip)], length_unit: Unit::Foot, ..Question::default() });
    assert_eq!(answer.unwrap().lines[0].unit, "roll of 65.62 ft");
}

#[test]
fn what_fills_a_gap_is_named_to_the_tenth_and_timber_to_the_millimetre() {
    let words = |item| Size::Length(Mm(1.5)).words(item, Units::Mm);
    assert_eq!(["packer", "DPC", "wall plate"].map(words), ["1.5 mm", "1.5 mm", "2 mm"]);
}

#[test]
fn a_price_of_the_size_comes_before_one_of_any_size() {
    let sized =
        |mm: f64, rate| Price { size: Size::Length(Mm(mm)), ..price("packer", Unit::Each, None, rate) };
    let packer = |mm: f64| Need { size: Size::Length(Mm(mm)), ..need("packer", Much::Things(1)) };
    let answer = order(&Question {
        needs: vec![packer(5.0), packer(2.0), packer(3.175)],
        prices: vec![price("packer", Unit::Each, None, 10), sized(5.0, 20), sized(3.175, 30), sized(9.0, 40)],
        ..Question::default()
    })
    .unwrap();
    let rates: Vec<Option<Rate>> = answer.lines.iter().map(|line| line.rate).collect();
    assert_eq!(rates, [20, 10, 30].map(|pence| Some(Rate::from(Pence(pence)))));
    assert_eq!(answer.unused_prices.len(), 1);
    assert_eq!(answer.unused_prices[0].size, Size::Length(Mm(9.0)));
}

#[test]
fn an_item_without_a_size_takes_the_only_size_listed_and_no_one_of_several() {
    let sized =
        |text: &str| Price { size: Size::Text(text.to_owned()), ..price("anchor", Unit::Each, None, 145) };
    let asked = |prices| {
        order(&Question { needs: vec![need("anchor", Much::Things(2))], prices, ..Question::default() })
            .unwrap()
    };
    let only = asked(vec![sized("M10 x 150")]);
    assert_eq!((&only.lines[0].size, only.total), (&Size::Text("M10 x 150".to_owned()), Pence(290)));
    let several = asked(vec![sized("M10 x 150"), sized("M12 x 200")]);
    assert_eq!((several.unpriced, several.total), (1, Pence(0)));
    assert_eq!(several.remarks, ["the price list has 2 sizes of anchor: keep the one that is to be used"]);
}

#[test]
fn the_price_that_timber_was_chosen_by_stands_and_the_lists_is_told() {
    let chosen = Need {
        own: Some(price("wall plate", Unit::Each, None, 1560)),
        ..need("wall plate", Much::Lengths { count: 2, each: Tenths::from_mm(4800) })
    };
    let asked = |rate| {
        order(&Question {
            needs: vec![chosen.clone()],
            prices: vec![price("wall plate", Unit::Each, None, rate)],
            ..Question::default()
        })
        .unwrap()
    };
    let other = asked(1600);
    assert_eq!((other.total, other.overruled[0].listed), (Pence(3120), Rate::from(Pence(1600))));
    assert!(asked(1560).overruled.is_empty());
}

#[test]
fn what_is_too_large_is_refused_and_not_wrapped_round() {
    let asked = |count, rate| {
        order(&Question {
            needs: vec![need("peg", Much::Things(count))],
            prices: vec![price("peg", Unit::Each, None, rate)],
            ..Question::default()
        })
        .map(|answer| answer.total)
        .map_err(|error| error.to_string())
    };
    assert_eq!(asked(1_000_000, 10_000_000), Ok(Pence(10_000_000_000_000)));
    assert_eq!(
        asked(1_000_000, 10_000_001),
        Err("peg comes to over 100000000000.00: check the prices and quantities".to_owned())
    );
    assert_eq!(
        asked(u64::MAX, 1),
        Err("the quantity of peg is over 1000000: check the number and its unit".to_owned())
    );
    let both = order(&Question {
        needs: vec![need("peg", Much::Things(1_000_000)), need("strap", Much::Things(1_000_000))],
        prices: ["peg", "strap"].map(|item| price(item, Unit::Each, None, 10_000_000)).to_vec(),
        ..Question::default()
    });
    assert_eq!(
        both.unwrap_err().to_string(),
        "the order comes to over 100000000000.00: check the prices and quantities"
    );
}
