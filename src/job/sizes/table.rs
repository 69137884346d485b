//! The table of plausible sizes: every length of a job, by its field.
//!
//! The ranges are common practice, no source: as wide as anything built, taped or sold, so that what lies outside is a
//! slip (metres typed as bare numbers, most often) and not a rare job.

use super::size::{Size, size};

/// The largest distance taken anywhere, mm.
const FAR: f64 = crate::length::LONGEST;

/// Every length of a job.
pub(in crate::job) const SIZES: &[Size] = &[
    size("tape.length", "a tape's length", (1_000.0, 200_000.0), (2_000.0, 100_000.0)),
    size("tape.reading", "the spread of a reading", (0.01, 50.0), (0.1, 15.0)),
    size("tape.ends", "the spread of holding the ends", (0.01, 50.0), (0.1, 15.0)),
    size("house_depth", "a house's depth", (500.0, 100_000.0), (2_000.0, 30_000.0)),
    size("openings.at", "a distance along a side", (1.0, FAR), (1.0, FAR)),
    size("openings.width", "an opening's width", (50.0, 30_000.0), (300.0, 8_000.0)),
    size("openings.length", "a length of plate", (50.0, 30_000.0), (200.0, 15_000.0)),
    size("partitions.at", "a distance along a side", (1.0, FAR), (1.0, FAR)),
    size("partitions.width", "a partition's thickness", (10.0, 1_000.0), (38.0, 400.0)),
    size("partitions.length", "a partition's plate", (50.0, 30_000.0), (200.0, 15_000.0)),
    size("joints.at", "a distance along a side", (1.0, FAR), (1.0, FAR)),
    size("studs", "the distance between studs", (20.0, 3_000.0), (200.0, 1_300.0)),
    size("corners.tapes", "a tape at a corner", (100.0, FAR), (300.0, 100_000.0)),
    size("corners.limit", "a limit", (0.1, 1_000.0), (0.5, 100.0)),
    size("diagonals.limit", "a limit", (0.1, 1_000.0), (0.5, 100.0)),
    size("stock.lengths.length", "a length of timber", (300.0, 30_000.0), (600.0, 13_500.0)),
    size("stock.have.length", "a length in the van", (50.0, 30_000.0), (100.0, 13_500.0)),
    size("stock.kerf", "a saw cut", (0.2, 20.0), (0.8, 8.0)),
    size("stock.trim", "a trim", (0.5, 30_000.0), (1.0, 300.0)),
    size("cuts.pieces.length", "a piece", (10.0, 30_000.0), (30.0, 13_500.0)),
    size("plates.width", "a plate's width", (20.0, 600.0), (38.0, 300.0)),
    size("plates.panels", "a panel's width", (10.0, 20_000.0), (200.0, 6_000.0)),
    size("plates.corner_distance", "a splice's distance from a corner", (1.0, 10_000.0), (10.0, 5_000.0)),
    size("plates.least_piece", "the least piece", (1.0, 10_000.0), (50.0, 3_000.0)),
    size("plates.post_clear", "the distance kept from a post", (0.5, 5_000.0), (1.0, 1_500.0)),
    size("plates.panel_clear", "the distance kept from a panel joint", (0.5, 5_000.0), (1.0, 1_500.0)),
    size("plates.lap", "the binder's lap", (0.5, 10_000.0), (1.0, 3_000.0)),
    size("plates.dpc_lap", "a damp-proof course's lap", (1.0, 3_000.0), (50.0, 500.0)),
    size("plates.dpc_roll", "a roll's length", (20.0, 200_000.0), (1_000.0, 60_000.0)),
    size("plates.fix_every", "the distance between fixings", (10.0, 10_000.0), (50.0, 3_000.0)),
    size("plates.straps", "the distance between straps", (10.0, 10_000.0), (100.0, 4_000.0)),
    size("plates.anchors.spacing", "the distance between anchors", (10.0, 10_000.0), (100.0, 4_000.0)),
    size("plates.anchors.end", "an anchor's distance from an end", (1.0, 5_000.0), (20.0, 1_500.0)),
    size("plates.anchors.edge", "an anchor's distance from an end", (1.0, 3_000.0), (5.0, 800.0)),
    size("plates.anchors.apart", "the distance between anchors", (1.0, 5_000.0), (10.0, 2_000.0)),
    size("plates.anchors.stud_clear", "the distance kept from a stud", (0.5, 1_000.0), (1.0, 400.0)),
    size("packs.staff", "a staff reading", (50.0, 8_000.0), (100.0, 5_500.0)),
    size("packs.heights", "a height", (0.05, 5_000.0), (0.1, 1_000.0)),
    size("packs.limit", "a limit", (0.1, 1_000.0), (0.5, 100.0)),
    size("packs.packers", "a packer", (0.1, 100.0), (0.4, 100.0)),
    size("packs.within", "how near a stack comes", (0.05, 100.0), (0.1, 10.0)),
    size("packs.solid", "a gap for solid packers", (0.5, 500.0), (1.0, 150.0)),
    size("heights.drops", "a drop to the wall head", (200.0, 12_000.0), (500.0, 6_000.0)),
    size("heights.level_depth", "a level's depth", (10.0, 300.0), (20.0, 150.0)),
    size("heights.spread", "a limit", (0.1, 500.0), (0.5, 60.0)),
    size("heights.stack", "a layer", (0.1, 3_000.0), (0.2, 600.0)),
    size("heights.ceiling", "a ceiling height", (1_000.0, 12_000.0), (1_900.0, 5_000.0)),
    size("heights.hanger", "a hanger's level", (200.0, 12_000.0), (1_000.0, 6_000.0)),
    size("heights.bearing", "a bearing's level", (200.0, 12_000.0), (1_000.0, 6_000.0)),
    size("heights.run", "a joist's run", (200.0, 30_000.0), (600.0, 12_000.0)),
    size("joists.centres", "the distance between joists", (50.0, 3_000.0), (200.0, 900.0)),
    size("joists.thickness", "a joist's thickness", (10.0, 600.0), (25.0, 150.0)),
    size("joists.wall", "a wall's thickness", (10.0, 2_000.0), (60.0, 600.0)),
    size("joists.clear", "the distance kept from a wall", (0.5, 3_000.0), (1.0, 600.0)),
    size("joists.openings.width", "an opening's width", (50.0, 30_000.0), (200.0, 8_000.0)),
    size("joists.openings.length", "an opening's length", (50.0, 30_000.0), (200.0, 8_000.0)),
    size("joists.openings.along", "a distance along the supports", (1.0, FAR), (1.0, FAR)),
    size("joists.openings.out", "a distance along the joists", (1.0, FAR), (1.0, FAR)),
    size("joists.double", "a distance along the supports", (1.0, FAR), (1.0, FAR)),
    size("joists.bearing", "a bearing", (5.0, 2_000.0), (30.0, 400.0)),
    size("joists.hanger_gap", "a gap in a hanger", (0.1, 100.0), (0.5, 15.0)),
    size("joists.hanger_seat", "a hanger's seat", (10.0, 500.0), (30.0, 200.0)),
    size("joists.bearer", "a bearer's thickness", (10.0, 600.0), (25.0, 200.0)),
    size("joists.bolts", "the distance between bolts", (10.0, 10_000.0), (100.0, 2_000.0)),
    size("joists.packers", "a packer", (0.1, 100.0), (0.4, 100.0)),
    size("joists.within", "how near a stack comes", (0.05, 100.0), (0.1, 10.0)),
    size("joists.stock.length", "a length of timber", (300.0, 30_000.0), (600.0, 13_500.0)),
    size("joists.have.length", "a length in the van", (50.0, 30_000.0), (100.0, 13_500.0)),
    size("lines.setback", "a setback", (50.0, 50_000.0), (200.0, 8_000.0)),
    size("lines.layers.width", "a layer's thickness", (0.2, 2_000.0), (0.5, 600.0)),
    size("lines.footing", "a footing's width", (50.0, 10_000.0), (150.0, 2_000.0)),
    size("lines.footing_projection", "a footing's projection", (1.0, 5_000.0), (10.0, 1_000.0)),
    size("lines.offset", "an offset", (0.5, 100_000.0), (1.0, 10_000.0)),
    size("straight.block", "a block's thickness", (2.0, 300.0), (5.0, 120.0)),
    size("straight.limit", "a limit", (0.1, 1_000.0), (0.5, 100.0)),
    size("straight.readings.at", "a distance along a side", (1.0, FAR), (1.0, FAR)),
    size("straight.readings.reading", "a reading from the string", (0.1, 1_000.0), (0.5, 500.0)),
    size("readings.read", "a taped length", (50.0, FAR), (100.0, 100_000.0)),
    size("readings.second_tape.read", "a taped length", (50.0, FAR), (100.0, 100_000.0)),
    size("readings.rise", "a rise", (0.1, 20_000.0), (0.5, 3_000.0)),
    size("readings.held_on", "what a tape is held on", (1.0, 3_000.0), (5.0, 1_000.0)),
    size("readings.second_tape.held_on", "what a tape is held on", (1.0, 3_000.0), (5.0, 1_000.0)),
    size("readings.built_within", "how near it is built", (0.1, 1_000.0), (0.5, 200.0)),
    size("readings.limit", "a limit", (0.1, 1_000.0), (0.5, 100.0)),
    size("readings.size_limit", "a limit", (0.1, 1_000.0), (0.5, 100.0)),
    size("readings.overhang", "an overhang", (0.1, 1_000.0), (0.5, 100.0)),
    size("readings.stand_off", "a distance off the house", (1.0, 1_000.0), (1.0, 100.0)),
    size("order.prices.size", "a size", (0.05, 200_000.0), (0.2, 100_000.0)),
    size("order.extras.size", "a size", (0.05, 200_000.0), (0.2, 100_000.0)),
];

#[cfg(test)]
mod tests {
    use super::*;

    /// Every length of the job file has its row, and every row its length: a new field can't be forgotten.
    #[test]
    fn every_length_of_the_job_file_stands_in_the_table() {
        fn lengths(schema: &serde_json::Value, at: &serde_json::Value, path: &str, found: &mut Vec<String>) {
            let name = at["$ref"].as_str().or_else(|| at["anyOf"][0]["$ref"].as_str());
            if name == Some("#/$defs/Length") {
                found.push(path.to_owned());
                return;
            }
            let at = name.and_then(|name| schema.pointer(name.trim_start_matches('#'))).unwrap_or(at);
            if let Some(items) = at.get("items") {
                lengths(schema, items, path, found);
            }
            for (name, field) in at["properties"].as_object().into_iter().flatten() {
                let path = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
                lengths(schema, field, &path, found);
            }
        }
        let schema = crate::job::schema().to_value();
        let mut found = vec![];
        lengths(&schema, &schema, "", &mut found);
        // Lengths inside a text of more than a length.
        let texts = [
            "packs.staff",
            "packs.heights",
            "heights.stack",
            "readings.read",
            "readings.rise",
            "readings.second_tape.read",
        ];
        found.extend(texts.map(str::to_owned));
        // A booking's section is held to the sizes of the section that it stands for.
        found.retain(|field| !field.starts_with("bookings."));
        found.sort();
        let mut rows: Vec<_> = SIZES.iter().map(|size| size.field.to_owned()).collect();
        rows.sort();
        assert_eq!(rows, found);
    }

    #[test]
    fn what_is_usual_is_possible() {
        for size in SIZES {
            let ((least, most), (usual_least, usual_most)) = size.ranges();
            assert!(
                least > 0.0 && least <= usual_least && usual_least <= usual_most && usual_most <= most,
                "{size:?}"
            );
        }
    }
}
