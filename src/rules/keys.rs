//! The keys of a table, as the help, the job file's schema and an error list them.

use crate::words::or_list;

/// The keys in words: `nhbc, labc or kent`.
pub(crate) fn listed(keys: impl IntoIterator<Item = &'static str>) -> String {
    or_list(&each_once(keys))
}

/// Each key once, in the order of its table.
pub(super) fn each_once(keys: impl IntoIterator<Item = &'static str>) -> Vec<&'static str> {
    let mut known = vec![];
    for key in keys {
        if !known.contains(&key) {
            known.push(key);
        }
    }
    known
}
