//! The counted bars: which of them one group of runs takes, and which are left for the others.

use super::instance::Kind;

/// Every way to take some of the counted bars, as vectors of counts per counted kind. Number 0 takes none.
#[derive(Debug, Clone)]
pub(super) struct Van {
    takes: Vec<Vec<usize>>,
    /// For each take, every split in two: (one part, the other part).
    splits: Vec<Vec<(usize, usize)>>,
}

impl Van {
    /// All takes from `counted` kinds.
    pub(super) fn new(counted: &[Kind]) -> Self {
        let limits: Vec<usize> = counted.iter().map(|kind| kind.count.unwrap_or(0)).collect();
        let total: usize = limits.iter().map(|limit| limit + 1).product();
        let takes: Vec<Vec<usize>> = (0..total)
            .map(|mut code| {
                limits
                    .iter()
                    .map(|limit| {
                        let digit = code % (limit + 1);
                        code /= limit + 1;
                        digit
                    })
                    .collect()
            })
            .collect();
        let number = |take: &[usize]| {
            take.iter()
                .zip(&limits)
                .rev()
                .fold(0, |code, (digit, limit)| code * (limit + 1) + digit)
        };
        let splits = takes
            .iter()
            .map(|whole| {
                takes
                    .iter()
                    .filter(|part| part.iter().zip(whole).all(|(a, b)| a <= b))
                    .map(|part| {
                        let rest: Vec<usize> = whole.iter().zip(part).map(|(a, b)| a - b).collect();
                        (number(part), number(&rest))
                    })
                    .collect()
            })
            .collect();
        Self { takes, splits }
    }

    pub(super) fn len(&self) -> usize {
        self.takes.len()
    }

    pub(super) fn take(&self, number: usize) -> &[usize] {
        &self.takes[number]
    }

    pub(super) fn splits(&self, number: usize) -> &[(usize, usize)] {
        &self.splits[number]
    }
}
