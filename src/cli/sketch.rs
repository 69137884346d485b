//! `pegline sketch`.

use clap::Args;
use pegline::answer::{Answer, Question};
use pegline::job::{JobFile, SketchSection, TapeSection};
use pegline::sketch::svg;

use super::args::{Format, Kind, OutputArgs, Own, PlanArgs};
use super::ask::printed;
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::output::write_out;
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
    sketch: Typed<SketchSection>,
}

impl SketchArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        let svg_asked = Own { option: "--svg", asked: self.svg, name: "SVG", ending: "svg" };
        let kind = out.kind(Some(svg_asked))?;
        let shown_as_asked = self.sketch.0.show.is_some();
        let (given, under) = self.plan.given();
        let over = JobFile { tape: Some(self.tape.0), sketch: Some(self.sketch.0), ..given };
        let given = CommandLine::of::<Self>(over, under);
        let mut job = given.job()?;
        // Drawn in characters there are no anchors, and nothing need be cut to place them where they were not asked for.
        job.sketch.anchors &= shown_as_asked || kind != Kind::In(Format::Table);
        let answer = job.answer(Question::Sketch).map_err(Failure::input)?;
        let drawn = match (&answer, kind) {
            (Answer::Sketch(sketch), Kind::Own) => svg(&sketch.scene().map_err(Failure::input)?),
            (_, Kind::In(format)) => printed(Question::Sketch, &job, &answer, &[], format, out)?,
            (_, Kind::Own) => String::new(),
        };
        write_out(&drawn, out, &given.inputs())?;
        given.keep()?;
        Ok(Exit::Good)
    }
}
