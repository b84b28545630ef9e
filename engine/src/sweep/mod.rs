//! Many banks: axes, points, and what they show about a rule.
