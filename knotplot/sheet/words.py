"""The sheet's words by language: looked up by key, filled with values; none may be missing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from importlib import import_module

from knotplot.errors import Refusal
from knotplot.instructions.words import LANGUAGES
from knotplot.knots import knot


class MissingTextError(LookupError):
    """A text that a language hasn't got."""


@dataclass(frozen=True, slots=True)
class Words:
    """The texts of one language."""

    language: str
    texts: Mapping[str, str]
    lists: Mapping[str, tuple[str, ...]]
    labelled: Mapping[str, tuple[tuple[str, str], ...]]
    glossary: tuple[tuple[str, str, str], ...]

    def __call__(self, key: str, **values: object) -> str:
        """Return a text, its places filled; raises `MissingTextError` where there is none."""
        try:
            return self.texts[key].format(**values)
        except KeyError as missing:
            raise MissingTextError(
                f"{self.language}: no text or value {missing} for {key!r}"
            ) from None

    def list(self, key: str) -> tuple[str, ...]:
        """Return a list of texts; raises `MissingTextError` where there is none."""
        try:
            return self.lists[key]
        except KeyError:
            raise MissingTextError(f"{self.language}: no list {key!r}") from None

    def pairs(self, key: str) -> tuple[tuple[str, str], ...]:
        """Return a list of labels with texts; raises `MissingTextError` where there is none."""
        try:
            return self.labelled[key]
        except KeyError:
            raise MissingTextError(f"{self.language}: no pairs {key!r}") from None

    def count(self, number: int, what: str) -> str:
        """Return a number of things, in the singular or plural."""
        return self(f"{what} one" if number == 1 else f"{what} many", count=f"{number:,}")

    def knot(self, name: str) -> str:
        """Return what a knot is called."""
        try:
            return knot(name).words[self.language].one
        except KeyError:
            raise MissingTextError(f"{self.language}: no words for the knot {name!r}") from None


def sheet_words(language: str) -> Words:
    """Return the words of a language; raise `Refusal` for one there are none in."""
    if language not in LANGUAGES:
        known = ", ".join(LANGUAGES)
        raise Refusal("no words in this language", f"use one of {known}", ("language",), language)
    mine = import_module(f"knotplot.sheet.{language}")
    told = import_module(f"knotplot.instructions.{language}")
    return Words(language, mine.TEXTS, mine.LISTS, mine.PAIRS, told.GLOSSARY)
