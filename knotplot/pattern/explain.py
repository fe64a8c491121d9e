"""`knotplot explain`: an entry of the reference as plain text, or the list of all names."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from knotplot.pattern.reference import SORTS, Entry, Reference, Sort
from knotplot.pattern.specimens import specimen

WIDTH = 88
HEADINGS: dict[Sort, str] = {
    "key": "Keys of a pattern file",
    "mount": "Mounts",
    "section": "Sections",
    "step": "Steps of a motif",
    "profile": "Profiles of the lower edge",
}
_MORE = "knotplot explain NAME tells about one of them, or about a key in it: cord.diameter."


def explained(name: str | None = None) -> str:
    """Return what is known of a name or a dotted path, or without one the list of all names.

    Raises `Refusal` with the nearest names for one that there is not.
    """
    reference = Reference()
    if name is None:
        return "\n".join(_listed(reference)) + "\n"
    found = reference.find(name)
    return "\n\n".join("\n".join(_told(entry)) for entry in found) + "\n"


def _listed(reference: Reference) -> Iterator[str]:
    for sort in SORTS:
        names = ", ".join(entry.name for entry in reference.of(sort))
        yield from (HEADINGS[sort], *_indented(names), "")
    yield _MORE


def _told(entry: Entry) -> Iterator[str]:
    """Yield the lines of one entry."""
    yield f"{entry.path} ({'a ' if entry.sort != 'key' else ''}{entry.sort})"
    for paragraph in entry.text.split("\n\n"):
        yield from ("", *wrap(paragraph, WIDTH))
    facts = _facts(entry)
    if entry.sort == "key" and facts:
        yield from ("", *wrap(facts, WIDTH))
    if entry.kinds:
        yield from ("", *wrap(f"Its kinds: {', '.join(entry.kinds)}.", WIDTH))
    if entry.keys:
        yield from ("", "Its keys:")
    for key in entry.keys:
        yield f"  {key.name}"
        yield from _indented(f"{key.text} {_facts(key)}".strip(), "      ")
    shown = specimen(entry)
    if shown is not None:
        yield from ("", "An example:", "", *(f"  {line}" for line in shown.lines))


def _facts(entry: Entry) -> str:
    """Return what a key takes, what it is where nothing is written, and examples."""
    takes = entry.takes.replace("`", "")
    facts = [f"Takes {takes}."]
    if entry.needed:
        facts.append("Needed.")
    elif entry.default:
        facts.append(f"Unless said: {entry.default}.")
    examples = [f"{entry.name}: {each}" for each in entry.examples]
    if examples:
        facts.append(f"Example: {' or '.join(examples)}")
    return " ".join(facts)


def _indented(text: str, indent: str = "  ") -> list[str]:
    return wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent)
