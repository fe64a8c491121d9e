"""The text of a pattern, read with positions: YAML 1.2's core schema and nothing beyond it.

The text is composed here from libyaml's events, so that nothing is built before it is allowed:
aliases, anchors, tags, repeated keys, a second document and deep nesting are faults, each with
its line. Mappings and sequences come as `Table` and `Items`, which know where their parts stand.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

import yaml

from knotplot.errors import Fault, Path, PatternError, shown
from knotplot.pattern.tree import UNREAD, Items, Place, Source, Table
from knotplot.units import WrittenFloat, WrittenInt

DEEPEST = 64
MOST_BYTES = 8 * 1024 * 1024
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_MOST_FAULTS = 500
_LONGEST_KEY = 120
_NO_REMEDY = "leave it out"

_INT = re.compile(r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_NOT_FINITE = re.compile(r"[-+]?(\.inf|\.Inf|\.INF)|\.nan|\.NaN|\.NAN")
_WORDS: dict[str, object] = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL"), None),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}
# What is left of `4,5 mm` in braces after its comma, which ends a value there.
_AFTER_COMMA = re.compile(r"([0-9]+)( *(?:[a-zA-Z'\"/]+|%))?")
# In a name beside what can be printed: other spaces, and what joins letters and emoji.
_IN_NAMES = re.compile(
    "[\xa0\u1680\u2000-\u200a\u202f\u205f\u3000\u200c\u200d\U000e0020-\U000e007f]"
)
# What YAML allows in a text, less the marks that part lines only in older versions of it.
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def decode(data: bytes, origin: str | None = None) -> str:
    """Return the text of a file's bytes; raise `PatternError` if it isn't text in UTF-8."""
    if len(data) > MOST_BYTES:
        raise _fatal(origin, None, "larger than 8 MB", "that is no pattern; leave out what isn't")
    for mark, name in ((b"\xff\xfe", "UTF-16"), (b"\xfe\xff", "UTF-16")):
        if data.startswith(mark):
            raise _fatal(origin, 1, f"not UTF-8; it looks like {name}", "save it as UTF-8")
    if b"\0" in data:
        sample = data[:400]
        if sample.count(b"\0") * 3 > len(sample) and not sample.count(b"\0\0\0\0"):
            raise _fatal(origin, 1, "not UTF-8; it looks like UTF-16", "save it as UTF-8")
        line = data.count(b"\n", 0, data.index(b"\0")) + 1
        raise _fatal(origin, line, "a binary file, not text", "give a pattern in YAML")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        controls = sum(byte < 32 and byte not in b"\t\n\r" for byte in data[:4000])
        if controls * 50 > len(data[:4000]):
            raise _fatal(origin, line, "a binary file, not text", "give a YAML pattern") from None
        looks = "not UTF-8; it looks like Windows-1252 or Latin-1"
        raise _fatal(origin, line, looks, "save it as UTF-8") from None


def read(text: str, origin: str | None = None) -> Source:
    """Read the text of a pattern.

    What can be read past is in the `faults` of the source it returns; raises `PatternError` where
    nothing more can be read.
    """
    if len(text) > MOST_BYTES:
        raise _fatal(origin, None, "larger than 8 MB", "that is no pattern; leave out what isn't")
    text = text.removeprefix("\ufeff")
    bad = _UNPRINTABLE.search(text)
    if bad:
        line = text.count("\n", 0, bad.start()) + 1
        what = f"a character that is no text, U+{ord(bad[0]):04X}"
        raise _fatal(origin, line, what, "leave it out, or give a file that is text")
    builder = _Builder(origin)
    root = builder.build(text)
    if root is None and not builder.faults:
        raise _fatal(origin, 1, "an empty file", "begin it with 'knotplot: 1'")
    return Source(root, origin, tuple(builder.faults))


def read_value(text: str, origin: str) -> Any:
    """Read one scalar or flow collection; raises `PatternError`."""
    builder = _Builder(origin, flow_only=True)
    if _UNPRINTABLE.search(text):
        raise _fatal(origin, None, "a character that is no text", "leave it out")
    value = builder.build(text)
    if builder.faults:
        raise PatternError(replace(fault, line=None) for fault in builder.faults)
    return value


def is_plain(key: str) -> bool:
    """Say whether text can be a key: printable, and not endless."""
    return len(key) <= _LONGEST_KEY and _IN_NAMES.sub("", key).isprintable()


def resolve(text: str) -> object:
    """Return what a plain scalar is in YAML 1.2's core schema; numbers keep how they are written.

    >>> resolve("on"), resolve("1:30"), resolve("0o14"), resolve("~")
    ('on', '1:30', 12, None)
    """
    if text in _WORDS:
        return _WORDS[text]
    if len(text) < 400:
        if _INT.fullmatch(text):
            number = int(text, 0) if text[:2] in ("0o", "0x") else int(text)
            return number if str(number) == text else WrittenInt(number, text)
        if _FLOAT.fullmatch(text):
            return WrittenFloat(float(text), text)
        if _NOT_FINITE.fullmatch(text):
            return WrittenFloat(float(text.lower().replace(".", "")), text)
    return text


def _fatal(origin: str | None, line: int | None, problem: str, remedy: str) -> PatternError:
    return PatternError((Fault((), problem, remedy, None, origin, line),))


@dataclass(slots=True)
class _Open:
    """A mapping or sequence not yet ended, and the key that waits for its value.

    `key` stays while its value is read, so that faults within it can name it; None where the key
    is no word.
    """

    node: Table | Items
    flow: bool
    key: str | None = None
    key_place: Place | None = None
    skip: bool = False  # the value that comes stands under a key that can't be kept
    last: str | None = None  # the key before
    comma: bool = False  # the key may be what stands after a decimal comma


@dataclass(slots=True)
class _Builder:
    """Composes one document from events, without recursion."""

    origin: str | None
    flow_only: bool = False
    faults: list[Fault] = field(default_factory=list)
    stack: list[_Open] = field(default_factory=list)
    root: Any = None

    def build(self, text: str) -> Any:
        documents = 0
        try:
            for event in yaml.parse(text, Loader=_LOADER):
                if isinstance(event, yaml.DocumentStartEvent):
                    documents += 1
                    if documents > 1:
                        self._fault(event, "a second document", "keep one pattern in a file")
                        break
                    if event.tags:
                        self._fault(event, "a tag directive", _NO_REMEDY)
                elif isinstance(event, yaml.NodeEvent):
                    self._node(event)
                elif isinstance(event, yaml.CollectionEndEvent):
                    self._end()
        except yaml.YAMLError as error:
            raise self._syntax(error, text.rstrip().count("\n") + 1) from None
        return self.root

    def _node(self, event: Any) -> None:
        if isinstance(event, yaml.AliasEvent):
            self._fault(event, f"an alias {shown(f'*{event.anchor}')}", "write the part out again")
            self._put(UNREAD, event)
            return
        if event.anchor:
            self._fault(event, f"an anchor {shown(f'&{event.anchor}')}", _NO_REMEDY)
        if event.tag:
            self._fault(event, f"a tag {shown(event.tag)}", _NO_REMEDY)
        if isinstance(event, yaml.ScalarEvent):
            plain = event.style in (None, "") and event.implicit[0]
            self._put(resolve(event.value) if plain else event.value, event, event.value)
            return
        self._begin(event)

    def _begin(self, event: Any) -> None:
        if self.flow_only and not event.flow_style:
            problem = "more than one value"
            remedy = "put text with ': ' or '- ' in quotes, or use {…} and […]"
            raise _fatal(self.origin, None, problem, remedy)
        if len(self.stack) >= DEEPEST:
            raise self._too_deep(event.start_mark.line + 1)
        node: Table | Items = Table() if isinstance(event, yaml.MappingStartEvent) else Items()
        self._put(node, event)
        self.stack.append(_Open(node, bool(event.flow_style)))

    def _put(self, value: Any, event: Any, text: str | None = None) -> None:
        """Put a value (or a key) where it belongs."""
        place = Place(self.origin, event.start_mark.line + 1)
        if not self.stack:
            self.root = value
            return
        top = self.stack[-1]
        if isinstance(top.node, Items):
            top.node.append(value)
            top.node.places.append(place)
        elif top.key_place is None:
            self._key(top, value, place, text)
        elif top.comma and value is None and text == "":
            self._after_comma(top, place)
        else:
            if top.comma:
                self._key(top, top.key, top.key_place, top.key, checked=True)
            nested = isinstance(value, Table | Items)
            if not top.skip:
                assert top.key is not None
                # A nested part is best found by its key, as is one left out; a long value by where
                # it stands.
                top.node[top.key] = value
                by_key = nested or (value is None and text == "")
                top.node.places[top.key] = top.key_place if by_key else place
            top.last, top.key_place, top.skip = top.key, None, False
            if not nested:
                top.key = None

    def _key(
        self, top: _Open, value: Any, place: Place, text: str | None, checked: bool = False
    ) -> None:
        assert isinstance(top.node, Table)
        top.key, top.key_place = None, place
        top.comma = not checked and text is not None and _may_follow_comma(top, text)
        if top.comma:
            top.key = text
            return
        if text is None:
            top.skip = True
            if value is not UNREAD:
                self._say(place, "a key that is no plain word", "use a word as the key")
            return
        if not is_plain(text):
            top.skip = True
            self._say(place, f"the key {shown(text)}", "use a plain word as the key")
            return
        top.key = text
        if text in top.node:
            first = top.node.places[text].line
            self._say(
                place, f"the key '{text}' again, first on line {first}", "keep one of the two"
            )
            top.skip = True

    def _after_comma(self, top: _Open, place: Place) -> None:
        """Say of the key before that its value has a decimal comma; what follows it is no key."""
        assert isinstance(top.node, Table)
        assert top.last is not None
        rest, top.key = top.key or "", top.last
        before = top.node[top.last]
        written = f"'{top.last}: {before}.{rest}'"
        self._say(place, "a decimal comma", f"write {written}, with a point", f"{before},{rest}")
        top.node[top.last] = UNREAD
        top.key, top.key_place, top.comma, top.last = None, None, False, None

    def _too_deep(self, line: int) -> PatternError:
        problem = f"nested more than {DEEPEST} deep"
        return _fatal(self.origin, line, problem, "a pattern needs far less: write it flatter")

    def _end(self) -> None:
        self.stack.pop()
        if self.stack and self.stack[-1].key_place is None:
            self.stack[-1].key = None

    def _path(self) -> Path:
        """Return the path of what is read now, up to a key that is no word."""
        path: list[str | int] = []
        for i, level in enumerate(self.stack):
            last = i == len(self.stack) - 1
            if isinstance(level.node, Items):
                path.append(len(level.node) - (0 if last else 1))
            elif level.key is not None:
                path.append(level.key)
            else:
                break
        return tuple(path)

    def _fault(self, event: Any, problem: str, remedy: str) -> None:
        self._say(Place(self.origin, event.start_mark.line + 1), problem, remedy)

    def _say(self, place: Place, problem: str, remedy: str, value: str | None = None) -> None:
        told = None if value is None else shown(value)
        self.faults.append(Fault(self._path(), problem, remedy, told, self.origin, place.line))
        if len(self.faults) > _MOST_FAULTS:
            raise PatternError(self.faults)

    def _syntax(self, error: yaml.YAMLError, last: int) -> PatternError:
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        # What ends too soon is found behind the `last` line, where an editor has none.
        line = min(mark.line + 1, last) if mark is not None else None
        if "nesting" in str(error):  # libyaml's own limit, met by its scanner before ours
            return self._too_deep(line or 1)
        begun = getattr(error, "context_mark", None)
        doing = getattr(error, "context", None)
        where = f" {doing} from line {begun.line + 1}:" if begun and doing else ""
        said = str(getattr(error, "problem", None) or getattr(error, "reason", None) or error)
        return _fatal(
            self.origin,
            None if self.flow_only else line,
            f"not YAML:{where} {said.splitlines()[0]}",
            "check indentation, colons, brackets and quotes there",
        )


def _may_follow_comma(top: _Open, text: str) -> bool:
    """Tell whether a key looks like what `4,5 mm` in braces leaves of its number."""
    before = top.node.get(top.last) if isinstance(top.node, Table) and top.last else None
    whole = isinstance(before, int) and not isinstance(before, bool)
    return top.flow and whole and _AFTER_COMMA.fullmatch(text) is not None
