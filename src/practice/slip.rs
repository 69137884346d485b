//! The slips that a wrong answer can look like.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::ser::{Serialize, SerializeStruct, Serializer};

/// Defines the slips, each with its name in JSON and its words after "it looks like".
macro_rules! slips {
    ($($(#[$doc:meta])* $slip:ident, $name:literal, $words:literal;)*) => {
        /// A slip of the hand or of the head.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Slip {
            $($(#[$doc])* $slip,)*
        }

        impl Slip {
            /// Every slip.
            pub const ALL: &'static [Self] = &[$(Self::$slip,)*];

            /// Its name in JSON.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$slip => $name,)* }
            }

            /// What was probably done, to follow "it looks like".
            #[must_use]
            pub const fn words(self) -> &'static str {
                match self { $(Self::$slip => $words,)* }
            }
        }
    };
}

slips! {
    /// a + b instead of √(a² + b²).
    AddedSides, "added sides", "the two sides added, not their squares";
    /// a² + b² left as it is.
    NoRoot, "no root", "the squares added and the root forgotten";
    /// (a² + b²) / 2.
    HalvedForRoot, "halved for root", "the sum of the squares halved instead of its root taken";
    /// √(a² − b²).
    SquaresTakenOff, "squares taken off", "one square taken off the other instead of added";
    /// A leg given for the diagonal.
    SideForDiagonal, "side for diagonal", "a side's length instead of the diagonal";
    /// What has to come off instead of what it leaves.
    CutOut, "cut-out", "the part that comes off taken for what it leaves";
    /// The whole side, nothing taken off.
    WholeSide, "whole side", "the whole side taken without what has to come off it";
    /// Added where it has to come off.
    AddedParts, "added parts", "parts added where one has to come off the other";
    /// One part of a sum only.
    OnePart, "one part", "one part of the side taken for the whole of it";
    /// Two neighbouring digits.
    SwappedDigits, "swapped digits", "two digits swapped";
    /// Metres, centimetres or feet for millimetres or inches.
    Unit, "unit", "the wrong unit: a point in the wrong place, or feet for inches";
    /// The neighbouring mark, where a figure had to be rounded.
    Rounding, "rounding", "rounding the wrong way, or too early in the sum";
    /// The neighbouring mark, where nothing had to be rounded.
    OneMark, "one mark", "one mark of the tape out";
    /// A minus before a length that has none.
    MinusLeft, "minus left", "the right figure with a minus left before it";
    /// What belongs in another blank of the question, and the other way round.
    ChangedPlaces, "changed places", "two answers in each other's place";
    /// 39.54 ft written as 39 ft 5.4 in.
    FeetDecimals, "feet decimals", "the decimals of a foot taken for inches: a tenth of a foot is 1.2 in";
    /// 474.5 in written as 474 5/16 in.
    InchDecimals, "inch decimals", "the decimals of an inch taken for sixteenths: a tenth of an inch is 1.6 sixteenths";
    /// The size of another side.
    OtherSide, "other side", "another side's length taken, not this one's";
    /// A round 10, 100 or 1000 mm, an inch or a foot.
    RoundFigure, "round figure", "a round figure out: a digit miscounted or miscarried";
    /// Legs or hypotenuse of the triple in each other's place.
    TriplePlace, "triple place", "another number of the triple: 3, 4 and 5 in each other's place";
    /// A smaller multiple than fits.
    SmallMultiple, "small multiple", "a smaller triangle than fits: it hides more of an error";
    /// A larger one than fits.
    LargeMultiple, "large multiple", "a triangle that doesn't fit the sides or the tape";
    /// The largest that the tape spans, too long for a side.
    TapeAlone, "tape alone", "the triangle fitted to the tape alone: a side is too short for it";
    /// The side, not its whole multiple.
    SideForLeg, "side for leg", "the side's own length, not how far along it the mark is";
    /// The tape's reading for what it would be in the square.
    TapeAsRead, "tape as read", "the tape as it was read, not as it would read if the corner were square";
    /// c − √(a² + b²) for the distance at the end of the leg.
    TapeDifference, "tape difference", "the difference of the tapes, not how far the leg's end is off";
    /// Divided by the other leg.
    OtherLeg, "other leg", "the other leg: the shorter divides, so that the longer one's end is found";
    /// The 2 under the line forgotten.
    NotHalved, "not halved", "the 2 under the line forgotten";
    /// Open for closed.
    OpenForClosed, "open for closed", "the wrong way round: too long a diagonal means an open corner";
    /// The side without what the plate's width does to it.
    NoWidth, "no width", "the side's length, the plate's width forgotten";
    /// One plate width where there are two ends.
    OneEnd, "one end", "only one end of the run seen to";
    /// Width added for taken off, or the other way.
    WidthWrongWay, "width wrong way", "the plate's width added where it comes off, or taken off where it is added";
    /// The other run taken as butting.
    WrongButt, "wrong butt", "the wrong run butted: the through run and the butting one changed round";
    /// An inward corner treated as an outward one.
    InwardCorner, "inward corner", "the inward corner treated like an outward one";
    /// Height or staff reading for pack.
    ReadingForPack, "reading for pack", "the reading itself, not its distance from the highest point";
    /// The lowest for the highest.
    LowestDatum, "lowest datum", "measured from the lowest point instead of the highest";
    /// The first station for the highest point.
    FirstDatum, "first datum", "measured from the first station instead of the highest point";
    /// Signs dropped.
    SignDropped, "sign dropped", "a sign lost: above and below the zero have to be added, not taken off";
    /// The figure of one end.
    NotInterpolated, "not interpolated", "the figure of one end, not of the place between";
    /// Half-way instead of the place.
    HalfWay, "half way", "the figure half-way along, not where it is asked for";
    /// From the other end.
    OtherEnd, "other end", "the distance measured from the other end";
    /// The thickest packers first.
    ThickestFirst, "thickest first", "the thickest packers first, which isn't always the fewest";
    /// Packers that don't make the thickness.
    TooFewPackers, "too few packers", "too few: that many packers don't make just that thickness";
    /// More packers than are needed.
    TooManyPackers, "too many packers", "more packers than it takes";
    /// The level's own depth left on.
    NoDepth, "no depth", "the level's own depth forgotten";
    /// The level's own depth added.
    DepthAdded, "depth added", "the level's own depth added instead of taken off";
    /// The depth taken off again.
    DepthTwice, "depth twice", "the level's own depth taken off twice";
    /// A drop other than the one with the highest wall head.
    NotHighest, "not highest", "a drop that isn't the highest";
    /// The mean of the drops.
    MeanDrop, "mean drop", "the mean of the drops instead of the highest";
    /// The plate left on.
    NoPlate, "no plate", "the plate forgotten";
    /// The binder left on.
    NoBinder, "no binder", "the binder forgotten";
    /// Both left on.
    NoPlateOrBinder, "no plate or binder", "plate and binder both forgotten";
    /// One rail of two.
    OneRail, "one rail", "one rail taken off, and there are two";
    /// No rail.
    NoRails, "no rails", "the rails forgotten";
    /// The floor finish left out.
    NoFloor, "no floor", "the floor finish forgotten";
    /// The lining left out.
    NoLining, "no lining", "the ceiling lining forgotten";
    /// Floor and lining the wrong way.
    LayersWrongWay, "layers wrong way", "floor finish and lining taken the wrong way";
    /// A layer's width for the running reading.
    OwnWidth, "own width", "the width alone, not the running reading from the first nail";
    /// A layer jumped over.
    LayerLeftOut, "layer left out", "the layer before it left out";
    /// From the skin where the footing's nail is the first.
    FromTheSkin, "from the skin", "measured from the skin, not from the footing's edge";
    /// All that the footing stands out, on one side.
    NotCentred, "not centred", "what the footing stands out not halved: it stands out on both sides";
    /// Half the footing.
    HalfTheFooting, "half the footing", "half the footing, not half of what it stands out";
    /// An edge without the opening's width.
    WidthLeftOn, "width left on", "the opening's width not taken off";
    /// The reading with the block still on it.
    BlockLeftOn, "block left on", "the reading itself, the block or the line not taken off";
    /// The block added.
    BlockAdded, "block added", "the block added instead of taken off";
    /// In for out.
    OutForIn, "out for in", "the wrong way: a string outside reads more where the plate stands in";
    /// The other support.
    OtherSupport, "other support", "the other end: the one that is too low is packed up";
    /// The levels' difference, no fall in it.
    NoFall, "no fall", "the difference of the levels, the fall that is wanted forgotten";
    /// The fall, no levels in it.
    FallAlone, "fall alone", "the fall that is wanted, the levels as they are forgotten";
    /// The fall towards the other end.
    FallWrongWay, "fall wrong way", "the fall taken towards the wrong end";
    /// Loose taken for fixed, or the other way.
    FixedOrNot, "fixed or not", "a line that only checks counted, or one that counts passed over";
    /// Lines that only check counted too.
    CountedAll, "counted all", "lines counted that only check what the others fix";
    /// A line between corners that are tied.
    TiedAlready, "tied already", "a line between corners that the others tie already: it only checks";
    /// AC − BD.
    DiagonalDifference, "diagonal difference", "the difference of the diagonals, not how far the side has to move";
    /// Half of it.
    HalfDifference, "half difference", "half the difference of the diagonals, not how far the side has to move";
    /// A reading that agrees with the rest.
    SoundReading, "sound reading", "a reading that agrees with the others";
    /// The length instead of the error.
    LengthForError, "length for error", "the length itself, not how far the reading is from it";
}

impl JsonSchema for Slip {
    fn schema_name() -> Cow<'static, str> {
        "Slip".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let kinds: Vec<&str> = Self::ALL.iter().map(|slip| slip.name()).collect();
        json_schema!({
            "description": "A usual slip.",
            "type": "object",
            "properties": {
                "kind": {"description": "Its name for programs.", "type": "string", "enum": kinds},
                "words": {"description": "What was probably done, to follow \"it looks like\".", "type": "string"}
            },
            "required": ["kind", "words"]
        })
    }
}

/// A slip as JSON has it: a name for programs and words for people.
impl Serialize for Slip {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut slip = serializer.serialize_struct("Slip", 2)?;
        slip.serialize_field("kind", self.name())?;
        slip.serialize_field("words", self.words())?;
        slip.end()
    }
}
