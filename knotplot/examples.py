"""What stands under each key that a pattern can't do without, as an example to write."""

from __future__ import annotations

import re

# A value for each key, as it stands in a file: what a fault proposes to add, or shows the form of.
EXAMPLES: dict[str, str] = {
    "after": "1",
    "at": "[[0, 0], [0.5, 1], [1, 0]]",
    "colours": "{order: [natural*6, rust*2]}",
    "cord": "{diameter: 4 mm}",
    "cords": "{main: {diameter: 4 mm}}",
    "count": "24",
    "cross": "[1, 2]",
    "diameter": "4 mm",
    "drop": "84 cm",
    "hitch": "{lead: 1, to: 4}",
    "kind": "square_knot",
    "knot": "half_knot",
    "knotplot": "1",
    "lanes": "[1, 2, 3, 4]",
    "lead": "1",
    "length": "10 cm",
    "loop": "6 cm",
    "lower_edge": "{profile: parabola, rise: 9 cm}",
    "main": "{diameter: 4 mm}",
    "material": "pine",
    "motif": "diamond",
    "mount": "{kind: larks_head, rod: 15 mm}",
    "opening": "{width: 92 cm, drop: 84 cm}",
    "order": "[natural*6, rust*2]",
    "parts": "[{strands: rest, sections: [{kind: square_knot_mesh, rows: 2}]}]",
    "rate": "22 EUR",
    "rod": "15 mm",
    "rows": "6",
    "sections": "[{kind: square_knot_mesh, rows: 6}]",
    "size": "{width: 92 cm, drop: 84 cm}",
    "span": "95 cm",
    "steps": "[{knot: {kind: square_knot, lanes: [1, 2, 3, 4]}}]",
    "strands": "8",
    "support": "{material: pine, diameter: 20 mm, span: 95 cm}",
    "swatch": "{strands: 20, width: 13 cm}",
    "tail": "26 cm",
    "times": "2",
    "to": "2",
    "width": "92 cm",
    "work": "{rate: 22 EUR}",
    "worker": "1",
    "wrap": "3 cm",
}
# The same key may ask for another thing elsewhere.
_ELSEWHERE: dict[tuple[str, str], str] = {
    ("Ring", "diameter"): "20 cm",
    ("Strands", "strands"): "{count: 24}",
    ("Support", "diameter"): "20 mm",
    ("Cords", "wrap"): "{diameter: 4 mm}",
}
# The form of what holds keys of its own, beside those above: steps, and items of lists.
_FORMS: dict[str, str] = {
    "add": "{after: 1, cords: 1}",
    "end": "{lanes: [1, 2]}",
    "knot": "{kind: square_knot, lanes: [1, 2, 3, 4]}",
    "parts[]": "{strands: 8, sections: [{kind: square_knot_mesh, rows: 2}]}",
    "repeat": "{times: 2, steps: [{cross: [1, 2]}]}",
    "sections[]": "{kind: square_knot_mesh, rows: 6}",
    "swatches[]": "{strands: 20, width: 13 cm}",
    "vertical": "{worker: 1, to: 4}",
}
_WIDE_AND_DEEP = re.compile(
    r"([0-9]+(?:\.[0-9]+)?) *([a-z]*) *(?:x|×|by|\*) *([0-9]+(?:\.[0-9]+)?) *([a-z]*)",
    re.IGNORECASE,
)


def example(key: str, model: str = "") -> str | None:
    """Return a line to add for a key of a model, in quotes; None for a key nothing is kept for.

    >>> example("cord")
    "'cord: {diameter: 4 mm}'"
    """
    value = _ELSEWHERE.get((model, key), EXAMPLES.get(key))
    return None if value is None else f"'{key}: {value}'"


def form(key: str, written: object) -> str | None:
    """Return what to write for a mapping where something else stands: with its measures, if any.

    `key` is its own; of an item of a list, the list's with `[]` behind it.

    >>> form("size", "30 x 40 cm")
    '{width: 30 cm, drop: 40 cm}'
    """
    value = _FORMS.get(key) or EXAMPLES.get(key, "")
    if not value.startswith("{"):
        return None
    match = _WIDE_AND_DEEP.fullmatch(written.strip()) if isinstance(written, str) else None
    if key in ("size", "opening") and match:
        unit = match[4] or match[2]
        wide, deep = f"{match[1]} {match[2] or unit}".strip(), f"{match[3]} {unit}".strip()
        return f"{{width: {wide}, drop: {deep}}}"
    return value
