"""What must hold of every piece that is made, whatever the pattern: sums agree, nothing is lost."""

from __future__ import annotations

import io
import json
import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from typing import Any

from knotplot.api import WorkedPiece

Finds = Iterator[tuple[str, str]]
CLOSE = 0.011  # mm: figures are rounded to 0.01
# What a gap in a text looks like; `{of: net}` is a part of a pattern.
_BARE = re.compile(r"\bNone\b|\bnan\b|\binf\b|\{\w*\}|\{\{|\}\}")


def sense_finds(made: WorkedPiece, given: str) -> Finds:
    """Yield what doesn't hold of a piece; `given` is the text it was made from."""
    figures = made.figures(rows=True)
    json.dumps(figures, allow_nan=False)  # refuses what isn't a finite number
    yield from _cords(figures)
    yield from _counts(figures, len(made.layout.tied_off))
    yield from _buying(figures)
    yield from _rows(figures)
    yield from _money(figures)
    yield from _text("words", made.words(), given)
    for warning in figures["warnings"]:
        yield from _text("warnings", warning, given)


def _text(what: str, text: str, given: str) -> Finds:
    for bare in set(_BARE.findall(text)):
        if bare not in given:
            line = next(line for line in text.splitlines() if bare in line)
            yield f"{bare} in {what}", line
    if not text.strip():
        yield f"no {what}", ""


def _cords(figures: dict[str, Any]) -> Finds:
    held: Counter[int] = Counter()
    for cord in figures["cords"]:
        held.update(cord["strands"])
        if cord["cut_mm"] < cord["used_mm"] - CLOSE:
            yield "a cord cut shorter than used", str(cord)
        if not cord["used_mm"] > 0.0:
            yield "a cord of no length", str(cord)
        if min(cord["use"].values()) < 0.0:
            yield "a negative use of cord", str(cord)
    ids = sorted(held)
    if ids != list(range(1, len(ids) + 1)) or max(held.values(), default=1) > 1:
        yield "a strand in no cord, or in two", str(held.most_common(3))
    cut = {str(id_): line for line in figures["cutting"] for id_ in line["cords"]}
    listed = [id_ for line in figures["cutting"] for id_ in line["cords"]]
    if sorted(map(str, listed)) != sorted(str(cord["cord"]) for cord in figures["cords"]):
        yield "a cord not in the cut list once", ""
    for cord in figures["cords"]:
        line = cut.get(str(cord["cord"]))
        if line and abs(line["length_mm"] - cord["cut_mm"]) > CLOSE:
            yield "a cord cut otherwise than listed", f"{cord} {line['length_mm']}"


def _counts(figures: dict[str, Any], in_ends: int) -> Finds:
    strands = figures["strands"]
    if strands["count"] % strands["repeat"] != strands["plus"] % strands["repeat"]:
        yield "a count that doesn't suit its repeat", str(strands)
    tied = Counter(tie["knot"] for row in figures["rows"] for tie in row["ties"])
    tied["overhand"] += in_ends  # the knots of a knotted fringe stand in no row
    if +tied != Counter(figures["knots"]):
        yield "knots other than ties", f"{figures['knots']} {dict(+tied)}"
    timed: Counter[str] = Counter()
    for each in figures["hours_by_knot"][:-1]:
        timed[each["what"]] += each["count"]
    if any(figures["knots"].get(knot, n) != n for knot, n in timed.items()):
        yield "hours for other knots than tied", str(figures["hours_by_knot"])
    if abs(sum(each["hours"] for each in figures["hours_by_knot"]) - figures["hours"]) > 0.005:
        yield "hours that don't add up", str(figures["hours_by_knot"])


def _buying(figures: dict[str, Any]) -> Finds:
    cut: dict[Any, float] = defaultdict(float)
    for line in figures["cutting"]:
        cut[line["cord_type"], line["colour"]] += line["length_mm"] * line["count"] / 1000.0
    bought = {(buy["cord_type"], buy["colour"]): buy["total_m"] for buy in figures["shopping"]}
    for key in {*cut, *bought}:
        rounding = 0.0051 + 1e-5 * sum(line["count"] for line in figures["cutting"])
        if abs(cut.get(key, 0.0) - bought.get(key, 0.0)) > rounding:
            yield "cord to buy isn't cord to cut", f"{key}: {cut.get(key)} {bought.get(key)}"
    for buy in figures["shopping"]:
        if buy["spools"] is not None and buy["spools"] < buy["lower_bound"]:
            yield "fewer spools than can be", str(buy)


def _rows(figures: dict[str, Any]) -> Finds:
    drop = figures["size"]["drop_mm"]
    known = {strand for cord in figures["cords"] for strand in cord["strands"]}
    for row in figures["rows"]:
        order = row["order_after"]
        if len(set(order)) != len(order) or not known.issuperset(order):
            yield "a strand twice or lost in a row", f"row {row['row']}: {order}"
        for tie in row["ties"]:
            added = tie["knot"] == "larks_head" and tie["leader"] is not None  # two on one lane
            if len(tie["lanes"]) + added != len(tie["strands"]) or len(tie["strands"]) != len(
                tie["roles"]
            ):
                yield "lanes, strands and roles that aren't parallel", str(tie)
            if not -CLOSE <= tie["x_mm"] <= figures["size"]["width_mm"] + CLOSE:
                yield "a tie beside the piece", str(tie)
            if tie["y_mm"] > drop + CLOSE:
                yield "a tie below the piece", str(tie)
    for point in figures["lower_edge"]:
        if not 0.0 <= point["y_mm"] <= drop + CLOSE:
            yield "a lower edge outside the piece", str(point)


def _money(figures: dict[str, Any]) -> Finds:
    quote = figures["quote"]
    if quote is None:
        return
    net = sum(line["amount"] or 0.0 for line in quote["lines"])
    if abs(net - quote["net"]) > 0.005 or abs(net + (quote["tax"] or 0.0) - quote["total"]) > 0.005:
        yield "a quote that doesn't add up", str(quote)


def drawn_finds(made: WorkedPiece, given: str) -> Finds:
    """Yield what is wrong with the drawings and the sheet of a piece."""
    from lxml import etree
    from pypdf import PdfReader
    from pypdfium2 import PdfDocument

    for view in ("chart", "cord", "outline", "trim"):
        svg = made.draw(view).svg()
        root = etree.fromstring(svg.encode())
        for element in root.iter():
            for name, value in element.attrib.items():
                if re.search(r"\b(nan|inf|None)\b", str(value)):
                    yield f"{value!r:.30} in {view}", f"{element.tag} {name}"
        said = [str(e.text) for e in root.iter("{*}text", "{*}tspan", "{*}title") if e.text]
        yield from _text(view, "\n".join(said) or view, given)
    data = made.sheet().pdf()
    PdfReader(io.BytesIO(data), strict=True)
    pages = PdfDocument(data)  # pypdf takes a minute to read the letters of a large chart
    yield from _text(
        "sheet", "\n".join(page.get_textpage().get_text_range() for page in pages), given
    )
