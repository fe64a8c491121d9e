"""Changing a pattern at random: its tree of keys and values, or the bytes of its text."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from typing import Any

import yaml

from fuzz.bases import bases

Path = tuple[str | int, ...]

# Values that are odd somewhere: numbers at the limits, text of other types, wrong shapes.
ODD: tuple[Any, ...] = (
    0, 1, 2, 3, 4, 5, 7, 8, 12, 16, 24, 100, 999, -1, 20_001, 2_000_001, 10**30, 0.0, 0.5, 1.0, 2.5,
    -0.001, 1e-9, 1e300, float("inf"), float("-inf"), float("nan"), True, False, None, "", " ", "~",
    "0", "1", "2 cm", "5 mm", "1 in", '3"', "1/2 in", "0.01 mm", "1e3", "0x2", "0o7", "1_000", "1:30",
    "−4 cm", "-4 cm", "+4 cm", "4,5 cm", "1/0 in", "999 m", "1001 m", "½", "36½\"", "5 ft 3 in", "mm",
    "fill", "rest", "none", "auto", "middle", "uneven", "edge", "offset", "half", "free", "left",
    "right", "alternate", "round", "flat", "body", "tails", "decrease", "increase", "combed", "cut",
    "knotted", "on", "no", "yes", "{}", "{0}", "%s", "a\tb", "a\nb", "\x07", "\u202e", "\u00a0", "é",
    "e\u0301", "🧶", "\ufeff", "\ufffe", "x" * 300, "<b>&amp;</b>", "]]>", "natural*3", "rust*0", "*",
    "#a4502f", "#fff", "12 EUR", "12", "-3 EUR", "1000000000000000 EUR", "15 %", "1001 %", "9 g/m", "3 kg",
    "1 kg", "45°", "90", "diamond", "leaf", "moth", "any", "net", "lace", "square_knot", "half_knot",
    "overhand", "larks_head", "berry_knot", "crown_knot", "josephine_knot", "half_hitch_chain",
    "gathering_knot", "ring", "open", "hitched", "picot", "rod_pocket", "pine", "steel", "oak",
    "arc", "parabola", "catenary", "vee", "scallops", "points", "straight", [], [0], [1, 2], [2, 1],
    [1, 2, 3, 4], [[0, 0], [1, 1]], [[0, 1], [0.5, 0], [1, 1]], {}, {"kind": "free", "length": 3},
    {"a": 1}, {"kind": "ring", "diameter": "20 cm"}, {"kind": "open", "tail": "5 cm"},
)  # fmt: skip
KEYS = (
    "kind", "rows", "name", "length", "strands", "count", "steps", "sections", "x-note", "kinds",
    "Kind", "", " ", "1", "true", "null", "a.b", "a[0]", "{}", "\u00a0", "🧶", "colour", "wrap", "knot",
)  # fmt: skip
TOKENS = (
    b"\n", b"  ", b"\t", b": ", b"- ", b"[", b"]", b"{", b"}", b"&a ", b"*a", b"!!str ", b"!x ", b"---\n",
    b"...\n", b"? ", b"| \n", b">\n", b"%YAML 1.1\n", b"'", b'"', b"#", b"\xff", b"\x00", b"\xc3", b"\xed\xa0\x80",
    b"\xef\xbb\xbf", b"\xe2\x80\xae", b"\xe2\x80\xa8", b"\x85", b"\r", b"null", b"~", b".inf", b".nan", b"1e9",
    b"0x1F", b"<<: ", b"=", b"\\", b"\\x00", b", ", b"0", b"9", b"-", b"1/0", b"@", b"`", b"\x7f",
)  # fmt: skip

Tree = Any


def parsed(text: str) -> Tree:
    """Return a base's keys and values; all numbers as YAML 1.1 has them, which is odd enough."""
    return yaml.safe_load(text)


def written(tree: Tree) -> str:
    """Return a tree as YAML, a key a line, so that a line is the place of one value."""
    return str(yaml.safe_dump(tree, sort_keys=False, allow_unicode=True, width=10_000))


def places(tree: Tree, path: Path = ()) -> Iterator[Path]:
    """Yield the path of every part of a tree."""
    inner = tree.items() if isinstance(tree, dict) else ()
    for key, value in enumerate(tree) if isinstance(tree, list) else inner:
        yield (*path, key)
        yield from places(value, (*path, key))


def at(tree: Tree, path: Path) -> Tree:
    for part in path:
        tree = tree[part]
    return tree


def changed_tree(rng: random.Random) -> str:
    """Return a base with one to four parts of it changed."""
    every = bases()
    tree = parsed(rng.choice(every))
    for _ in range(rng.choice((1, 1, 1, 2, 2, 3, 4))):
        _change(rng, tree, every)
    return written(tree)


def _change(rng: random.Random, tree: Tree, every: list[str]) -> None:
    found = list(places(tree))
    if not found:
        return
    path = rng.choice(found)
    holder, key = at(tree, path[:-1]), path[-1]
    match rng.choice(("odd", "odd", "odd", "near", "near", "drop", "other", "key", "more", "swap")):
        case "odd":
            holder[key] = _copy(rng.choice(ODD))
        case "near":
            holder[key] = near(rng, holder[key])
        case "drop":
            del holder[key]
        case "other":  # a part from anywhere
            from_tree = parsed(rng.choice(every))
            holder[key] = at(from_tree, rng.choice(list(places(from_tree))))
        case "key" if isinstance(holder, dict):
            name = rng.choice((*KEYS, str(key)[:-1], f"{key}s", rng.choice(found)[-1], 7, 1.5, None))
            holder[name] = holder.pop(key)
        case "more" if isinstance(holder, list):
            for _ in range(rng.choice((1, 1, 2, 40))):
                holder.insert(rng.randrange(len(holder) + 1), _copy(holder[int(key)]))
        case _:
            if isinstance(holder, list):
                rng.shuffle(holder)
            elif isinstance(holder, dict):
                name = rng.choice(list(holder))
                holder[key], holder[name] = holder[name], holder[key]


def near(rng: random.Random, value: Any) -> Any:
    """Return a value like that one: the same number with another size, the same measure."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + rng.choice((-4, -2, -1, 1, 2, 3, 4, 8, value, 10 * value))
    if isinstance(value, float):
        return value * rng.choice((-1.0, 0.1, 0.5, 0.9, 1.1, 2.0, 10.0))
    if isinstance(value, str) and value.split(" ")[0].replace(".", "").isdigit():
        number, *unit = value.split(" ")
        scaled = float(number) * rng.choice((0.01, 0.1, 0.3, 0.5, 0.9, 1.1, 2.0, 5.0))
        return " ".join([f"{scaled:.6g}", *unit])
    return _copy(rng.choice(ODD))


def _copy(value: Any) -> Any:
    """Return a value that shares nothing, so that YAML is written without anchors."""
    if isinstance(value, dict):
        return {key: _copy(part) for key, part in value.items()}
    return [_copy(part) for part in value] if isinstance(value, list) else value


def changed_bytes(rng: random.Random) -> bytes:
    """Return a base's text with one to six changes to its bytes."""
    data = bytearray(rng.choice(bases()).encode())
    for _ in range(rng.choice((1, 1, 2, 3, 6))):
        if not data:
            break
        place, end = rng.randrange(len(data)), rng.randrange(1, 40)
        match rng.choice(("bit", "byte", "cut", "token", "token", "token", "double", "line", "end")):
            case "bit":
                data[place] ^= 1 << rng.randrange(8)
            case "byte":
                data[place] = rng.randrange(256)
            case "cut":
                del data[place : place + end]
            case "token":
                data[place : place + rng.choice((0, 0, 1, 3))] = rng.choice(TOKENS)
            case "double":
                data[place:place] = data[place : place + end]
            case "line":
                lines = bytes(data).splitlines(keepends=True)
                lines.insert(rng.randrange(len(lines)), lines.pop(rng.randrange(len(lines))))
                data = bytearray(b"".join(lines))
            case _:
                del data[place:]
    return bytes(data)


def assignments(rng: random.Random, text: str) -> list[str]:
    """Return one to three `path=value` for a base, most of them with a path that is there."""
    tree = parsed(text)
    found = list(places(tree))
    return [_assignment(rng, tree, found) for _ in range(rng.choice((1, 1, 2, 3)))]


def _assignment(rng: random.Random, tree: Tree, found: list[Path]) -> str:
    path = rng.choice(found)
    value = rng.choice((near(rng, at(tree, path)), _copy(rng.choice(ODD))))
    named = _by_name(tree, path) if rng.random() < 0.5 else path
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in named)[1:]
    if rng.random() < 0.1:
        text = rng.choice(("", ".", "a", f"{text}.", f"{text}[99]", f"{text}.x", text[:-1], "[0]", "a..b"))
    try:
        told = json.dumps(value, ensure_ascii=rng.random() < 0.5)
    except ValueError:
        told = str(value)
    return text + rng.choice(("=", "=", "=", "=", " = ", "")) + rng.choice((told, told, str(value)))


def _by_name(tree: Tree, path: Path) -> Path:
    """Return the path with a section's name in place of where it stands."""
    if len(path) > 1 and path[0] == "sections":
        name = at(tree, path[:2]).get("name")
        return ("sections", str(name), *path[2:]) if name else path
    return path
