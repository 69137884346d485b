//! `pegline day`, which is also what a plan or a job file is asked without a command.

use clap::Args;
use pegline::answer::{Answer, Day, Question};
use pegline::job::Job;
use pegline::report::page;

use super::args::{BookingArgs, Format, OutputArgs, PlanArgs, Under};
use super::ask::{exit, printed};
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::output::{page_text, width, write_out};

#[derive(Debug, Args)]
pub(super) struct DayArgs {
    #[command(flatten)]
    plan: PlanArgs,
    #[command(flatten)]
    booking: BookingArgs,
}

impl DayArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        let format = out.format()?;
        let (over, under) = self.plan.given();
        let under = Under { of: self.booking.of, ..under };
        let file = under.file.clone();
        let given = CommandLine::of::<Self>(over, under);
        let job = given.job()?;
        let answer = job.answer(Question::Day).map_err(Failure::input)?;
        let text = match (&answer, format) {
            (Answer::Day(day), Format::Table) => {
                let mut page = page(&answer, &job, out.detail(), width(out), &[]);
                page.fact("Next", next(day, &start(&job), file.as_deref()));
                page_text(&page, out)
            }
            _ => printed(Question::Day, &job, &answer, &[], format, out)?,
        };
        write_out(&text, out, &given.inputs())?;
        given.keep()?;
        Ok(exit(&answer))
    }
}

/// How a job file is started from this plan.
fn start(job: &Job) -> String {
    let plan = job.expression.as_deref().unwrap_or_default();
    // Of the two ways to write it, only the one as sizes has a sign between them.
    let sizes = plan.contains(['x', 'X', '×']);
    let plan = if sizes { plan.replace(' ', "") } else { format!("--walk \"{plan}\"") };
    let sides = job.footprint.iter().flat_map(|footprint| {
        let sides = footprint.sides().iter().enumerate();
        sides.filter(|(_, side)| side.house).map(|(i, _)| footprint.side_name(i))
    });
    let house: Vec<String> = sides.collect();
    let house = if house.is_empty() { String::new() } else { format!(" --house {}", house.join(",")) };
    format!("pegline job new {plan}{house} -o plot.json")
}

/// The next thing to type.
fn next(day: &Day, start: &str, file: Option<&str>) -> String {
    let Some(file) = file.filter(|file| *file != "-") else { return start.to_owned() };
    let good =
        |question: Question| day.parts.iter().find(|part| part.question == question).map(|part| part.good);
    let steps = [
        (Question::Readings, "book FILE plate"),
        (Question::Plates, "plates FILE --width 140 --stock 4.8m --keep"),
        (Question::Packs, "book FILE level"),
        (Question::Straight, "book FILE string"),
        (Question::Heights, "book FILE drop"),
    ];
    let step = steps.into_iter().find(|(question, _)| good(*question) != Some(true));
    let (_, words) = step.unwrap_or((Question::Sheet, "sheet FILE"));
    let file = if file.contains(' ') { format!("\"{file}\"") } else { file.to_owned() };
    format!("pegline {}", words.replace("FILE", &file))
}
