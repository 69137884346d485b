//! One entrance of the library under libFuzzer, the one that `ENTRANCE` names.
#![no_main]

#[path = "../../suite/entrances.rs"]
mod entrances;

use std::sync::LazyLock;

use libfuzzer_sys::fuzz_target;

static ENTRANCE: LazyLock<fn(&[u8])> = LazyLock::new(|| {
    let name = std::env::var("ENTRANCE").unwrap_or_default();
    let found = entrances::ALL.iter().find(|(known, _)| *known == name);
    found.map_or_else(
        || {
            let names = entrances::ALL.map(|(name, _)| name).join(", ");
            panic!("ENTRANCE={name}: set it to one of {names}")
        },
        |(_, entrance)| *entrance,
    )
});

fuzz_target!(|bytes: &[u8]| ENTRANCE(bytes));
