//! The keys of a table, as the help, the job file's schema and an error list them.

use crate::words::or_list;

/// Each key once, in the order of its table: `nhbc, labc or kent`.
pub(crate) fn listed(keys: impl IntoIterator<Item = &'static str>) -> String {
    let mut known = vec![];
    for key in keys {
        if !known.contains(&key) {
            known.push(key);
        }
    }
    or_list(&known)
}
