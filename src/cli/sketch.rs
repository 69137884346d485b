//! `pegline sketch`.

use clap::Args;
use pegline::answer::{Answer, Question};
use pegline::job::{JobFile, SketchSection, TapeSection};
use pegline::sketch::svg;

use super::args::{Format, OutputArgs, PlanArgs};
use super::ask::printed;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::file::FileArgs;
use super::typed::Typed;

#[derive(Debug, Args)]
pub(super) struct SketchArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: Typed<TapeSection>,
    /// Draw it to scale on an A4 sheet, as SVG.
    #[arg(long)]
    svg: bool,
    #[command(flatten)]
    to: FileArgs,
    #[command(flatten)]
    sketch: Typed<SketchSection>,
}

impl SketchArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        if self.svg && out.format() != Format::Table {
            return Err(Failure::input("--svg: it is a format of its own: leave out --format and --json"));
        }
        let (given, file) = self.plan.given();
        let over = JobFile { tape: Some(self.tape.0), sketch: Some(self.sketch.0), ..given };
        let job = CommandLine::of::<Self>(over, file).job()?;
        let answer = job.answer(Question::Sketch).map_err(Failure::input)?;
        let drawn = match &answer {
            Answer::Sketch(sketch) if self.svg => svg(&sketch.scene),
            _ => printed(Question::Sketch, &job, &answer, &[], out, self.to.named())?,
        };
        self.to.write(&drawn)?;
        Ok(Exit::Good)
    }
}
