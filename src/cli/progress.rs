//! What a search that lasts has so far, every second on standard error where that is a terminal.

use std::io::{self, IsTerminal, Write};
use std::sync::Mutex;
use std::time::{Duration, Instant};

use pegline::cutting::watch;
use pegline::job::Job;
use pegline::report::searching;
use pegline::stock::Timber;

const BETWEEN: Duration = Duration::from_secs(1);

/// Has searches for this job tell how they stand.
pub(super) fn tell(job: &Job) {
    if !io::stderr().is_terminal() {
        return;
    }
    let timber = job.cuts.as_ref().map(|cuts| &cuts.timber);
    let timber = timber.or(job.plates.as_ref().map(|plates| &plates.timber));
    let (started, priced, units) = (Instant::now(), timber.is_some_and(Timber::priced), job.units);
    let told = Mutex::new(started);
    // One job is asked of a program, so this is asked once.
    watch(move |standing| {
        let Ok(mut told) = told.try_lock() else { return };
        if told.elapsed() >= BETWEEN {
            *told = Instant::now();
            let words = searching(standing, priced, units);
            // Progress is a courtesy: a terminal that has gone away is no reason to stop.
            let _told = writeln!(anstream::stderr(), "{} s: {words}", started.elapsed().as_secs());
        }
    });
}
