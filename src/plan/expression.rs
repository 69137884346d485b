//! The plan expression: a rectangle, cut-outs taken from its corners, legs added along its bottom side.
//!
//! `7800x6000-3000x2400@br` · `9000x3000+3600x2400@2700` · `9000x6000-2000x1500@bl-2000x1500@br`

use super::error::PlanError;
use super::footprint::{Footprint, Heading};
use super::grid::distinct;
use super::limits::{LONGEST_TEXT, MOST_CORNERS, SAME_PLACE};
use crate::geometry::Point;
use crate::length::{Units, dashed_inches, scan};
use crate::words::{one_line, quoted};

/// Reads a plan expression. Bare numbers are in `default_units`. Returns the footprint and the units it was written in.
pub fn parse_expression(text: &str, default_units: Units) -> Result<(Footprint, Units), PlanError> {
    if text.len() > LONGEST_TEXT {
        return Err(PlanError::TooMuchText { length: text.len() });
    }
    let mut reader = Reader { text, rest: text, default_units, units: None, bare: false };
    let terms = reader.terms();
    // A bare number beside feet is feet too.
    if reader.bare && reader.units == Some(Units::FeetInches) && default_units != Units::FeetInches {
        return parse_expression(text, Units::FeetInches);
    }
    let (terms, texts) = terms?;
    let corners = trace(&terms)?;
    for (i, term) in texts.into_iter().enumerate() {
        let others: Vec<Term> = [&terms[..=i], &terms[i + 2..]].concat();
        if trace(&others).as_ref() == Ok(&corners) {
            let problem = "it changes nothing, since it lies wholly in another: leave it out, or look at its size and place";
            return Err(PlanError::DoesNotFit { term, problem: problem.to_owned() });
        }
    }
    Ok((Footprint::from_points(&corners)?, reader.units.unwrap_or(default_units)))
}

/// A rectangle that adds to the plan or takes from it.
#[derive(Clone, Copy)]
struct Term {
    left: f64,
    top: f64,
    width: f64,
    depth: f64,
    adds: bool,
}

#[derive(Clone, Copy, PartialEq)]
enum Place {
    TopLeft,
    TopRight,
    BottomRight,
    BottomLeft,
}

struct Reader<'a> {
    text: &'a str,
    rest: &'a str,
    default_units: Units,
    units: Option<Units>,
    /// Whether a dimension is a bare number.
    bare: bool,
}

impl Reader<'_> {
    /// The rectangle and the terms behind it; and how each of those was written.
    fn terms(&mut self) -> Result<(Vec<Term>, Vec<String>), PlanError> {
        if self.rest.trim().is_empty() {
            return Err(PlanError::Empty);
        }
        let (width, depth) = self.dimensions("the plan")?;
        let base = Term { left: 0.0, top: 0.0, width, depth, adds: true };
        let mut terms = vec![base];
        let mut texts = vec![];
        // The cut-outs so far, by place, and where the bottom side starts and ends between them.
        let mut taken: Vec<Place> = vec![];
        let mut bottom = (0.0, width);
        while let Some(adds) = self.operator()? {
            if terms.len() == MOST_CORNERS {
                return Err(PlanError::CornerCount { count: 4 * terms.len() });
            }
            let start = self.rest;
            let (width, depth) = self.dimensions(if adds { "the leg" } else { "the cut-out" })?;
            let term = if adds {
                let at = self.distance_along()?;
                self.leg(start, base, bottom, (width, depth), at)?
            } else {
                let place = self.corner_place()?;
                let term = self.cut_out(start, base, (width, depth), place)?;
                if taken.contains(&place) {
                    return Err(self.misfit(start, "this corner is cut out already".to_owned()));
                }
                taken.push(place);
                match place {
                    Place::BottomLeft => bottom.0 = width,
                    Place::BottomRight => bottom.1 = base.width - width,
                    Place::TopLeft | Place::TopRight => {}
                }
                term
            };
            terms.push(term);
            texts.push(self.since(start));
        }
        Ok((terms, texts))
    }

    fn leg(
        &self,
        start: &str,
        base: Term,
        bottom: (f64, f64),
        (width, depth): (f64, f64),
        at: Option<f64>,
    ) -> Result<Term, PlanError> {
        let side = bottom.1 - bottom.0;
        let room = side - width;
        let units = self.units.unwrap_or(self.default_units);
        if room <= SAME_PLACE {
            return Err(self.misfit(
                start,
                format!("the leg must be narrower than the bottom side, {}", units.with_unit(side)),
            ));
        }
        let at = at.unwrap_or(room / 2.0);
        if at < -SAME_PLACE || at > room + SAME_PLACE {
            return Err(self.misfit(
                start,
                format!(
                    "the leg runs past the end of the bottom side: @ can be 0 to {}",
                    units.with_unit(room)
                ),
            ));
        }
        Ok(Term { left: bottom.0 + at, top: base.depth, width, depth, adds: true })
    }

    fn cut_out(
        &self,
        start: &str,
        base: Term,
        (width, depth): (f64, f64),
        place: Place,
    ) -> Result<Term, PlanError> {
        if width >= base.width - SAME_PLACE || depth >= base.depth - SAME_PLACE {
            let units = self.units.unwrap_or(self.default_units);
            return Err(self.misfit(
                start,
                format!(
                    "the cut-out must be smaller than the plan both ways, {} x {}",
                    units.with_unit(base.width),
                    units.with_unit(base.depth)
                ),
            ));
        }
        let (right, lower) = (base.width - width, base.depth - depth);
        let (left, top) = match place {
            Place::TopLeft => (0.0, 0.0),
            Place::TopRight => (right, 0.0),
            Place::BottomRight => (right, lower),
            Place::BottomLeft => (0.0, lower),
        };
        Ok(Term { left, top, width, depth, adds: false })
    }

    fn misfit(&self, start: &str, problem: String) -> PlanError {
        PlanError::DoesNotFit { term: self.since(start), problem }
    }

    fn since(&self, start: &str) -> String {
        quoted(&start[..start.len() - self.rest.len()])
    }

    fn dimensions(&mut self, of: &str) -> Result<(f64, f64), PlanError> {
        let mut width = self.dimension(&format!("the width of {of}"))?;
        width += self.dashed(|_| true);
        let Some(rest) = after_times(self.rest) else {
            return Err(self.unexpected("x and the depth, as in 7800x6000"));
        };
        self.rest = rest;
        let mut depth = self.dimension(&format!("the depth of {of}"))?;
        depth += self.dashed(|after| after_times(after).is_none());
        Ok((width, depth))
    }

    /// The inches behind a hyphen after feet, mm, where what follows them shows that no cut-out begins with them.
    fn dashed(&mut self, are_inches: impl Fn(&str) -> bool) -> f64 {
        match dashed_inches(self.text, self.rest) {
            Some((mm, after)) if are_inches(after) => {
                self.rest = after;
                mm
            }
            _ => 0.0,
        }
    }

    fn dimension(&mut self, place: &str) -> Result<f64, PlanError> {
        let (length, rest) = scan(self.rest, self.default_units)
            .map_err(|error| PlanError::Dimension { place: place.to_owned(), error })?;
        if length.mm <= SAME_PLACE {
            return Err(PlanError::NotPositive { place: place.to_owned() });
        }
        self.units = self.units.or(length.written_in);
        self.bare |= length.written_in.is_none();
        self.rest = rest;
        Ok(length.mm)
    }

    /// Whether the next term adds (`+`) or takes away (`-`); `None` at the end.
    fn operator(&mut self) -> Result<Option<bool>, PlanError> {
        let here = self.rest.trim_start();
        let Some(first) = here.chars().next() else {
            return Ok(None);
        };
        let adds = match first {
            '+' => true,
            '-' | '−' | '–' => false,
            _ => return Err(self.unexpected("- and a cut-out, + and a leg, or the end")),
        };
        self.rest = &here[first.len_utf8()..];
        Ok(Some(adds))
    }

    fn corner_place(&mut self) -> Result<Place, PlanError> {
        const EXPECTED: &str = "the cut-out's corner: @tl, @tr, @br or @bl";
        let Some(rest) = self.rest.trim_start().strip_prefix('@') else {
            return Ok(Place::BottomRight);
        };
        let name: String = rest.trim_start().chars().take(2).collect();
        let place = match name.to_ascii_lowercase().as_str() {
            "tl" => Place::TopLeft,
            "tr" => Place::TopRight,
            "br" => Place::BottomRight,
            "bl" => Place::BottomLeft,
            _ => return Err(self.unexpected(EXPECTED)),
        };
        let after = &rest.trim_start()[2..];
        if after.starts_with(char::is_alphanumeric) {
            return Err(self.unexpected(EXPECTED));
        }
        self.rest = after;
        Ok(place)
    }

    fn distance_along(&mut self) -> Result<Option<f64>, PlanError> {
        let Some(rest) = self.rest.trim_start().strip_prefix('@') else {
            return Ok(None);
        };
        let (length, rest) = scan(rest, self.default_units).map_err(|error| PlanError::Dimension {
            place: "the leg's @ distance from the left".to_owned(),
            error,
        })?;
        self.rest = rest;
        Ok(Some(length.mm))
    }

    fn unexpected(&self, expected: &'static str) -> PlanError {
        let before = self.text[..self.text.len() - self.rest.len()].trim();
        let skip = before.chars().count().saturating_sub(40);
        PlanError::Unexpected {
            found: quoted(self.rest),
            before: one_line(&before.chars().skip(skip).collect::<String>()),
            expected,
        }
    }
}

/// What follows the sign between a width and a depth, if it stands here.
fn after_times(text: &str) -> Option<&str> {
    let here = text.trim_start();
    let by = || here.strip_prefix("by").filter(|rest| !rest.starts_with(char::is_alphabetic));
    here.strip_prefix(['x', 'X', '×', '*']).or_else(by)
}

/// The outline of the terms put together, clockwise from anywhere.
///
/// The page is cut along every term's edges; each cell is in or out; the boundary between them is walked.
fn trace(terms: &[Term]) -> Result<Vec<Point>, PlanError> {
    let xs = distinct(terms.iter().flat_map(|t| [t.left, t.left + t.width]));
    let ys = distinct(terms.iter().flat_map(|t| [t.top, t.top + t.depth]));
    let inside = |column: usize, row: usize| {
        let (x, y) = (f64::midpoint(xs[column], xs[column + 1]), f64::midpoint(ys[row], ys[row + 1]));
        let holds =
            |t: &Term| (t.left..t.left + t.width).contains(&x) && (t.top..t.top + t.depth).contains(&y);
        terms.iter().any(|t| t.adds && holds(t)) && !terms.iter().any(|t| !t.adds && holds(t))
    };
    let mut edges = vec![];
    for row in 0..ys.len() - 1 {
        for column in (0..xs.len() - 1).filter(|column| inside(*column, row)) {
            let (l, r, t, b) = (column, column + 1, row, row + 1);
            let right_of = r < xs.len() - 1 && inside(r, row);
            let left_of = l > 0 && inside(l - 1, row);
            let above = t > 0 && inside(column, t - 1);
            let below = b < ys.len() - 1 && inside(column, b);
            for (covered, from, to) in [
                (above, (l, t), (r, t)),
                (right_of, (r, t), (r, b)),
                (below, (r, b), (l, b)),
                (left_of, (l, b), (l, t)),
            ] {
                if !covered {
                    edges.push((from, to));
                }
            }
        }
    }
    join(&edges, &xs, &ys)
}

/// A cut across and a cut down the page, by index.
type Crossing = (usize, usize);

/// Joins unit edges into one closed outline and drops the points that no turn is made at.
fn join(edges: &[(Crossing, Crossing)], xs: &[f64], ys: &[f64]) -> Result<Vec<Point>, PlanError> {
    let Some(&(start, first)) = edges.first() else {
        return Err(PlanError::NotOnePiece { what: "nothing" });
    };
    let mut path = vec![start];
    let mut here = first;
    while here != start {
        path.push(here);
        let mut onward = edges.iter().filter(|(from, _)| *from == here);
        match (onward.next(), onward.next()) {
            (Some(&(_, to)), None) => here = to,
            _ => {
                return Err(PlanError::NotOnePiece { what: "parts that meet only at a point" });
            }
        }
    }
    if path.len() < edges.len() {
        return Err(PlanError::NotOnePiece { what: "separate parts or a hole" });
    }
    let at: Vec<Point> = path.iter().map(|(x, y)| Point::new(xs[*x], ys[*y])).collect();
    let n = at.len();
    let turns =
        |i: usize| Heading::between(at[(i + n - 1) % n], at[i]) != Heading::between(at[i], at[(i + 1) % n]);
    Ok((0..n).filter(|i| turns(*i)).map(|i| at[i]).collect())
}
