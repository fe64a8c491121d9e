"""Every remedy works: what a fault proposes is applied, and that fault is gone.

A remedy is read as a maker reads it: a number to use, a line to write or add, a word that was
meant, a key to leave out. Each way it names is tried by itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from pattern_sample import SMALL, changed

from knotplot import build
from knotplot.errors import Fault, PatternError, dotted
from knotplot.pattern.load import loads

NET = "  - {name: net, kind: square_knot_mesh, rows: 4}\n"
POCKET = "{kind: rod_pocket, rod: 20 mm, rows: 6, tail: 30 cm}"
LARKS_HEAD = "{kind: larks_head, rod: 12 mm}"


def of(*changes: tuple[str, str], more: str = "") -> str:
    text = SMALL
    for old, new in changes:
        text = changed(old, new, text)
    return text + more


def section(line: str, count: int = 16, more: str = "") -> str:
    return of((NET, f"  - {line}\n"), ("count: 16", f"count: {count}"), more=more)


def motif(step: str, strands: int = 8) -> str:
    return SMALL + f"motifs:\n  own:\n    strands: {strands}\n    steps:\n      - {step}\n"


# A name for each, the faulty pattern, and some of the fault that is meant.
FAULTY: dict[str, tuple[str, str]] = {
    "no version": (of(("knotplot: 1\n", "")), "knotplot: missing"),
    "version no number": (of(("knotplot: 1", "knotplot: one")), "not a version"),
    "no mount": (of((f"mount: {LARKS_HEAD}\n", "")), "mount: missing"),
    "no sections": (of(("sections:\n" + NET, "")), "sections: missing"),
    "no size": (of(("size: {width: 40, drop: 60}\n", "")), "neither 'size'"),
    "no cord": (of(("cord: {diameter: 4 mm}\n", "")), "neither 'cord'"),
    "both sizes": (SMALL + "opening: {width: 40, drop: 60}\n", "both 'size'"),
    "no width": (of(("width: 40, ", "")), "width: missing"),
    "no rod": (of((", rod: 12 mm", "")), "rod: missing"),
    "no tail": (of((LARKS_HEAD, "{kind: hitched, rod: 2 cm}")), "tail: missing"),
    "no rows": (of((", rows: 4", "")), "rows: missing"),
    "no motif": (section("{kind: motif_band, rows: 2}"), "motif: missing"),
    "no knot": (section("{kind: sennits, count: 2}"), "knot: missing"),
    "no times": (section("{kind: repeat, sections: [{kind: free, length: 2}]}"), "times: missing"),
    "no length": (section("{kind: free}"), "length: missing"),
    "no wrap": (section("{kind: gather}"), "wrap: missing"),
    "no parts": (section("{kind: columns}"), "parts: missing"),
    "no steps": (SMALL + "motifs: {own: {strands: 4}}\n", "steps: missing"),
    "no strands of a motif": (SMALL + "motifs: {own: {steps: [{gap: 1}]}}\n", "strands: missing"),
    "no lead": (motif("hitch: {to: 4}"), "lead: missing"),
    "no lanes": (motif("knot: {kind: square_knot}"), "lanes: missing"),
    "no material": (SMALL + "support: {diameter: 12 mm, span: 40}\n", "material: missing"),
    "no rate": (SMALL + "work: {tax: 20 %}\n", "rate: missing"),
    "no order": (SMALL + "colours: {mirror: true}\n", "order: missing"),
    "decimal comma": (of(("width: 40", "width: '40,5 cm'")), "a decimal comma"),
    "no unit": (of(("4 mm", "4")), "needs a unit"),
    "inches in words": (of(("width: 40", "width: 16 inches")), "unknown unit"),
    "unknown unit": (of(("width: 40", "width: 2 furlong")), "unknown unit"),
    "inches without mark": (of(("width: 40", "width: 5' 2")), "inches without"),
    "exponent": (of(("width: 40", "width: 4e1")), "exponent"),
    "no number": (of(("width: 40", "width: wide")), "not a length"),
    "zero": (of(("rows: 4", "rows: 0")), "zero"),
    "half a row": (of(("rows: 4", "rows: 4.5")), "not a whole number"),
    "too many rows": (of(("rows: 4", "rows: 9999999")), "too many"),
    "angle": (motif("hitch: {lead: 1, to: 4, angle: 95}"), "too steep"),
    "turns": (motif("hitch: {lead: 1, to: 4, turns: 4}"), "too many"),
    "percent": (SMALL + "work: {rate: 22 EUR, tax: 20}\n", "not a percentage"),
    "money": (SMALL + "work: {rate: 22}\n", "not an amount"),
    "gram a metre": (of(("4 mm}", "4 mm, mass_per_length: 9.6}")), "needs a unit"),
    "ink": (SMALL + "colours: {order: [red], palette: {red: red}}\n", "not a colour"),
    "run": (SMALL + "colours: {order: ['*2']}\n", "not a run of one colour"),
    "flag": (SMALL + "colours: {order: [red], mirror: maybe}\n", "neither true nor false"),
    "unknown key": (of(("width: 40", "widht: 40")), "unknown key"),
    "unknown key, none like it": (SMALL + "notes: sew the sides\n", "unknown key"),
    "unknown kind": (of(("square_knot_mesh", "square_not_mesh")), "unknown kind"),
    "no kind": (of(("kind: square_knot_mesh, ", "")), "'kind' is missing"),
    "unknown word": (SMALL + "units: inch\n", "unknown word"),
    "unknown motif": (section("{kind: motif_band, motif: diamant, rows: 1}"), "no motif is called"),
    "unknown knot": (section("{kind: sennits, knot: half_not, count: 1}"), "no knot is called"),
    "unknown role": (SMALL + "cord_use: {square_knot: {workin: 12}}\n", "unknown role"),
    "role it hasn't": (SMALL + "cord_use: {square_knot: {wrap: 12}}\n", "has no wrap cord"),
    "unknown section": (SMALL + "swatch: {of: nett, rows: 4}\n", "no section is called"),
    "unknown material": (
        SMALL + "support: {material: pien, diameter: 12 mm, span: 40}\n", "no known material"),
    "bar or tube": (
        SMALL + "support: {material: steel, diameter: 12 mm, span: 40}\n", "no known material"),
    "wall": (
        SMALL + "support: {material: pine, diameter: 12 mm, span: 40, wall: 1 mm}\n", "is solid"),
    "thick wall": (
        SMALL + "support: {material: steel tube, diameter: 12 mm, span: 40, wall: 7 mm}\n",
        "half the thickness"),
    "span": (SMALL + "support: {material: pine, diameter: 12 mm, span: 4}\n", "no distance"),
    "rod": (SMALL + "support: {material: pine, diameter: 1 mm, span: 40}\n", "no thickness"),
    "not a mapping": (of(("{width: 40, drop: 60}", "30 x 40 cm")), "not a mapping"),
    "not a mapping, cord": (of(("{diameter: 4 mm}", "4 mm")), "not a mapping"),
    "not a list": (of(("sections:\n" + NET, "sections: 5\n")), "not a list"),
    "scallops": (SMALL + "lower_edge: {profile: scallops, rise: 5}\n", "without 'count'"),
    "points": (SMALL + "lower_edge: {profile: points, rise: 5}\n", "without 'at'"),
    "points by count": (
        SMALL + "lower_edge: {profile: points, rise: 5, count: 3}\n", "but with 'count'"),
    "count": (SMALL + "lower_edge: {profile: vee, rise: 5, count: 3}\n", "with profile vee"),
    "rise": (SMALL + "lower_edge: {profile: vee, rise: 70}\n", "as tall as the drop"),
    "arc": (SMALL + "lower_edge: {profile: arc, rise: 30}\n", "more than an arc has"),
    "many scallops": (
        SMALL + "lower_edge: {profile: scallops, rise: 5, count: 2000}\n", "2000 scallops"),
    "lane": (motif("hitch: {lead: 1, to: 9}"), "lane 9 isn't there"),
    "one lane": (motif("hitch: {lead: 1, to: 1}"), "one lane"),
    "apart": (motif("knot: {kind: square_knot, lanes: [1, 3]}"), "not side by side"),
    "one strand": (motif("knot: {kind: square_knot, lanes: [1]}"), "needs 2 lanes"),
    "workers": (
        motif("knot: {kind: square_knot, lanes: [1, 2], workers: 2}"), "2 working strands"),
    "picot": (motif("knot: {kind: overhand, lanes: [1, 2], picot: 2}"), "picots"),
    "top": (motif("cross: [1, 2]") + "    top: 3\n", "'top' is 3"),
    "unknown step": (motif("hich: {lead: 1, to: 2}"), "unknown step"),
    "no count": (of(("strands: {count: 16}\n", "")), "no swatch and no count"),
    "count that can't be": (of(("count: 16", "count: 18")), "the parts need"),
    "count of a part": (
        section("{kind: columns, parts: [{strands: 6, sections: [{kind: square_knot_mesh, "
                "rows: 1}]}, {strands: rest, sections: [{kind: free, length: 1}]}]}"),
        "its sections can't be worked"),
    "second fill": (
        section("{kind: free, length: fill}\n  - {kind: free, length: fill}"), "a second 'fill'"),
    "no count and length": (section("{kind: sennits, knot: half_knot}"), "no count and no"),
    "too narrow": (of(("width: 40", "width: 1")), "don't fit into"),
    "too long": (of(("rows: 4", "rows: 99")), "too long for a drop"),
    "far too long": (of(("rows: 4", "rows: 150000")), "too long for a drop"),
    "too long with more below": (
        of((NET, NET + "  - {kind: free, length: 50}\n  - {kind: fringe, length: 10}\n")),
        "too long for a drop"),
    "knots too many": (section("{kind: sennits, knot: square_knot, count: 99}"), "too long for"),
    "sennit too short": (
        section("{kind: sennits, knot: square_knot, length: 1 mm}"), "cm high"),
    "decrease": (of(("rows: 4", "rows: 9, shape: decrease")), "a decrease on 16 strands"),
    "wrap": (section("{kind: gather, wrap: 200}", 16), "more than 400 turns"),
    "band's rows": (
        section("{kind: motif_band, motif: diamond, rows: 20}"
                "\n  - {kind: square_knot_mesh, rows: 2}\n  - {kind: fringe, length: 8}", 32),
        "doesn't fit above the lower edge"),
    "band's only row": (
        of(("drop: 60", "drop: 5"), ("count: 16", "count: 32"),
           (NET, "  - {kind: motif_band, motif: diamond, rows: 1}\n")),
        "doesn't fit above the lower edge"),
    "band at a shaped edge": (
        of(("drop: 60", "drop: 13"), ("count: 16", "count: 32"),
           (NET, "  - {kind: motif_band, motif: diamond, rows: 4, offset: half}\n"
                 "  - {kind: fringe, length: 8}\n"),
           more="lower_edge: {profile: vee, rise: 6}\n"),
        "doesn't fit above the lower edge"),
    "cord too thick": (
        of(("4 mm", "24 mm"), ("count: 16", "count: 24"), ("drop: 60", "drop: 900"),
           (NET, "  - {kind: motif_band, motif: seed-pod, rows: 1}\n")),
        "too thick for strands"),
    "endless drop": (of(("drop: 60", "drop: 900 m")), "every cord would be"),
    "pocket": (of((LARKS_HEAD, "{kind: rod_pocket, rod: 60 mm, rows: 2, tail: 30 cm}")), "pass a"),
    "pocket too long": (
        of((LARKS_HEAD, "{kind: rod_pocket, rod: 20 mm, rows: 9000, tail: 30 cm}")),
        "too long for a drop"),
    "tail": (of((LARKS_HEAD, "{kind: rod_pocket, rod: 20 mm, rows: 8, tail: 3 cm}")), "too short"),
    "loop too short": (of((LARKS_HEAD, "{kind: picot, rod: 2 cm, loop: 5 mm}")), "too short to"),
    "loop too long": (of((LARKS_HEAD, "{kind: picot, rod: 2 cm, loop: 50 cm}")), "too long to"),
    "no tails": (section("{kind: hitch_line, layer: tails}"), "no tails to hitch"),
    "round": (SMALL + "worked: round\n", "not built yet"),
    "spool": (of(("4 mm}", "4 mm, spool: 1 m}")), "longer than a spool"),
    "spools": (of(("4 mm}", "4 mm, spools: [2 m]}")), "can't be cut from them"),
    "currency": (
        of(("4 mm}", "4 mm, price_per_spool: 3 USD}"), more="work: {rate: 22 EUR}\n"),
        "another currency"),
    "a name twice": (of((NET, NET + NET)), "another section has this name"),
    "confidence": (SMALL + "allowance: {confidence: 1}\n", "out of range"),
    "long text": (SMALL + f"title: {'x' * 300}\n", "too long"),
    "empty text": (SMALL + "title: ''\n", "empty text"),
}  # fmt: skip


# What following a remedy means where it leaves the value to the maker.
BY_HAND: dict[str, list[list[str]]] = {
    "unknown unit": [[f"size.width={each}"] for each in ("400 mm", "40 cm", "1 m", "2 ft", "1 yd")],
    "angle": [["motifs.own.steps[0].hitch.angle=0"], ["motifs.own.steps[0].hitch.angle=89.9"]],
    "no kind": [["sections[0].kind=square_knot_mesh"], ["sections[0].kind=hitch_line"]],
    "span": [["support.span=5 cm"], ["support.span=1000 cm"]],
    "rod": [["support.diameter=2 mm"], ["support.diameter=200 mm", "support.span=9 m"]],
    "not a list": [["sections=[{kind: free, length: 2}]"]],
    "one lane": [["motifs.own.steps[0].hitch.to=2"]],
    "second fill": [["sections[1].length=3"]],
    "no count and length": [["sections[0].count=3"], ["sections[0].length=9 cm"]],
    "spool": [["cord.spool=1.85 m"]],
    "spools": [["cord.spools=[2 m, 12.65 m]"]],
    "currency": [["cord.price_per_spool=3 EUR"]],
    "a name twice": [["sections[1].name=other"]],
    "confidence": [["allowance.confidence=0.999"], ["allowance.confidence=0.5"]],
    "long text": [[f"title={'x' * 200}"]],
    "run": [["colours.order=['natural*6']"]],
}


def faults(text: str, *sets: str) -> tuple[Fault, ...]:
    try:
        build(loads(text, sets=sets))
    except PatternError as error:
        return error.faults
    return ()


def the(text: str, said: str) -> Fault:
    found = [fault for fault in faults(text) if said in str(fault)]
    assert found, (said, [str(fault) for fault in faults(text)])
    return found[0]


def same(one: Fault, other: Fault) -> bool:
    """Tell whether two faults are of one kind: at one path, in the same words but for numbers."""
    plain = [re.sub(r"[0-9][0-9.,/ \u202f]*", "#", fault.problem) for fault in (one, other)]
    return one.path == other.path and plain[0] == plain[1]


MEASURE = r"[0-9][0-9.,\u202f ]*(?:/[0-9]+)? *(?:mm|cm|m|in|ft|yd)?\b"
KEYS = {"drop": "drop", "rise": "lower_edge.rise", "width": "width", "cord": "cord.diameter"}


def ways(fault: Fault) -> Iterator[list[str]]:
    """Yield what a remedy proposes, as overrides, each way it names by itself."""
    remedy, path = fault.remedy, dotted(fault.path)
    above, key = dotted(fault.path[:-1]), str(fault.path[-1]) if fault.path else ""
    under = f"{above}." if above else ""
    for line in re.findall(r"(?:add|give|begin it with|use) '(\w+: [^']*)'", remedy):
        name, _, value = line.partition(": ")
        inside = above if key == name else path
        rid = [f"{path}.{left}=null" for left in re.findall(r"leave '(\w+)' out", remedy)]
        yield [f"{inside}{'.' * bool(inside)}{name}={value}", *rid]
    if re.match(r"add '\w+: ", remedy):
        return
    for name in re.findall(r"(?:^|or |, )leave '(\w+)' out", remedy):
        yield [f"{path if path.endswith(name) else f'{path}.{name}'}=null"]
    if re.search(r"leave it out|give one of the two|leave the key out", remedy):
        yield [f"{path}=null"]
    for name in re.findall(r"did you mean '([^']*)'\?", remedy):
        yield (
            [f"{path}=null", f"{under}{name}=40"]
            if re.search("key|role", fault.problem)
            else [f"{path}={name}"]
        )
    for name in re.findall(r"(?:\b(?:write|say|like)|decimal point:) ['\"]([^'\"]*)['\"]", remedy):
        line = name.startswith(f"{key}: ")
        yield [f"{path}={name.partition(': ')[2]}" if line else f"{path}={_plain(name)}"]
    for name in re.findall(r"write (\{[^}]*\}|true|like '[^']*')", remedy):
        yield [f"{path}={name.removeprefix('like ')}"]
    for name in re.findall(r"use one of ([\w-]+)", remedy):
        if "key" not in fault.problem:
            yield [f"{path}={name}"]
    for name in re.findall(r"use (working|workers: 1)", remedy):
        yield [f"{path}=null", f"{under}working=9"] if name == "working" else [f"{path}=1"]
    yield from _numbers(remedy, path)


def _numbers(remedy: str, path: str) -> Iterator[list[str]]:
    """Yield the numbers and measures a remedy names, each at the path it is for."""
    for what, least in re.findall(
        rf"a (drop|rise|width|tail|loop) of (?:less than |more than )?({MEASURE})", remedy
    ):
        where = {"drop": "size.drop", "rise": "lower_edge.rise", "width": "size.width"}
        value = _number(least)
        if "less than" in remedy and what == "rise":
            value = _less(value, -1)
        if "more than" in remedy and what == "drop":
            value = _less(value, 1)
        yield [f"{where.get(what, path)}={value}"]
    for number in re.findall(r"([0-9][0-9\u202f]*)(?: rows?| knots?)? (?:at most|or more)", remedy):
        if f"of {number}" not in remedy:
            yield [f"{path}={_number(number)}"]
    match = re.fullmatch(r"use ([0-9]+)(?: or ([0-9]+))?", remedy)
    for number in match.groups() if match else ():
        if number:
            yield [f"{path}={number}"]
    match = re.match(
        rf"use (?:cord of |less than )?({MEASURE}) (?:at most|or more)|use less than ({MEASURE})",
        remedy,
    )
    if match and re.search("[a-z]", match[1] or match[2]):
        value = _number(match[1] or match[2])
        yield [f"{path}={_less(value, -0.1) if match[2] else value}"]
    for number in re.findall(r"use a whole number, ([0-9]+)(?: or ([0-9]+))?", remedy):
        yield from ([f"{path}={each}"] for each in number if each)
    for number in re.findall(
        r"use (?:a )?lanes? (?:side by side, as |from )([0-9]+) to ([0-9]+)", remedy
    ):
        low, high = map(int, number)
        yield [f"{path}={high if path.endswith('to') else list(range(low, high + 1))}"]
    for number in re.findall(r"give it ([0-9]+) lanes", remedy):
        yield [f"{path}={list(range(1, int(number) + 1))}"]


def _plain(text: str) -> str:
    """Return a text as a YAML value: in quotes, where it isn't plain."""
    return "'" + text.replace("'", "''") + "'" if re.search("[#'*]", text) else text


def _number(text: str) -> str:
    return text.replace("\u202f", "").replace(",", "").strip()


def _less(measure: str, by: float) -> str:
    number, unit = re.fullmatch(r"([0-9.]+) *(\w*)", measure).groups()  # type: ignore[union-attr]
    return f"{float(number) + by:g} {unit}"


@pytest.mark.parametrize("name", FAULTY)
def test_a_remedy_that_is_followed_takes_the_fault_away(name: str) -> None:
    text, said = FAULTY[name]
    fault = the(text, said)
    tried = BY_HAND.get(name) or list(ways(fault))
    assert tried, str(fault)
    for sets in tried:
        left = [str(each) for each in faults(text, *sets) if same(fault, each)]
        assert not left, (str(fault), sets, left)
