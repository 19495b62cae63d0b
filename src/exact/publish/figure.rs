//! A number as far as it may be told: what every sheet, table and sentence prints.

use crate::words::Value;

/// How many pieces, as far as it may be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figure {
    /// The number where it is exact, or else one that the bands make likely.
    pub near: u64,
    /// The least that the bands allow.
    pub least: u64,
    /// The most; `None` where a place holds fifty pieces and more.
    pub most: Option<u64>,
}

impl Figure {
    /// Whether there are no pieces, as far as is told.
    pub fn is_nothing(self) -> bool {
        self.most == Some(0)
    }

    /// The number, where it is told exactly.
    pub fn exact(self) -> Option<u64> {
        (self.most == Some(self.least)).then_some(self.least)
    }

    /// The number, or from where to where it lies: "412", "3–9", "50+".
    pub fn text(self) -> String {
        match (self.exact(), self.most) {
            (Some(pieces), _) => pieces.to_string(),
            (None, Some(most)) => format!("{}–{most}", self.least),
            (None, None) => format!("{}+", self.least),
        }
    }

    /// The same beside the others, with which it makes up all: what they can be says more of it.
    pub fn beside(self, others: Self, all: u64) -> Self {
        let most = all.saturating_sub(others.least);
        let least = others.most.map_or(0, |most| all.saturating_sub(most)).max(self.least);
        let most = self.most.map_or(most, |known| known.min(most)).max(least);
        Self { near: self.near.clamp(least, most), least, most: Some(most) }
    }

    /// A number that is told as it is.
    pub const fn certain(pieces: u64) -> Self {
        Self { near: pieces, least: pieces, most: Some(pieces) }
    }
}

impl Default for Figure {
    /// No pieces.
    fn default() -> Self {
        Self::certain(0)
    }
}

impl std::ops::Add for Figure {
    type Output = Self;

    /// Two parts together, as far as nothing is told of both at once.
    fn add(self, other: Self) -> Self {
        Self {
            near: self.near + other.near,
            least: self.least + other.least,
            most: self.most.zip(other.most).map(|(a, b)| a + b),
        }
    }
}

impl From<Figure> for Value {
    fn from(figure: Figure) -> Self {
        figure.exact().map_or(Self::Range(figure.least, figure.most), Self::from)
    }
}

#[cfg(test)]
mod tests {
    use super::Figure;
    use crate::words::{Language, Words};

    #[test]
    fn what_is_not_exact_is_said_from_where_to_where() {
        let said =
            |language, figure: Figure| Words::of(language).say_with("sheet-shown", &[("n", figure.into())]);
        let between = Figure { near: 1_500, least: 1_000, most: Some(1_999) };
        assert_eq!(said(Language::English, Figure::certain(0)), "No pieces are shown.");
        assert_eq!(said(Language::English, Figure::certain(1)), "One piece is shown.");
        assert_eq!(said(Language::English, between), "1,000–1,999 pieces are shown.");
        assert_eq!(said(Language::French, between), "1\u{202f}000–1\u{202f}999 pièces sont montrées.");
        let few = Figure { near: 1, least: 1, most: Some(2) };
        assert_eq!(said(Language::English, few), "1–2 pieces are shown.");
        assert_eq!(
            said(Language::English, few + Figure { near: 60, least: 50, most: None }),
            "51+ pieces are shown."
        );
        assert!(Figure::default().is_nothing() && !few.is_nothing());
    }

    #[test]
    fn what_the_others_can_be_narrows_a_figure() {
        let wide = Figure { near: 2_190, least: 1_583, most: Some(2_198) };
        let others = Figure::certain(77) + Figure { near: 150, least: 115, most: Some(201) };
        assert_eq!(wide.beside(others, 2_359), Figure { near: 2_167, least: 2_081, most: Some(2_167) });
        let open = Figure { near: 1, least: 1, most: None };
        assert_eq!(wide.beside(open, 2_359), wide, "nothing is known of them");
    }
}
