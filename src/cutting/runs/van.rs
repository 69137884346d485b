//! The counted bars: which of them one group of runs takes, and which are left for the others.

use crate::cutting::kinds::Kind;

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
        let splits = takes.iter().enumerate().map(|(number, whole)| splits(number, whole, &limits)).collect();
        Self { takes, splits }
    }

    /// How many splits there are in all.
    pub(super) fn shares(&self) -> usize {
        self.splits.iter().map(Vec::len).sum()
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

/// Every split in two of the take `whole`, whose number is `number`: by ascending number of the first part.
fn splits(number: usize, whole: &[usize], limits: &[usize]) -> Vec<(usize, usize)> {
    let mut part = vec![0; whole.len()];
    let mut code = 0;
    let mut splits = Vec::with_capacity(whole.iter().map(|digit| digit + 1).product());
    loop {
        splits.push((code, number - code));
        // One more, as on a counter whose wheels stop at the digits of the whole.
        let mut scale = 1;
        let mut wheel = 0;
        loop {
            if wheel == whole.len() {
                return splits;
            }
            if part[wheel] < whole[wheel] {
                part[wheel] += 1;
                code += scale;
                break;
            }
            code -= part[wheel] * scale;
            part[wheel] = 0;
            scale *= limits[wheel] + 1;
            wheel += 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn splits_are_all_pairs_of_takes_that_make_up_the_whole() {
        let kind = |count| Kind { length: 1, price: 0, count: Some(count), stock: 0 };
        let van = Van::new(&[kind(2), kind(0), kind(1), kind(3)]);
        assert_eq!(van.len(), 3 * 2 * 4);
        for whole in 0..van.len() {
            let sums = |a: usize, b: usize| {
                let pairs = van.take(a).iter().zip(van.take(b));
                pairs.zip(van.take(whole)).all(|((a, b), whole)| a + b == *whole)
            };
            let expected: Vec<(usize, usize)> = (0..van.len())
                .flat_map(|a| (0..van.len()).map(move |b| (a, b)))
                .filter(|&(a, b)| sums(a, b))
                .collect();
            assert_eq!(van.splits(whole), expected);
        }
    }
}
