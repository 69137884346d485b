//! The price list as the timber merchant: the lengths that it prices are what a job is cut from, at its prices.

use std::borrow::Cow;

use crate::exact::Tenths;
use crate::geometry::Mm;
use crate::job::Job;
use crate::order::{JOIST, Price, Size, TIMBER, WALL_PLATE};
use crate::stock::{ForSale, Timber};

/// No timber is sold shorter, mm: a bare 3.6 on a list in mm was meant as metres.
const SHORTEST_SOLD: f64 = 200.0;

/// The job with the lengths and prices of its price list for timber, wherever the list has them.
pub(super) fn listed(job: &Job) -> Cow<'_, Job> {
    if job.order.prices.is_empty() {
        return Cow::Borrowed(job);
    }
    let mut listed = job.clone();
    let prices = &job.order.prices;
    if let Some(plates) = &mut listed.plates {
        put(&mut plates.timber, prices, WALL_PLATE);
    }
    if let Some(cuts) = &mut listed.cuts {
        put(&mut cuts.timber, prices, TIMBER);
    }
    if let Some(joists) = &mut listed.joists {
        put(&mut joists.timber, prices, JOIST);
    }
    Cow::Owned(listed)
}

/// Puts the list's lengths of an item in the place of those for sale; or, where it prices the item by the metre or foot
/// whatever the length, its prices on them. A list that sells it in packs prices what has been chosen.
fn put(timber: &mut Timber, prices: &[Price], item: &str) {
    let long = |price: &&Price| matches!(price.size, Size::Length(Mm(mm)) if mm >= SHORTEST_SOLD);
    let of_a_length: Vec<&Price> =
        prices.iter().filter(|price| price.names(item, &price.size)).filter(long).collect();
    let for_sale: Option<Vec<ForSale>> = if of_a_length.is_empty() {
        let of_all = prices.iter().find(|price| price.size == Size::Any && price.names(item, &Size::Any));
        let by_length = of_all.filter(|price| price.by_length());
        by_length.and_then(|price| timber.for_sale.iter().map(|sold| at(price, sold.length)).collect())
    } else {
        of_a_length
            .into_iter()
            .map(|price| match price.size {
                Size::Length(mm) => at(price, Tenths::nearest(mm.0)),
                Size::Any | Size::Text(_) => None,
            })
            .collect()
    };
    if let Some(for_sale) = for_sale {
        timber.for_sale = for_sale;
    }
}

fn at(price: &Price, length: Tenths) -> Option<ForSale> {
    Some(ForSale { length, price: Some(price.of_one(length)?), count: price.available })
}
