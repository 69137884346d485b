//! A small document and its printers. The printers know nothing of the trade; what builds a page knows nothing of
//! terminals.
//!
//! ```
//! use pegline::page::{Look, Page, Table, html, text};
//!
//! let mut page = Page::new();
//! page.heading("Sides");
//! let sides = Table::of([("AB", "7800")]).words("Side", |(name, _)| name).numbers("mm", |(_, mm)| mm);
//! page.table(sides).remarks.caution("mind the step");
//! assert!(text(&page, Look::default()).contains("AB     7800"), "{}", text(&page, Look::default()));
//! assert!(html(&page, "Plot 4").starts_with("<!DOCTYPE html>"));
//! ```

mod ascii;
mod blocks;
mod glue;
mod html;
mod plain;
mod rows;
mod table;
mod text;

pub use ascii::ascii;
pub use blocks::{Block, Detail, Figure, Page, Picture, Remarks, SCREEN, Steps, Verdict, WIDTH};
pub use glue::unbroken;
pub use html::html;
pub use rows::{Each, Rows, Spreadsheet, each};
pub use table::{Align, Column, Filling, Table};
pub use text::{Look, text};
