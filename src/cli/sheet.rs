//! `pegline sheet`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{JobFile, SketchSection, TapeSection};
use pegline::page::{Printer, html};
use pegline::report::page_for;
use pegline::working::working;

use super::args::{Format, OutputArgs, PlanArgs};
use super::ask::{exit, printed};
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::file::FileArgs;
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct SheetArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: Typed<TapeSection>,
    /// Print it as one HTML page with the drawing in it, to be printed on A4.
    #[arg(long)]
    html: bool,
    #[command(flatten)]
    to: FileArgs,
    /// The date for the title block, as it is to stand there.
    #[arg(long, id = "sketch.date", value_name = "TEXT")]
    date: Option<String>,
    /// Show each part's steps by hand.
    #[arg(long)]
    working: bool,
}

impl SheetArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        if self.html && out.format() != Format::Table {
            return Err(Failure::input("--html: it is a format of its own: leave out --format and --json"));
        }
        let (given, file) = self.plan.given();
        let sketch = SketchSection { date: self.date, ..SketchSection::default() };
        let over = JobFile { tape: Some(self.tape.0), sketch: Some(sketch), ..given };
        let job = CommandLine::of::<Self>(over, file).job()?;
        let answer = job.answer(Question::Sheet).map_err(Failure::input)?;
        let steps = if self.working { working(&answer, &job) } else { vec![] };
        let text = if self.html {
            let page = page_for(Printer::Html, &answer, &job, &steps);
            html(&page, job.name.as_deref().unwrap_or("Setting out"))
        } else {
            printed(Question::Sheet, &job, &answer, &steps, out, self.to.named())?
        };
        self.to.write(&text)?;
        Ok(exit(&answer))
    }
}
