//! A page in ASCII alone, before it is laid out: a sign's plain spelling may be longer than the sign.

use super::ascii::ascii;
use super::blocks::{Block, Figure, Page, Remarks, Steps, Verdict};
use super::table::{Column, Table};

/// The page with every text of it in ASCII.
pub(super) fn plain(page: &Page) -> Page {
    Page {
        columns: page.columns,
        remarks: Remarks {
            doubts: all(&page.remarks.doubts),
            verdict: page.remarks.verdict.as_ref().map(plain_verdict),
            notes: all(&page.remarks.notes),
            cautions: all(&page.remarks.cautions),
        },
        blocks: page.blocks.iter().map(block).collect(),
    }
}

fn plain_verdict(verdict: &Verdict) -> Verdict {
    Verdict { good: verdict.good, words: ascii(&verdict.words) }
}

fn all(texts: &[String]) -> Vec<String> {
    texts.iter().map(|text| ascii(text)).collect()
}

fn block(block: &Block) -> Block {
    match block {
        Block::Part(text) => Block::Part(ascii(text)),
        Block::Verdict(verdict) => Block::Verdict(plain_verdict(verdict)),
        Block::Figure(figure) => {
            Block::Figure(Figure { text: figure.text.iter().map(self::block).collect(), ..figure.clone() })
        }
        Block::Heading(text) => Block::Heading(ascii(text)),
        Block::Paragraph(text) => Block::Paragraph(ascii(text)),
        Block::Fact(name, what) => Block::Fact(ascii(name), ascii(what)),
        Block::Table(table) => Block::Table(Table {
            columns: table
                .columns
                .iter()
                .map(|column| Column { head: ascii(&column.head), align: column.align })
                .collect(),
            rows: table.rows.iter().map(|row| all(row)).collect(),
        }),
        Block::Lines(lines) => Block::Lines(all(lines)),
        Block::Steps(steps) => Block::Steps(Steps { title: ascii(&steps.title), steps: all(&steps.steps) }),
    }
}
