//! Reads the things laid on the table.

use super::keys::{CORNERS, LENGTH, MIDDLE, OBSTACLE, TURNED, WIDTH, words};
use crate::yaml::{
    Entries, Mapping, Numbers, QuantityField, Reader, Refusal, check_name, known_keys,
};
use railproof_engine::vector::Vec2;
use railproof_engine::world::Obstacle;
use serde::de::{DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use std::fmt;

#[derive(Default)]
pub(super) struct ObstaclesEntries {
    obstacles: Vec<Obstacle>,
}

impl<'de> Entries<'de> for ObstaclesEntries {
    type Value = Vec<Obstacle>;

    fn what(&self) -> String {
        "`obstacles`".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        check_name("the obstacle's name", key)?;
        if self.obstacles.len() >= Obstacle::MOST {
            return Err(Refusal::new(format!("there are more than {} obstacles", Obstacle::MOST)));
        }
        Ok(())
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        let entries = ObstacleEntries { name: key.to_owned(), ..ObstacleEntries::default() };
        self.obstacles.push(map.next_value_seed(Mapping { reader, entries })?);
        Ok(())
    }

    fn finish(self) -> Result<Self::Value, Refusal> {
        Ok(self.obstacles)
    }
}

/// The entries of one obstacle.
#[derive(Default)]
pub(crate) struct ObstacleEntries {
    pub(crate) name: String,
    pub(crate) middle: Option<[f64; 2]>,
    pub(crate) length_m: Option<f64>,
    pub(crate) width_m: Option<f64>,
    pub(crate) turned_rad: Option<f64>,
    pub(crate) corners: Option<Vec<Vec2>>,
    pub(crate) height_m: Option<f64>,
    pub(crate) restitution: Option<f64>,
    pub(crate) friction: Option<f64>,
}

impl ObstacleEntries {
    fn title(&self) -> String {
        format!("the obstacle `{}`", self.name)
    }
}

impl<'de> Entries<'de> for ObstacleEntries {
    type Value = Obstacle;

    fn what(&self) -> String {
        self.title()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys(&self.title(), key, words(&OBSTACLE))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        let mut quantity = |parameter| map.next_value_seed(QuantityField { reader, parameter });
        match key {
            "middle" => {
                let seed = Numbers { reader, parameter: MIDDLE, longest: f64::INFINITY };
                self.middle = Some(map.next_value_seed(seed)?);
            }
            "length" => self.length_m = Some(quantity(LENGTH)?),
            "width" => self.width_m = Some(quantity(WIDTH)?),
            "turned" => self.turned_rad = Some(quantity(TURNED)?),
            "corners" => self.corners = Some(map.next_value_seed(Corners { reader })?),
            "height" => self.height_m = Some(quantity(Obstacle::HEIGHT)?),
            "restitution" => self.restitution = Some(quantity(Obstacle::RESTITUTION)?),
            _ => self.friction = Some(quantity(Obstacle::FRICTION)?),
        }
        Ok(())
    }

    fn finish(self) -> Result<Obstacle, Refusal> {
        let what = self.title();
        let is_rectangle =
            [self.length_m, self.width_m, self.turned_rad].iter().any(Option::is_some)
                || self.middle.is_some();
        let mut obstacle = match (self.corners, self.middle, self.length_m, self.width_m) {
            (Some(_), ..) if is_rectangle => {
                return Err(Refusal::new(format!("{what} has `corners` and a rectangle's keys"))
                    .with_hint("give it either `corners`, or `middle`, `length` and `width`"));
            }
            (Some(corners), ..) => {
                let middle = Vec2::ZERO;
                let rectangle = Obstacle::rectangle(&self.name, middle, 1.0, 1.0, 0.0);
                Obstacle { corners, ..rectangle }
            }
            (None, Some([x, y]), Some(length_m), Some(width_m)) => {
                let turned_rad = self.turned_rad.unwrap_or(0.0);
                Obstacle::rectangle(&self.name, Vec2::new(x, y), length_m, width_m, turned_rad)
            }
            _ => {
                return Err(Refusal::new(format!("{what} has no shape")).with_hint(
                    "give it `middle`, `length` and `width`, or `corners`: `[[0 m, 0 m], [10 cm, \
                     0 m], [0 m, 10 cm]]`",
                ));
            }
        };
        if let Some(height_m) = self.height_m {
            obstacle.height_m = height_m;
        }
        if let Some(restitution) = self.restitution {
            obstacle.restitution = restitution;
        }
        if let Some(friction) = self.friction {
            obstacle.friction = friction;
        }
        Ok(obstacle)
    }
}

/// Points in brackets.
struct Corners<'r> {
    reader: &'r Reader,
}

impl<'de> DeserializeSeed<'de> for Corners<'_> {
    type Value = Vec<Vec2>;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Vec<Vec2>, D::Error> {
        deserializer.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for Corners<'_> {
    type Value = Vec<Vec2>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a list of points in brackets")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Vec<Vec2>, A::Error> {
        let mut corners = Vec::new();
        let seed = || Numbers { reader: self.reader, parameter: CORNERS, longest: f64::INFINITY };
        while let Some([x, y]) = list.next_element_seed(seed())? {
            corners.push(Vec2::new(x, y));
            if corners.len() > Obstacle::MOST_CORNERS {
                return Err(self.reader.refuse(Refusal::new(format!(
                    "there are more than {} corners",
                    Obstacle::MOST_CORNERS
                ))));
            }
        }
        Ok(corners)
    }
}
