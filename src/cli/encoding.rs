//! From the bytes of a file to its text, whichever editor saved it.

use pegline::job::without_mark;

/// The text of a file, without the byte order mark that some editors put first. `otherwise` is what is said of bytes
/// that are no text at all.
pub(super) fn text_of(bytes: Vec<u8>, otherwise: &str) -> Result<String, String> {
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(
            "this is text in UTF-16, as some editors and shells save it: save it as UTF-8 (pegline writes its own files with -o)"
                .to_owned(),
        );
    }
    let text = String::from_utf8(bytes).map_err(|_| otherwise.to_owned())?;
    Ok(match without_mark(&text) {
        whole if whole.len() == text.len() => text,
        rest => rest.to_owned(),
    })
}
