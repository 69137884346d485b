//! `pegline sketch`.

use clap::Args;
use pegline::answer::{Answer, Question};
use pegline::job::SketchSection;
use pegline::sketch::svg;

use super::args::{Format, OutputArgs, PlanArgs, TapeArgs, number};
use super::ask::printed;
use super::failure::{Exit, Failure};
use super::file::FileArgs;
use super::given::Given;

#[derive(Debug, Args)]
pub(super) struct SketchArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    tape: TapeArgs,
    /// Draw it to scale on an A4 sheet, as SVG.
    #[arg(long)]
    svg: bool,
    #[command(flatten)]
    to: FileArgs,
    /// The date for the title block, as it is to stand there.
    #[arg(long, value_name = "TEXT")]
    date: Option<String>,
    /// Where north is: degrees clockwise from up the page.
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true, value_parser = degrees)]
    north: Option<f64>,
    /// What to draw besides the outline and the lines to tape: anchors, profiles, or both
    /// [default: what the job file has inputs for]
    #[arg(long, value_name = "WHAT", value_delimiter = ',')]
    show: Option<Vec<String>>,
    /// The scale on A4, such as 1:50 [default: the largest standard one that fits].
    #[arg(long, value_name = "SCALE")]
    scale: Option<String>,
}

fn degrees(text: &str) -> Result<f64, &'static str> {
    number(text).map_err(|_| "write degrees clockwise from up the page, 0 to 360, such as 20")
}

impl SketchArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        if self.svg && out.format() != Format::Table {
            return Err(Failure::input("--svg: it is a format of its own: leave out --format and --json"));
        }
        let mut given = Given::default();
        let file = self.plan.lay(&mut given);
        self.tape.lay(&mut given);
        given.note([
            ("sketch.date", "--date", self.date.is_some()),
            ("sketch.north", "--north", self.north.is_some()),
            ("sketch.show", "--show", self.show.is_some()),
            ("sketch.scale", "--scale", self.scale.is_some()),
        ]);
        given.over.sketch =
            Some(SketchSection { date: self.date, north: self.north, show: self.show, scale: self.scale });
        let job = given.job(file.as_deref())?;
        let answer = job.answer(Question::Sketch).map_err(Failure::input)?;
        let drawn = match &answer {
            Answer::Sketch(sketch) if self.svg => svg(&sketch.scene),
            _ => printed(Question::Sketch, &job, &answer, &[], out, self.to.named())?,
        };
        self.to.write(&drawn)?;
        Ok(Exit::Good)
    }
}
