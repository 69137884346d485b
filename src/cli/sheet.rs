//! `pegline sheet`.

use clap::Args;
use pegline::answer::{Answered, Question};
use pegline::job::{JobFile, SketchSection, TapeSection};
use pegline::page::{WIDTH, html};
use pegline::report::{illustrate, page};

use super::args::{BookingArgs, Kind, OutputArgs, Own, PlanArgs, Under};
use super::ask::{exit, printed};
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::output::write_out;
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct SheetArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: Typed<TapeSection>,
    #[command(flatten)]
    booking: BookingArgs,
    /// Print it as one HTML document with the drawings in it, for paper or a screen of any width.
    #[arg(long)]
    html: bool,
    /// The date for the title block, as it is to stand there.
    #[arg(long, id = "sketch.date", value_name = "TEXT")]
    date: Option<String>,
    /// Who drew it, for the title block.
    #[arg(long, id = "sketch.drawn_by", value_name = "TEXT")]
    drawn_by: Option<String>,
    /// The drawings' number, for the title block.
    #[arg(long, id = "sketch.number", value_name = "TEXT")]
    number: Option<String>,
    /// The drawings' revision, for the title block.
    #[arg(long, id = "sketch.revision", value_name = "TEXT")]
    revision: Option<String>,
    /// Show each part's steps by hand.
    #[arg(long)]
    working: bool,
}

impl SheetArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        let html_asked = Own { option: "--html", asked: self.html, name: "HTML", ending: "html" };
        let kind = out.kind(Some(html_asked))?;
        let (given, under) = self.plan.given();
        let under = Under { of: self.booking.of, ..under };
        let sketch = SketchSection {
            date: self.date,
            drawn_by: self.drawn_by,
            number: self.number,
            revision: self.revision,
            ..SketchSection::default()
        };
        let over = JobFile { tape: Some(self.tape.0), sketch: Some(sketch), ..given };
        let given = CommandLine::of::<Self>(over, under);
        let job = given.job()?;
        let answer = job.answer(Question::Sheet).map_err(Failure::input)?;
        let steps = if self.working { answer.steps(&job) } else { vec![] };
        let text = match kind {
            Kind::Own => {
                let mut page = page(&answer, &job, out.detail(), WIDTH, &steps);
                illustrate(&mut page, &answer, &job).map_err(Failure::input)?;
                html(&page, job.name.as_deref().unwrap_or("Setting out"))
            }
            Kind::In(format) => printed(Question::Sheet, &job, &answer, &steps, format, out)?,
        };
        write_out(&text, out, &given.inputs())?;
        given.keep()?;
        Ok(exit(&answer))
    }
}
