"""The motifs shipped with knotplot: one YAML file each in `shipped/`, the file's stem its name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache

from knotplot.discovery import hint, read_shipped, shipped
from knotplot.errors import Refusal
from knotplot.motifs.motif import Motif


@lru_cache(maxsize=1)
def shipped_names() -> tuple[str, ...]:
    """Return the names of the shipped motifs, sorted."""
    return shipped("knotplot.motifs", "shipped")


@lru_cache(maxsize=256)
def shipped_motif(name: str) -> Motif:
    """Read one shipped motif; its lengths all have units."""
    return Motif.model_validate(read_shipped("knotplot.motifs", name, "shipped"))


def find_motif(name: str, own: Mapping[str, Motif]) -> Motif:
    """Return a motif, the pattern's `own` before the shipped; refuse an unknown name."""
    if name in own:
        return own[name]
    if name in shipped_names():
        return shipped_motif(name)
    raise Refusal("no motif is called that", hint(name, [*own, *shipped_names()], 3), value=name)


class Motifs(Mapping[str, Motif]):
    """A pattern's own motifs over the shipped ones."""

    def __init__(self, own: Mapping[str, Motif]) -> None:
        self._own = own

    def __getitem__(self, name: str) -> Motif:
        try:
            return find_motif(name, self._own)
        except Refusal:
            raise KeyError(name) from None

    def __iter__(self) -> Iterator[str]:
        return iter(sorted({*self._own, *shipped_names()}))

    def __len__(self) -> int:
        return len({*self._own, *shipped_names()})
