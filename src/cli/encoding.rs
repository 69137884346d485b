//! From the bytes of a file to its text, whichever editor or shell saved it.

use pegline::job::{LARGEST_FILE, without_mark};

/// The text of a file in UTF-8, or in UTF-16 with its mark as some shells and editors save it; without the byte order
/// mark. `otherwise` is what is said of bytes that are no text at all.
pub(super) fn text_of(bytes: Vec<u8>, otherwise: &str) -> Result<String, String> {
    if bytes.starts_with(b"PK\x03\x04") {
        return Err("this is a spreadsheet's own file or an archive: save it as CSV (UTF-8) first".to_owned());
    }
    let little = bytes.starts_with(&[0xff, 0xfe]);
    if little || bytes.starts_with(&[0xfe, 0xff]) {
        if bytes.len() > LARGEST_FILE {
            return Err(format!("the file is over {LARGEST_FILE} bytes (1 MiB), the most taken"));
        }
        let read = if little { u16::from_le_bytes } else { u16::from_be_bytes };
        let (pairs, rest) = bytes[2..].as_chunks();
        let text: Result<String, _> = char::decode_utf16(pairs.iter().map(|pair| read(*pair))).collect();
        return text.ok().filter(|_| rest.is_empty()).ok_or_else(|| otherwise.to_owned());
    }
    let text = String::from_utf8(bytes).map_err(|_| otherwise.to_owned())?;
    Ok(match without_mark(&text) {
        whole if whole.len() == text.len() => text,
        rest => rest.to_owned(),
    })
}
