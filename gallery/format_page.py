"""The reference of the pattern language, as a page with pictures: every key, kind and profile."""

from __future__ import annotations

from collections.abc import Iterator

from knotplot import build
from knotplot.drawing.alone import alone
from knotplot.drawing.chart import chart
from knotplot.drawing.cord_view import cord_view
from knotplot.pattern.explain import HEADINGS
from knotplot.pattern.models import Pattern
from knotplot.pattern.reference import SORTS, Entry, Reference, Sort
from knotplot.pattern.specimens import specimen
from knotplot.renderers import svg

SHOWN = 0.2  # of its size: in these pictures no fibre of a cord could be seen
MOST_BYTES = 70_000  # of a picture as cord; larger ones are drawn as charts
INTRODUCTION: dict[Sort, str] = {
    "key": "What a file may hold, in no set order but for `knotplot`, which comes first.",
    "mount": "The value of `mount`: its `kind`, and the keys of that kind.",
    "section": "What stands in `sections`: a `kind` each, an optional `name`, and its keys.",
    "step": "What stands in the `steps` of a motif, one key each; lanes are counted from 1, left "
    "to right. The examples are motifs, worked once.",
    "profile": "The values of `lower_edge.profile`, f being 0 at the lowest of the line and 1 at "
    "the highest, and u running from −1 at the left side to 1 at the right.",
}
TOP = """# The pattern language

Everything that may stand in a pattern file, made from the program's own models: each thing with
what it is, what it takes, what it is unless said, and an example. `knotplot explain NAME` prints
one entry, `knotplot schema` all of it as JSON Schema, which shows it in an editor.

A **length** is a number with mm, cm, m, in, ft or yd (`92 cm`, `36 1/2 in`, `5 ft 2 in`). Keys that
begin with `x-` are yours: they are passed over everywhere.

Each example stands in a small piece of 4 mm cord that is made, and drawn, whenever this page is
tested:

```yaml
knotplot: 1
size: {width: 80 mm, drop: 90 mm}
cord: {diameter: 4 mm}
strands: {count: 8}
```
"""


def format_page() -> Iterator[tuple[str, bytes]]:
    """Yield the name and content of the page and of its pictures."""
    reference = Reference()
    parts = [TOP, _contents(reference)]
    for sort in SORTS:
        parts.append(f"## {HEADINGS[sort]}\n\n{INTRODUCTION[sort]}\n")
        if sort == "key":
            parts.append(_table(reference.of(sort)))
        for entry in reference.of(sort):
            if sort != "key" or entry.keys:
                parts.append("\n".join(_told(entry)))
            shown = specimen(entry)
            if shown is not None:
                yield picture_name(entry), picture(shown.pattern).encode()
    yield "format.md", ("\n".join(parts)).encode()


def picture_name(entry: Entry) -> str:
    """Return the name of the picture of an entry, within the gallery."""
    return f"format/{entry.sort}-{entry.name}.svg"


def picture(pattern: Pattern) -> str:
    """Return a piece as SVG: as cord or, where that is large, as a chart."""
    layout = build(pattern).layout
    drawn = svg.checked(svg.render(alone(cord_view(layout, SHOWN))))
    if len(drawn) <= MOST_BYTES:
        return drawn
    return svg.checked(svg.render(alone(chart(layout))))


def _contents(reference: Reference) -> str:
    lines = []
    for sort in SORTS:
        names = (each for each in reference.of(sort) if sort != "key" or each.keys)
        links = ", ".join(f"[{each.name}](#{_anchor(each)})" for each in names)
        lines.append(f"- **{HEADINGS[sort]}**: {links}")
    return "\n".join(lines) + "\n"


def _anchor(entry: Entry) -> str:
    return f"{entry.sort}-{entry.name}"


def _told(entry: Entry) -> Iterator[str]:
    """Yield the lines of one entry."""
    yield from (f'<a id="{_anchor(entry)}"></a>', "", f"### {entry.name}", "", entry.text, "")
    shown = specimen(entry)
    if shown is not None:
        yield from ("```yaml", *shown.lines, "```", "")
        yield from (f"![{entry.name}, as it comes out]({picture_name(entry)})", "")
    if entry.keys:
        yield _table(entry.keys)
    for key in entry.keys:
        if key.keys and entry.sort != "key":
            yield from (f"Each of `{key.name}` has:", "", _table(key.keys))


def _table(entries: tuple[Entry, ...]) -> str:
    """Return keys as a table: what each is, what it takes, what it is unless said, an example."""
    lines = ["| key | is | takes | unless said | example |", "| --- | --- | --- | --- | --- |"]
    for each in entries:
        default = "*needed*" if each.needed else _code(each.default)
        examples = ", ".join(map(_code, each.examples))
        cells = (_code(each.name), each.text.replace("\n\n", " "), each.takes, default, examples)
        lines.append(f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in cells)} |")
    return "\n".join(lines) + "\n"


def _code(text: str) -> str:
    return f"`{text}`" if text else ""
