"""Notices: every one has its words, in the file's terms and in the trade's; where and how it is."""

from __future__ import annotations

import copy
import pickle
from functools import cache

import pytest
from noticed_sample import PATTERNS
from trade import FILE_WORD

from knotplot import build
from knotplot.errors import Refusal
from knotplot.notice import Notice
from knotplot.notices import in_file_words, in_trade_words
from knotplot.notices.en import SENTENCES
from knotplot.pattern.load import loads
from knotplot.pattern.schema import json_schema


@cache
def noticed(key: str) -> tuple[Notice, ...]:
    """Return what is noticed of the pattern that raises this key."""
    return build(loads(PATTERNS[key])).notices


def one(key: str) -> Notice:
    """Return the first notice of that key of its pattern."""
    return next(notice for notice in noticed(key) if notice.key == key)


def test_every_notice_there_are_words_for_is_raised_by_a_pattern_here() -> None:
    assert set(PATTERNS) == set(SENTENCES)
    for key in PATTERNS:
        assert key in {notice.key for notice in noticed(key)}


@pytest.mark.parametrize("key", SENTENCES)
def test_a_notice_is_a_sentence_in_both_terms(key: str) -> None:
    for (text,) in (in_file_words([one(key)]), in_trade_words([one(key)])):
        assert text[0].islower() or text.startswith("M1")  # a cord by its name
        assert not text.endswith(".")
        assert text == " ".join(text.split())
        assert "None" not in text


@pytest.mark.parametrize("key", SENTENCES)
def test_the_trade_s_terms_name_nothing_as_the_file_does(key: str) -> None:
    (text,) = in_trade_words([one(key)])
    assert FILE_WORD.findall(text) == []


@pytest.mark.parametrize("key", SENTENCES)
def test_a_notice_is_about_a_place_of_the_pattern(key: str) -> None:
    first, *_ = one(key).path
    assert first in json_schema()["properties"]


@pytest.mark.parametrize("key", SENTENCES)
def test_a_notice_can_be_kept_copied_and_compared(key: str) -> None:
    notice = one(key)
    assert pickle.loads(pickle.dumps(notice)) == notice == copy.deepcopy(notice)
    assert hash(notice.said) == hash(copy.deepcopy(notice).said)


def test_a_swatch_is_pointed_at_alone_and_among_others() -> None:
    assert one("swatch_doubtful").path == ("swatch", "cord_used")
    assert one("swatch_untimed").path == ("swatches", 0)
    several = loads(PATTERNS["swatch_doubtful"].replace("swatch: {", "swatches: [{") + "]")
    paths = [notice.path for notice in build(several).notices if notice.key == "swatch_doubtful"]
    assert paths == [("swatches", 0, "cord_used")]


def test_advice_may_be_left_and_a_warning_not() -> None:
    of = {severity: {key for key in PATTERNS if one(key).severity == severity}
          for severity in ("warning", "doubt", "advice")}  # fmt: skip
    assert of["advice"] == {
        "lengths_uneven", "folds_uneven", "workers_unswapped", "nets_unmeasured", "swatch_unsure",
    }  # fmt: skip
    assert {"support_too_weak", "rows_fit_nowhere", "tails_short"} <= of["warning"]
    assert {"cord_overfull", "swatch_without_rows", "colours_unused"} <= of["doubt"]


def test_the_piece_says_its_notices_in_the_file_s_terms_in_their_order() -> None:
    piece = build(loads(PATTERNS["workers_unswapped"]))
    assert piece.warnings == in_file_words(piece.notices)
    assert piece.figures()["warnings"] == list(piece.warnings)
    assert [notice.key for notice in piece.notices] == ["folds_uneven", "workers_unswapped"]


def test_two_notices_of_the_same_words_say_the_same_wherever_they_are() -> None:
    here, there = (
        Notice("rows_pushed_apart", ("sections", i, "gap"), "warning",
               {"section": ("lace", "motif_band"), "gap": 9.0})
        for i in (1, 2)
    )  # fmt: skip
    assert here != there
    assert here.said == there.said


def test_a_language_without_words_is_refused() -> None:
    with pytest.raises(Refusal, match="no words in this language"):
        in_trade_words([], "tlh")


def test_a_notice_without_words_is_an_error() -> None:
    with pytest.raises(KeyError):
        in_file_words([Notice("unheard_of", (), "doubt", {})])
