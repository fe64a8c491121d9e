"""From a pattern to everything made of it: the stages in their order.

pattern -> tying -> Piece -> geometry -> Layout -> materials, instructions, drawing -> sheet
"""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from knotplot import figures as numbers
from knotplot import notebook
from knotplot.brief import fit_line
from knotplot.discovery import hint
from knotplot.drawing.alone import alone
from knotplot.errors import Refusal, UsageError, shown
from knotplot.figure_types import Figures
from knotplot.geometry.layout import Layout
from knotplot.knots import catalogue
from knotplot.materials.bill import Bill, bill, laid
from knotplot.materials.quote import Quote
from knotplot.materials.remaining import folds, remaining
from knotplot.notice import Notice
from knotplot.notices import in_file_words
from knotplot.output import Document, Picture
from knotplot.pattern.load import verify
from knotplot.pattern.models import Pattern
from knotplot.pattern.strand_count import Count, strand_count
from knotplot.pattern.working import work
from knotplot.sheet.document import PAPERS, make_sheet
from knotplot.sheet.knot_facts import USUAL_CORD
from knotplot.techniques import techniques
from knotplot.tying.names import counted
from knotplot.units import both, extent_text
from knotplot.views import KNOT_VIEW, knot_drawing, view_drawing

if TYPE_CHECKING:
    from knotplot.sheet.subject import Subject


def build(pattern: Pattern) -> WorkedPiece:
    """Work a pattern: count its strands, tie it, lay it out and measure it.

    Raises `PatternError` with file, line and remedy where it can't be worked.
    """
    verify(pattern)
    try:
        count = strand_count(pattern)
        piece, noticed = work(pattern, count.count)
        layout = laid(pattern, piece)
        found = bill(pattern, layout)
        return WorkedPiece(pattern, count, layout, found, (*noticed, *found.notices))
    except Refusal as refusal:
        raise pattern.fault(refusal) from None


@dataclass(frozen=True, repr=False)
class WorkedPiece:
    """A piece with all its numbers, and what can be drawn, said and printed of it.

    `pattern` is what it was worked from, `count` its strands, `layout` where each tie and strand
    lies (mm), `bill` what it takes of cord, money and time, `notices` what its maker should know
    before the first cord is cut.
    """

    pattern: Pattern
    count: Count
    layout: Layout
    bill: Bill
    notices: tuple[Notice, ...]

    def __repr__(self) -> str:
        pattern = self.pattern
        strands = counted(self.count.count, "strand")
        rows = counted(len(self.layout.piece.rows), "row")
        size = extent_text(pattern.width, pattern.drop)
        return fit_line(f"WorkedPiece({shown(pattern.title, 32)}, {size}, {strands}, {rows})")

    def _repr_html_(self) -> str:
        """Return what it is, for a notebook: size, cords, knots and warnings."""
        pattern, knots = self.pattern, sum(self.bill.knots.values())
        facts = [
            f"{both(pattern.width)} × {both(pattern.drop)}",
            f"{counted(self.count.count, 'strand')} of {counted(len(self.bill.lengths), 'cord')}, "
            f"{counted(knots, 'knot')} in {counted(len(self.layout.piece.rows), 'row')}",
        ]
        return notebook.facts_html(pattern.title, facts, self.warnings)

    @cached_property
    def warnings(self) -> tuple[str, ...]:
        """Return a sentence for each of its notices, which names what stands in the file."""
        return in_file_words(self.notices)

    def figures(self, rows: bool = False) -> Figures:
        """Return every number of the piece, with its rows and ties if asked."""
        found = numbers.figures(self.pattern, self.count, self.layout, self.bill, self.warnings)
        if rows:
            found["rows"] = numbers.rows(self.layout.piece)
        return found

    def draw(
        self,
        view: str,
        *,
        rows: tuple[int, int] | None = None,
        lanes: tuple[int, int] | None = None,
        text_mm: float | None = None,
        scale: float | None = None,
        every_mm: float | None = None,
        step: int | None = None,
        left_handed: bool = False,
        language: str | None = None,
        ids: str = "",
    ) -> Picture:
        """Return a view of the piece: one of `chart`, `cord`, `key`, `outline`, `repeat`, `trim`.

        `knot:NAME` shows how a knot is tied, in cord of the piece's own diameter.

        - `rows`, `lanes`: the first and the last, from 1; of `chart`, `rows` of `repeat` too
        - `text_mm`: the size of its text, in mm of the picture; of all but `cord` and knots
        - `scale`: how large the piece is drawn, 1 being full size; of `cord`
        - `every_mm`: how far apart the marks of `trim` stand, 50 unless given
        - `step`: one step of a knot, from 1; `left_handed`: a knot as the left hand ties it
        - `language`: of its words, in place of the pattern's own
        - `ids`: what every id and class name of its SVG begins with

        Raises `UsageError` for a view that there is not, an option that the view doesn't take, or
        rows and lanes that the piece hasn't; `PatternError` for a piece of too many ties to be
        drawn one by one.
        """
        asked = {
            "rows": rows, "lanes": lanes, "text_mm": text_mm, "scale": scale,
            "every_mm": every_mm, "step": step, "left_handed": left_handed or None,
            "language": language,
        }  # fmt: skip
        options = {name: value for name, value in asked.items() if value is not None}
        name = "" if view.startswith(KNOT_VIEW) else self._name
        try:
            drawing = view_drawing(view, self.layout, options, self.pattern.language)
        except Refusal as refusal:
            raise self.pattern.fault(refusal) from None
        return Picture(alone(drawing, name), ids)

    @property
    def _name(self) -> str:
        """What the maker calls the piece; nothing where the pattern has no title."""
        return self.pattern.title if "title" in self.pattern.model_fields_set else ""

    def words(self) -> str:
        """Return the instructions as plain text."""
        from knotplot.instructions.text import plain_text

        left = remaining(self.layout, self.bill.lengths)
        where = folds(self.bill.lengths)
        return plain_text(self.layout.piece, self.pattern.title, left, folds=where)

    def quote(self) -> Quote:
        """Return what a commission costs; raise `PatternError` for a pattern without `work`."""
        if self.bill.quote is None:
            problem, remedy = "no hourly rate to quote by", "give work: {rate: 22 EUR}"
            raise self.pattern.fault(Refusal(problem, remedy, ("work",)))
        return self.bill.quote

    def quote_text(self) -> str:
        """Return the quote as plain text; raise `PatternError` for a pattern without `work`."""
        from knotplot.sheet.quote_text import quote_text

        made = self.quote()
        return quote_text(self._subject("a4"), made)

    def sheet(self, paper: str = "a4", quote: bool = False) -> Document:
        """Return the sheet to print, on `a4` or `letter`, with its quote if asked.

        Raises `PatternError` where a quote is asked of a pattern without `work`.
        """
        offer = self.quote() if quote else None
        found = (self.pattern, self.count, self.layout, self.bill, _paper(paper))
        return Document(make_sheet(*found, offer, self.notices))

    def knot_list(self) -> Picture:
        """Return the list of the piece's knots, drawn with their chart marks."""
        from knotplot.sheet.knot_list import knots_drawn

        return Picture(alone(knots_drawn(self.layout.piece), self._name))

    def knot_sheet(self, paper: str = "a4", left_handed: bool = False) -> Document:
        """Return a sheet that teaches the knots of the piece, on `a4` or `letter`.

        For the left hand all is mirrored, words too.
        """
        from knotplot.sheet.knot_sheet import its_knots

        return Document(its_knots(self._subject(paper), left_handed))

    def _subject(self, paper: str) -> Subject:
        """Return what a sheet of the piece is about, on that paper."""
        from knotplot.sheet.pages import subject_of

        return subject_of(self.pattern, self.count, self.layout, self.bill, _paper(paper))


def knot(
    name: str,
    *,
    diameter: float = USUAL_CORD,
    step: int | None = None,
    left_handed: bool = False,
    language: str = "en",
    ids: str = "",
) -> Picture:
    """Return how a knot of the catalogue is tied, stage by stage: `knot("square_knot")`.

    Cord is drawn `diameter` mm thick, from 3 to 6 mm. `step` shows one step alone (from 1),
    `left_handed` how the left hand ties it; `ids` is what every id and class name of its SVG begins
    with. Raises `UsageError` for a knot or a step that there is not.
    """
    _check_name(name, catalogue(), "knot", techniques(), "a way of working: use technique")
    return _lesson(name, diameter, step, left_handed, language, ids)


def technique(
    name: str,
    *,
    diameter: float = USUAL_CORD,
    step: int | None = None,
    left_handed: bool = False,
    language: str = "en",
    ids: str = "",
) -> Picture:
    """Return how a way of working is worked, picture by picture: `technique("sennit")`.

    The options are those of `knot`. Raises `UsageError` for one that there is not, and for a step
    it hasn't got.
    """
    _check_name(name, techniques(), "way of working", catalogue(), "a knot: use knot")
    return _lesson(name, diameter, step, left_handed, language, ids)


def _check_name(
    name: str, known: Collection[str], what: str, others: Collection[str], remedy: str
) -> None:
    """Raise `UsageError` for a name that isn't known, telling where else it belongs."""
    if name not in known:
        said = f"it is {remedy}({name!r})" if name in others else hint(name, known)
        raise UsageError(f"there is no {what} {shown(name)}; {said}")


def _lesson(
    name: str, diameter: float, step: int | None, left_handed: bool, language: str, ids: str
) -> Picture:
    if not 0.0 < diameter < math.inf:
        raise UsageError(f"diameter is {shown(diameter)}: give the cord's thickness in mm")
    options: dict[str, object] = {"left_handed": left_handed, "language": language}
    if step is not None:
        options["step"] = step
    return Picture(alone(knot_drawing(name, diameter, options)), ids)


def knot_list() -> Picture:
    """Return the list of every knot of the catalogue, drawn with their chart marks."""
    from knotplot.sheet.knot_list import knots_drawn

    return Picture(alone(knots_drawn()))


def knot_sheet(paper: str = "a4", left_handed: bool = False) -> Document:
    """Return a sheet that teaches every knot of the catalogue, on `a4` or `letter`.

    For the left hand all is mirrored, words too. Raises `UsageError` for other paper.
    """
    from knotplot.sheet.knot_sheet import all_knots

    return Document(all_knots(_paper(paper), left_handed))


def _paper(name: str) -> tuple[float, float]:
    """Return the width and height (mm) of paper; raise `UsageError` for another name."""
    if name not in PAPERS:
        raise UsageError(f"there is no paper {name!r}; use one of {', '.join(PAPERS)}")
    return PAPERS[name]
