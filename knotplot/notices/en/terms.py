"""English: what a sentence calls things by, as the file does or as the trade does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from knotplot.errors import Path, dotted
from knotplot.kinds import kinds
from knotplot.units import cm, inches

LANGUAGE = "en"
Sentence: TypeAlias = Callable[..., str]
Section: TypeAlias = tuple[str, str]  # its name and its kind; a section without a name has its kind

_PLACES: dict[Path, str] = {
    ("cord",): "cord",
    ("cords", "main"): "main cord",
    ("cords", "wrap"): "wrapping cord",
}


@dataclass(frozen=True, slots=True)
class Terms:
    """The terms of one reader: those of the file, or (`in_file` is False) those of the trade."""

    in_file: bool

    def pick(self, file: str, trade: str) -> str:
        """Return the words of the file or those of the trade, whichever the reader knows."""
        return file if self.in_file else trade

    def called(self, name: str) -> str:
        """Return what a section or a kind is called, by its name in the file.

        >>> FILE.called("hitch_line"), TRADE.called("hitch_line"), TRADE.called("my lace")
        ('hitch_line', 'the row of double half hitches', 'my lace')
        """
        words = kinds()[name].words.get(LANGUAGE) if name in kinds() else None
        return name if self.in_file or words is None else words.one

    def section(self, section: Section) -> str:
        """Return the label of a section: its own name, or what its kind is called."""
        name, kind = section
        return name if name != kind else self.called(kind)

    def swatch(self, of: str | None) -> str:
        """Return what a swatch is called, by the section or kind it is of."""
        return f"the swatch of {self.called(of)}" if of else "the swatch"

    def cord(self, place: Path) -> str:
        """Return what a cord is called, by its place in the file.

        >>> FILE.cord(("cords", "wrap")), TRADE.cord(("cords", "wrap"))
        ('cords.wrap', 'wrapping cord')
        """
        return self.pick(dotted(place), _PLACES[place])

    def thickness(self, thick: float, cord: Path) -> str:
        """Return how to ask for cord of that thickness (mm)."""
        return self.pick(f"'diameter: {thick:g} mm' under '{self.cord(cord)}'",
                         f"cord of {thick:g} mm")  # fmt: skip

    def width(self, width: Fraction, inch: bool, of: str) -> str:
        """Return how to ask for that width (mm) `of` the size or opening, in cm or inches."""
        told = measure(width, inch)
        return self.pick(f"'width: {told}' under '{of}'", f"a width of {told}")


FILE, TRADE = Terms(in_file=True), Terms(in_file=False)


def measure(mm: Fraction, inch: bool) -> str:
    """Return a length in inches or centimetres, whichever the pattern is in."""
    return inches(mm) if inch else cm(mm)


def metres(mm: float | Fraction) -> str:
    """Return how much cord a length is, in metres and yards.

    >>> metres(12300)
    '12.3 m (13.5 yd)'
    """
    return f"{float(mm) / 1000.0:,.1f} m ({float(mm) / 914.4:,.1f} yd)"


def rows(count: int) -> str:
    """Return a count of rows.

    >>> rows(1), rows(1200)
    ('1 row', '1,200 rows')
    """
    return "1 row" if count == 1 else f"{count:,} rows"
