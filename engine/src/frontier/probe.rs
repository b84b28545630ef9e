//! The answer of one look at a place.

/// One look at a place: the verdict, which decides, and the two clearances, which guide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Probe<T> {
    /// The place along the line.
    pub at: f64,
    /// Whether it holds there.
    pub holds: bool,
    /// Room to the long and to the short mouth point, m. Both are positive wherever it holds, and
    /// they change smoothly; `None` where the path never comes to the mouth line.
    pub rooms: Option<[f64; 2]>,
    /// Anything else that is known of it.
    pub what: T,
}

impl<T> Probe<T> {
    /// One of the two rooms.
    pub fn room(&self, side: usize) -> Option<f64> {
        self.rooms.map(|rooms| rooms[side])
    }

    /// The smaller room; nothing where there is none.
    pub fn least_room(&self) -> Option<f64> {
        self.rooms.map(|[long, short]| long.min(short))
    }

    /// The side on which there is no room, when that is why it breaks.
    pub fn broken_side(&self) -> Option<usize> {
        let [long, short] = self.rooms?;
        let side = usize::from(short < long);
        (!self.holds && long.min(short) <= 0.0).then_some(side)
    }
}

/// Looks at places by their two coordinates: across and along.
pub(super) trait Looks<T, E> {
    fn look(&self, across: f64, along: f64) -> Result<Probe<T>, E>;

    /// A look at each of these places of one line.
    fn look_along(&self, across: f64, along: &[f64]) -> Result<Vec<Probe<T>>, E> {
        along.iter().map(|along| self.look(across, *along)).collect()
    }
}

impl<T, E, F: Fn(f64, f64) -> Result<Probe<T>, E>> Looks<T, E> for F {
    fn look(&self, across: f64, along: f64) -> Result<Probe<T>, E> {
        self(across, along)
    }
}

/// Puts a look where it belongs; returns its index.
pub(super) fn insert<T>(looks: &mut Vec<Probe<T>>, new: Probe<T>) -> usize {
    let index = looks.partition_point(|one| one.at < new.at);
    looks.insert(index, new);
    index
}

#[cfg(test)]
pub(super) mod testing {
    use super::Probe;
    use std::convert::Infallible;

    /// A line that holds where both functions are positive.
    pub fn rooms(
        long: impl Fn(f64) -> f64,
        short: impl Fn(f64) -> f64,
    ) -> impl Fn(f64) -> Result<Probe<()>, Infallible> {
        move |at| {
            let rooms = [long(at), short(at)];
            let holds = rooms[0] > 0.0 && rooms[1] > 0.0;
            Ok(Probe { at, holds, rooms: Some(rooms), what: () })
        }
    }

    /// As [`rooms`], with one side that is always open.
    pub fn room(of: impl Fn(f64) -> f64) -> impl Fn(f64) -> Result<Probe<()>, Infallible> {
        rooms(of, |_| 1.0)
    }
}
