//! `pegline day`, which is also what a plan or a job file is asked without a command.

use clap::Args;
use pegline::answer::{Answer, Day, Question};
use pegline::job::JobFile;
use pegline::report::page;

use super::args::{Format, OutputArgs, PlanArgs};
use super::ask::{exit, printed};
use super::command_line::CommandLine;
use super::failure::{Exit, Failure};
use super::output::{page_text, write_out};

#[derive(Debug, Args)]
pub(super) struct DayArgs {
    #[command(flatten)]
    plan: PlanArgs,
}

impl DayArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        let format = out.format()?;
        let (over, under) = self.plan.given();
        let file = under.file.clone();
        let start = start(&over);
        let given = CommandLine::of::<Self>(over, under);
        let job = given.job()?;
        let answer = job.answer(Question::Day).map_err(Failure::input)?;
        let text = match (&answer, format) {
            (Answer::Day(day), Format::Table) => {
                let mut page = page(&answer, &job, out.detail(), &[]);
                page.fact("Next", next(day, &start, file.as_deref()));
                page_text(&page, out)
            }
            _ => printed(Question::Day, &job, &answer, &[], format, out)?,
        };
        write_out(&text, out, &given.inputs())?;
        given.keep()?;
        Ok(exit(&answer))
    }
}

/// How a job file is started from the plan that was typed.
fn start(over: &JobFile) -> String {
    let walk = over.walk.as_ref().map(|walk| format!("--walk \"{walk}\""));
    let plan = walk.or_else(|| Some(over.plan.as_ref()?.replace(' ', ""))).unwrap_or_default();
    let house = over.house.as_ref().map_or_else(String::new, |sides| format!(" --house {}", sides.join(",")));
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
