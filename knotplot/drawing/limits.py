"""How large a piece may be to be drawn tie by tie."""

from __future__ import annotations

from knotplot.errors import Refusal
from knotplot.tying.piece import Piece

#: A piece with more ties is not drawn tie by tie: nobody could tell one from another, and a view
#: takes some 8 kB of memory a tie (measured on a mesh of 100,000: 0.8 GB).
MOST_TIES = 150_000


def check_ties(piece: Piece) -> None:
    """Raise `Refusal` for a piece of more ties than are drawn."""
    if piece.tie_count > MOST_TIES:
        raise Refusal(
            f"the piece has {piece.tie_count:,} ties, and no more than {MOST_TIES:,} are drawn",
            "draw its outline or print its sheet, or work fewer rows or fewer strands",
        )
