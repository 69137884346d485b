//! Lettering: the heights it comes in and how wide a text is.
//!
//! Heights are those of ISO 3098 (capitals 2.5, 3.5 and 5 mm high; from memory). Widths are the advance widths that the
//! usual sans-serif faces share (Helvetica's, in thousandths of the type size; Arial and Liberation Sans keep to them), and a
//! full type size for any sign not in the table, so that a text is never wider than it is taken to be. The printed
//! text is held to its width besides, should another face stand in.

use serde::Serialize;

/// The height of capitals over the type size, in the faces meant.
const CAPITAL: f64 = 0.716;
/// How far a text may reach above its base line, in type sizes.
const ASCENT: f64 = 0.75;
/// How far it may reach below, in type sizes.
const DESCENT: f64 = 0.22;

/// Widths of the signs from the space (32) to the tilde (126), thousandths of the type size.
const WIDTHS: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556,
    556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278,
    500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469,
    556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500,
    278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];

/// The heights that lettering comes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Lettering {
    /// 2.5 mm: captions, the key, crowded figures.
    Small,
    /// 3.5 mm: figures and titles.
    Medium,
    /// 5 mm: corner letters.
    Large,
}

impl Lettering {
    /// Height of its capitals, mm.
    #[must_use]
    pub const fn capitals(self) -> f64 {
        match self {
            Self::Small => 2.5,
            Self::Medium => 3.5,
            Self::Large => 5.0,
        }
    }

    /// The type size, mm.
    #[must_use]
    pub const fn type_size(self) -> f64 {
        self.capitals() / CAPITAL
    }

    /// Height from the deepest tail to the highest stroke, mm.
    #[must_use]
    pub const fn height(self) -> f64 {
        (ASCENT + DESCENT) * self.type_size()
    }

    /// From the middle of that height down to the base line, mm.
    #[must_use]
    pub const fn base_below_middle(self) -> f64 {
        self.height() / 2.0 - DESCENT * self.type_size()
    }

    /// Width of `text`, mm.
    #[must_use]
    pub fn width(self, text: &str) -> f64 {
        let thousandths: u32 = text
            .chars()
            .map(|c| {
                let c = if c == '\u{a0}' { ' ' } else { c };
                let index = u32::from(c).checked_sub(32).and_then(|i| usize::try_from(i).ok());
                u32::from(index.and_then(|i| WIDTHS.get(i)).copied().unwrap_or(1000))
            })
            .sum();
        f64::from(thousandths) / 1000.0 * self.type_size()
    }

    /// `text` cut to at most `width` mm, with three stops at its end where something was cut.
    #[must_use]
    pub fn cut(self, text: &str, width: f64) -> String {
        if self.width(text) <= width {
            return text.to_owned();
        }
        let mut kept = String::new();
        for c in text.chars() {
            let longer = format!("{kept}{c}");
            if self.width(&format!("{longer}...")) > width {
                break;
            }
            kept = longer;
        }
        format!("{}...", kept.trim_end())
    }

    /// `text` broken at spaces into lines of at most `width` mm; a word longer than that is cut.
    #[must_use]
    pub fn wrap(self, text: &str, width: f64) -> Vec<String> {
        let mut lines: Vec<String> = vec![];
        for word in text.split(' ').filter(|word| !word.is_empty()) {
            match lines.last_mut() {
                Some(line) if self.width(&format!("{line} {word}")) <= width => {
                    line.push(' ');
                    line.push_str(word);
                }
                _ => lines.push(self.cut(word, width)),
            }
        }
        lines
    }
}
