"""Notices in words: one record, said in the words of the file or in those of the trade.

`check` names what stands in the file, so that it can be changed there. Who reads a sheet may never
see the file: the sheet says what to do with cord.
"""

from __future__ import annotations

from collections.abc import Iterable
from importlib import import_module
from types import ModuleType

from knotplot.errors import Refusal
from knotplot.notice import Notice

LANGUAGES = ("en",)


def in_file_words(notices: Iterable[Notice], language: str = "en") -> tuple[str, ...]:
    """Return a sentence for each notice that calls things as the file does.

    Raises `Refusal` for a language there are no words in, KeyError for a notice there are none for.
    """
    said = _language(language)
    return tuple(said.say(notice, said.FILE) for notice in notices)


def in_trade_words(notices: Iterable[Notice], language: str = "en") -> tuple[str, ...]:
    """Return a sentence for each notice that calls things as makers do.

    Raises `Refusal` for a language there are no words in, KeyError for a notice there are none for.
    """
    said = _language(language)
    return tuple(said.say(notice, said.TRADE) for notice in notices)


def _language(code: str) -> ModuleType:
    if code not in LANGUAGES:
        known = ", ".join(LANGUAGES)
        raise Refusal("no words in this language", f"use one of {known}", ("language",), code)
    return import_module(f"knotplot.notices.{code}")
