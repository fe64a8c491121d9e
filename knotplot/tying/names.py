"""Words for numbers of things, lists of things, and ranges of ids and rows."""

from __future__ import annotations

from collections.abc import Sequence


def listed(words: Sequence[str]) -> str:
    """Return words as a list in a sentence.

    >>> listed(["a"]), listed(["a", "b", "c"])
    ('a', 'a, b and c')
    """
    return " and ".join([*[", ".join(words[:-1])][: len(words) > 1], *words[-1:]])


def capital(text: str) -> str:
    """Return a text that begins with a capital.

    >>> capital("lark's head"), capital("")
    ("Lark's head", '')
    """
    return text[:1].upper() + text[1:]


def counted(count: int, what: str) -> str:
    """Return a number of things, one or several.

    >>> counted(1, "strand"), counted(12, "row")
    ('1 strand', '12 rows')
    """
    return f"{count} {what}{'s' * (count != 1)}"


def few(things: Sequence[str], most: int = 3) -> str:
    """Return the first few of some things as a list in a sentence, and how many more there are.

    >>> few(["a", "b"]), few(["a", "b", "c", "d", "e"])
    ('a and b', 'a, b, c and 2 more')
    """
    if len(things) <= most + 1:
        return listed(things)
    return listed([*things[:most], f"{len(things) - most} more"])


def some_rows(rows: Sequence[int], until: int = 0, more: int = 0) -> str:
    """Return rows by their numbers, in three runs at most, and how many more there are.

    `more` rows follow those given: up to row `until`, each of them, where that is said.

    >>> some_rows([2]), some_rows([2, 3], 8, 5), some_rows([2, 4, 6, 8], more=90)
    ('row 2', 'rows 2–8', 'rows 2, 4, 6 and 91 more')
    """
    runs: list[list[int]] = []
    for row in rows:
        if runs and row == runs[-1][1] + 1:
            runs[-1][1] = row
        else:
            runs.append([row, row])
    if until > runs[-1][1] and more:
        runs[-1][1], more = until, 0
    more += sum(last - first + 1 for first, last in runs[3:])
    told = [f"{a}" if a == b else f"{a}, {b}" if b == a + 1 else f"{a}–{b}" for a, b in runs[:3]]
    one = len(runs) == 1 and runs[0][0] == runs[0][1] and not more
    return f"row{'s' * (not one)} {', '.join(told)}{f' and {more} more' * bool(more)}"


def ranges(names: Sequence[str]) -> str:
    """Return cords' names with those that follow each other told as one.

    >>> ranges(["M1", "M2", "M3", "M7", "L1"])
    'M1–M3, M7, L1'
    >>> ranges(["M1", "M3", "M5", "M7"]), ranges(["1", "2", "3"])
    ('M1, M3, M5, M7', '1–3')
    """
    told: list[tuple[str, int, int]] = []
    for name in names:
        letter = name.rstrip("0123456789")
        number = int(name[len(letter) :])
        if told and told[-1][0] == letter and told[-1][2] == number - 1:
            told[-1] = (letter, told[-1][1], number)
        else:
            told.append((letter, number, number))
    return ", ".join(
        f"{letter}{a}" if a == b else f"{letter}{a}{'–' if b > a + 1 else ', '}{letter}{b}"
        for letter, a, b in told
    )
