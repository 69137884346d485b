//! What was probably meant by a text that is no length: the slips of a thumb put right, if that makes one.

/// What to write instead, `examples` where nothing can be meant.
pub(super) fn instead(text: &str, examples: &str) -> String {
    let slips = [noughts_and_ones, without_marks, metres_in_the_middle, without_spaces];
    if let Some(meant) =
        slips.into_iter().map(|slip| slip(text)).find(|meant| meant != text && is_length(meant))
    {
        return meant;
    }
    if let Some(meant) = feet_and_inches(text) {
        return meant;
    }
    let several: Vec<String> =
        text.split(['/', ';', '&', '-', ' ']).filter(|part| !part.is_empty()).map(str::to_owned).collect();
    if several.len() > 1 && several.iter().all(|part| is_length(part)) {
        return format!("one, or {} where several are taken", several.join(","));
    }
    examples.to_owned()
}

/// Whether it is a plain number, with a metric unit or none.
fn is_length(text: &str) -> bool {
    let number = text.trim_end_matches(['m', 'c']);
    let unit = &text[number.len()..];
    matches!(unit, "" | "mm" | "cm" | "m")
        && number.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.')
        && number.parse::<f64>().is_ok()
}

/// Letters that look like digits, in a number.
fn noughts_and_ones(text: &str) -> String {
    if text.starts_with(|c: char| c.is_ascii_digit()) {
        text.replace(['O', 'o'], "0").replace(['l', 'I'], "1")
    } else {
        text.to_owned()
    }
}

/// A query, a sign for about and the like round a number.
fn without_marks(text: &str) -> String {
    text.trim_matches(['?', '!', '~', '≈', '±', '*', '.', ':', '=', '<', '>', '(', ')', '[', ']']).to_owned()
}

/// `7m802`, as metres are called out.
fn metres_in_the_middle(text: &str) -> String {
    text.split_once('m').map_or_else(|| text.to_owned(), |(metres, mm)| format!("{metres}.{mm}m"))
}

/// `16 1-1/2`, feet and inches without their marks.
fn feet_and_inches(text: &str) -> Option<String> {
    let (feet, inches) = text.split_once([' ', '-'])?;
    let fraction =
        inches.contains('/') && inches.bytes().all(|byte| byte.is_ascii_digit() || b" -/".contains(&byte));
    let whole = feet.bytes().all(|byte| byte.is_ascii_digit());
    (fraction && whole && !feet.is_empty()).then(|| format!("{feet}ft{}in", inches.replace(' ', "-")))
}

/// `7 802`, the thousands apart.
fn without_spaces(text: &str) -> String {
    let (first, groups) = text.split_once(' ').unwrap_or((text, ""));
    let is_group = |group: &str| group.len() == 3 && group.chars().all(|c| c.is_ascii_digit());
    if first.len() <= 3 && groups.split(' ').all(is_group) { text.replace(' ', "") } else { text.to_owned() }
}
