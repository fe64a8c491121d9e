"""English: words about techniques on the sheets."""

from __future__ import annotations

TEXTS = {
    "techniques": "Ways of working",
    "techniques lead": "Each on a few cords, with the knots above. Cords have the numbers that "
    "stand above them, and those added in the work the numbers below them; blue cords are in your "
    "hand.",
}
