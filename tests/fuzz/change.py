"""Changing a pattern at random: its tree of keys and values, or the bytes of its text."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from functools import cache
from typing import Any

import yaml

from fuzz.bases import bases
from fuzz.pools import KEYS, ODD, TOKENS

Path = tuple[str | int, ...]

Tree = Any
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
_CHANGES = ("bit", "byte", "cut", "token", "token", "token", "double", "line", "end")


def parsed(text: str) -> Tree:
    """Return a base's keys and values; all numbers as YAML 1.1 has them, which is odd enough."""
    return _copy(_parsed(text))


@cache
def _parsed(text: str) -> Tree:
    return yaml.load(text, _LOADER)


def written(tree: Tree) -> str:
    """Return a tree as YAML, a key a line, so that a line is the place of one value."""
    return str(yaml.dump(tree, Dumper=_DUMPER, sort_keys=False, allow_unicode=True, width=10_000))


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


def _change(rng: random.Random, tree: Tree, every: tuple[str, ...]) -> None:
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
            name = rng.choice(
                (*KEYS, str(key)[:-1], f"{key}s", rng.choice(found)[-1], 7, 1.5, None)
            )
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
        match rng.choice(_CHANGES):
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
        text = rng.choice(("", ".", "a", f"{text}.", f"{text}[99]", text[:-1], "[0]", "a..b"))
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
