//! A sheet of questions, and its answers.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::answer::Value;
use super::ask::Ask;
use super::edition::EDITION;
use super::error::PracticeError;
use super::question::Question;
use super::random::Random;
use super::scale::Scale;
use super::topic::Topic;
use super::topics::question;

/// How often a question is drawn again before giving up. A fair one comes out of a few dozen at most.
const MOST_DRAWS: usize = 20_000;

/// A question sheet. The answers are in it but don't serialize: see [`Sheet::answers`].
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Sheet {
    /// What was asked for.
    #[serde(flatten)]
    pub ask: Ask,
    /// The edition of the generator.
    pub edition: u32,
    /// What holds for every question.
    pub rule: &'static str,
    /// The questions.
    pub questions: Vec<Question>,
    /// The form to fill in: for each question null, or a list of nulls where it has several blanks.
    pub answers: BTreeMap<u32, ToFill>,
}

/// What stands in the form for a question.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(untagged)]
pub enum ToFill {
    /// One blank.
    One(Option<()>),
    /// Several.
    Several(Vec<Option<()>>),
}

/// Draws a sheet. The same `ask` gives the same sheet on every machine; a longer sheet starts with the shorter one.
pub fn sheet(ask: Ask) -> Result<Sheet, PracticeError> {
    ask.check()?;
    let scale = Scale(ask.units);
    // Each topic, level and tape has its own stream, so that a seed is not the same drawing twice.
    let kind =
        u64::from(ask.level.number()) << 8 | (ask.topic as u64) << 16 | u64::from(scale.is_feet()) << 24;
    let mut random = Random::new(u64::from(ask.seed) | kind << 32);
    let topics = topics(ask.topic, &mut random);
    let mut questions: Vec<Question> = vec![];
    for (number, topic) in (1..=ask.count).zip(topics.iter().copied().cycle()) {
        let fresh = (0..MOST_DRAWS).find_map(|_| {
            let drawn = question(topic, &mut random, ask.level, scale)?;
            let before = questions.iter().any(|other| other.gist == drawn.gist);
            (!before).then_some(drawn)
        });
        let mut fresh = fresh.ok_or(PracticeError::NoQuestion { number, seed: ask.seed })?;
        fresh.number = number;
        if ask.topic == Topic::Mixed {
            fresh.given = format!("{} {}", topic.rule(), fresh.given);
        }
        questions.push(fresh);
    }
    let answers = questions.iter().map(|question| (question.number, to_fill(question)));
    let answers = answers.collect();
    Ok(Sheet { ask, edition: EDITION, rule: ask.topic.rule(), questions, answers })
}

/// The topics that a sheet's questions go through, again and again: for a mixed one all of them, shuffled.
fn topics(topic: Topic, random: &mut Random) -> Vec<Topic> {
    if topic != Topic::Mixed {
        return vec![topic];
    }
    let mut left: Vec<Topic> = Topic::ALL.into_iter().filter(|topic| *topic != Topic::Mixed).collect();
    std::iter::from_fn(|| (!left.is_empty()).then(|| left.remove(random.below(left.len())))).collect()
}

fn to_fill(question: &Question) -> ToFill {
    match question.blanks.len() {
        1 => ToFill::One(None),
        blanks => ToFill::Several(vec![None; blanks]),
    }
}

/// The answers to a sheet.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Answers {
    /// What was asked for.
    #[serde(flatten)]
    pub ask: Ask,
    /// The edition of the generator.
    pub edition: u32,
    /// The answers, in order.
    pub questions: Vec<Answered>,
}

/// A question answered.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Answered {
    /// The question's number.
    pub number: u32,
    /// The plan in characters; none where the question has none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sketch: Vec<String>,
    /// What is known.
    pub given: String,
    /// What is asked.
    pub asked: String,
    /// The working, one operation a step.
    pub working: Vec<String>,
    /// What belongs in each blank.
    pub blanks: Vec<Filled>,
}

/// A blank with what belongs in it.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Filled {
    /// What stands before the `=`.
    pub label: String,
    /// The answer; a length is in mm.
    pub answer: Value,
    /// The answer as it is written.
    pub text: String,
}

impl Sheet {
    /// The tape of the sheet.
    pub(super) const fn scale(&self) -> Scale {
        Scale(self.ask.units)
    }

    /// The answers with their working.
    #[must_use]
    pub fn answers(&self) -> Answers {
        let scale = self.scale();
        let answered = |question: &Question| Answered {
            number: question.number,
            sketch: question.sketch.clone(),
            given: question.given.clone(),
            asked: question.asked.clone(),
            working: question.working.clone(),
            blanks: question
                .blanks
                .iter()
                .map(|blank| Filled {
                    label: blank.label.clone(),
                    answer: blank.answer.value(scale),
                    text: blank.answer.text(scale),
                })
                .collect(),
        };
        Answers {
            ask: self.ask,
            edition: self.edition,
            questions: self.questions.iter().map(answered).collect(),
        }
    }
}
