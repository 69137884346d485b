//! A page's records as CSV (RFC 4180, lines ended by a line feed).

use super::Page;

/// The page's records as CSV, header first.
///
/// Fails only if a row has another number of fields than the header, which would be a fault of the page.
pub fn csv(page: &Page) -> Result<String, std::io::Error> {
    let mut writer = ::csv::Writer::from_writer(vec![]);
    writer.write_record(&page.records.header)?;
    for row in &page.records.rows {
        writer.write_record(row)?;
    }
    let bytes = writer.into_inner().map_err(::csv::IntoInnerError::into_error)?;
    String::from_utf8(bytes).map_err(std::io::Error::other)
}
