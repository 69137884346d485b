//! Boxes and straight lines on paper, and whether they meet. Millimetres, y down.

use crate::geometry::Point;

/// A straight line between two points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Segment {
    pub(super) a: Point,
    pub(super) b: Point,
}

impl Segment {
    pub(super) const fn new(a: Point, b: Point) -> Self {
        Self { a, b }
    }

    /// The point at `t` of the way, 0 to 1.
    pub(super) fn at(self, t: f64) -> Point {
        Point::new(self.a.x + (self.b.x - self.a.x) * t, self.a.y + (self.b.y - self.a.y) * t)
    }

    pub(super) fn length(self) -> f64 {
        self.a.distance(self.b)
    }

    /// Whether the other lies so near along it that the two look like one.
    pub(super) fn runs_along(self, other: Self) -> bool {
        const NEAR: f64 = 1.0;
        const SINE: f64 = 0.15;
        let [u, v] = [self, other].map(|s| Point::new(s.b.x - s.a.x, s.b.y - s.a.y));
        let lengths = self.length() * other.length();
        if lengths == 0.0 || (u.x * v.y - u.y * v.x).abs() > SINE * lengths {
            return false;
        }
        let turn = v.y.atan2(v.x).to_degrees();
        let beside = Frame { middle: other.at(0.5), width: other.length(), height: NEAR, turn };
        beside.laid().is_crossed_by(self)
    }
}

/// A box that may be turned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Its middle.
    pub middle: Point,
    /// Its width, along its own base line, mm.
    pub width: f64,
    /// Its height, mm.
    pub height: f64,
    /// How far it is turned, degrees clockwise.
    pub turn: f64,
}

impl Frame {
    pub(super) const fn level(middle: Point, width: f64, height: f64) -> Self {
        Self { middle, width, height, turn: 0.0 }
    }

    /// The same, larger by `by` on every edge.
    pub(super) fn grown(self, by: f64) -> Self {
        Self { width: self.width + 2.0 * by, height: self.height + 2.0 * by, ..self }
    }

    pub(super) fn shifted(self, dx: f64, dy: f64) -> Self {
        Self { middle: Point::new(self.middle.x + dx, self.middle.y + dy), ..self }
    }

    /// The directions of its base line and down from it.
    fn axes(self) -> [Point; 2] {
        // Upright and level boxes are by far the most, and come out exact.
        let (sin, cos) = match self.turn {
            0.0 => (0.0, 1.0),
            -90.0 => (-1.0, 0.0),
            turn => turn.to_radians().sin_cos(),
        };
        [Point::new(cos, sin), Point::new(-sin, cos)]
    }

    /// The point `right` along its base line and `down` from its middle.
    pub(super) fn point(self, right: f64, down: f64) -> Point {
        self.along(self.axes(), right, down)
    }

    fn along(self, [u, v]: [Point; 2], right: f64, down: f64) -> Point {
        Point::new(self.middle.x + u.x * right + v.x * down, self.middle.y + u.y * right + v.y * down)
    }

    /// Its four corners, clockwise from the start of its base line's upper side.
    #[must_use]
    pub fn corners(self) -> [Point; 4] {
        let (axes, w, h) = (self.axes(), self.width / 2.0, self.height / 2.0);
        [(-w, -h), (w, -h), (w, h), (-w, h)].map(|(right, down)| self.along(axes, right, down))
    }

    /// Ready to be held against others.
    pub(super) fn laid(self) -> Laid {
        let corners = self.corners();
        Laid { frame: self, axes: self.axes(), extent: Extent::of(corners), corners }
    }
}

/// A box with what every comparison needs of it worked out once: a text tries hundreds of places among hundreds of lines.
#[derive(Debug, Clone, Copy)]
pub(super) struct Laid {
    frame: Frame,
    axes: [Point; 2],
    corners: [Point; 4],
    extent: Extent,
}

impl Laid {
    /// Whether the two share any area: no line along an edge of either parts them.
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        if !self.extent.meets(other.extent) {
            return false;
        }
        self.axes.into_iter().chain(other.axes).all(|axis| {
            let span = |corners: [Point; 4]| {
                corners
                    .iter()
                    .map(|p| p.x * axis.x + p.y * axis.y)
                    .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), d| (low.min(d), high.max(d)))
            };
            let ((low, high), (other_low, other_high)) = (span(self.corners), span(other.corners));
            low < other_high && other_low < high
        })
    }

    /// Whether any of the line lies inside.
    pub(super) fn is_crossed_by(&self, line: Segment) -> bool {
        let Segment { a, b } = line;
        let passes = |low: f64, high: f64, p: f64, q: f64| p.max(q) < low || p.min(q) > high;
        if passes(self.extent.left, self.extent.right, a.x, b.x)
            || passes(self.extent.top, self.extent.bottom, a.y, b.y)
        {
            return false;
        }
        let [u, v] = self.axes;
        let middle = self.frame.middle;
        let local = |p: Point| {
            let (dx, dy) = (p.x - middle.x, p.y - middle.y);
            (dx * u.x + dy * u.y, dx * v.x + dy * v.y)
        };
        let ((ax, ay), (bx, by)) = (local(a), local(b));
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (start, end, half) in [(ax, bx, self.frame.width / 2.0), (ay, by, self.frame.height / 2.0)] {
            let run = end - start;
            if run.abs() < 1e-12 {
                if start.abs() >= half {
                    return false;
                }
                continue;
            }
            let (t1, t2) = ((-half - start) / run, (half - start) / run);
            from = from.max(t1.min(t2));
            to = to.min(t1.max(t2));
        }
        from < to
    }
}

/// The level box round a number of points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Extent {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Extent {
    pub(super) const NOTHING: Self =
        Self { left: f64::INFINITY, top: f64::INFINITY, right: f64::NEG_INFINITY, bottom: f64::NEG_INFINITY };

    pub(super) fn of(points: impl IntoIterator<Item = Point>) -> Self {
        let mut extent = Self::NOTHING;
        points.into_iter().for_each(|p| extent.include(p));
        extent
    }

    fn meets(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    pub(super) fn include(&mut self, p: Point) {
        self.left = self.left.min(p.x);
        self.right = self.right.max(p.x);
        self.top = self.top.min(p.y);
        self.bottom = self.bottom.max(p.y);
    }

    pub(super) fn width(self) -> f64 {
        self.right - self.left
    }

    pub(super) fn height(self) -> f64 {
        self.bottom - self.top
    }
}
