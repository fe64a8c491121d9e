"""One knot by itself: the stages in which it is tied, each with its sentence."""

from __future__ import annotations

from knotplot.discovery import hint
from knotplot.drawing import metrics
from knotplot.drawing.bounds import Extent
from knotplot.drawing.how_to import Frame, extent, frames, in_box
from knotplot.drawing.shapes import Drawing, Item, Text
from knotplot.drawing.technique_frames import technique_frames
from knotplot.errors import Refusal
from knotplot.knots import catalogue
from knotplot.knots.usual import usual_manner
from knotplot.techniques import techniques
from knotplot.tying.names import capital

MARGIN = 5.0  # mm
GAP = 8.0  # between two frames
TEXT = 3.4  # size of the sentences
LEAD = 4.8
NARROWEST = 52.0  # mm of a frame, for its sentence
THINNEST, THICKEST = 3.0, 6.0  # mm: a cord is drawn at its own thickness between these
ROW = 3  # frames side by side


def knot_view(
    name: str, diameter: float, step: int | None = None, left_handed: bool = False,
    language: str = "en",
) -> Drawing:  # fmt: skip
    """Return how a knot of the catalogue is tied, frame by frame, or one `step` of it (from 1).

    Or how a technique is worked.

    Cord is drawn `diameter` mm thick, from 3 to 6 mm. Raises `Refusal` for a name that isn't in
    the catalogue, and for a step it hasn't got.
    """
    if name in catalogue():
        knot = catalogue()[name]
        made = frames(name, usual_manner(knot), left_handed, language)
        one = knot.words[language].one
    elif name in techniques():
        made = technique_frames(name, left_handed, language)
        one = techniques()[name].words[language].one
    else:
        known = [*catalogue(), *techniques()]
        raise Refusal("there is no such knot", hint(name, known), value=name)
    if step is not None and not 1 <= step <= len(made):
        remedy = f"it is tied in {len(made)} steps: use 1 to {len(made)}"
        raise Refusal(f"{name} has no step {step}", remedy, value=step)
    box, scale = extent(made), min(max(diameter, THINNEST), THICKEST)
    numbered = list(enumerate(made, start=1))
    if step is not None:
        numbered = numbered[step - 1 : step]
    items, width, height = _grid(numbered, box, scale)
    title = capital(one)
    told = " ".join(f"{i}. {frame.text}" for i, frame in numbered)
    return Drawing(width, height, tuple(items), title, told, language)


def _grid(
    numbered: list[tuple[int, Frame]], box: Extent, scale: float
) -> tuple[list[Item], float, float]:
    """Return frames in rows, each over its numbered sentence, and the size they take."""
    wide = max(scale * (box[2] - box[0]), NARROWEST)
    tall = scale * (box[3] - box[1])
    inset = (wide - scale * (box[2] - box[0])) / 2.0
    across = min(len(numbered), ROW if len(numbered) != 4 else 2)
    items: list[Item] = []
    y = MARGIN
    for first in range(0, len(numbered), across):
        row = numbered[first : first + across]
        texts = [metrics.wrap(frame.text, wide - 6.0, TEXT) for _, frame in row]
        for k, ((i, frame), lines) in enumerate(zip(row, texts, strict=True)):
            x = MARGIN + k * (wide + GAP)
            items.append(in_box(frame, box, scale, x + inset, y))
            base = y + tall + 2.0 + LEAD
            items.append(Text(x, base, f"{i}.", TEXT, weight="bold"))
            items += [Text(x + 6.0, base + LEAD * n, text, TEXT) for n, text in enumerate(lines)]
        y += tall + 2.0 + LEAD * (max(map(len, texts)) + 0.4) + GAP
    return items, 2.0 * MARGIN + across * (wide + GAP) - GAP, y - GAP + MARGIN
