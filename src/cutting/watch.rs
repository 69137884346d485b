//! What a search has so far, for whoever wants to hear of it while it lasts.

use std::sync::OnceLock;

use crate::exact::Pence;

/// How a search stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing {
    /// What the best list so far costs, and its splices; none for pieces that are cut whole.
    pub has: Option<(Pence, Option<usize>)>,
    /// No list that is looked for costs less.
    pub least: Pence,
    /// Most splices that the lists looked for may have; `None` where any number will do.
    pub splices: Option<usize>,
}

type Watch = Box<dyn Fn(&Standing) + Send + Sync>;

static WATCH: OnceLock<Watch> = OnceLock::new();

/// Has every search from now on call `watch` now and then with how it stands, some thousand times a second. It can be asked
/// once in a program's life, as of a logger; false where it was before. What is found does not depend on it.
pub fn watch(watch: impl Fn(&Standing) + Send + Sync + 'static) -> bool {
    WATCH.set(Box::new(watch)).is_ok()
}

/// Passes the standing on to whoever asked.
pub(super) fn pass_on(standing: Option<&Standing>) {
    if let (Some(watch), Some(standing)) = (WATCH.get(), standing) {
        watch(standing);
    }
}
