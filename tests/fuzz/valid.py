"""Patterns that are written as a maker would: every mount, section and step, in any measure."""

from __future__ import annotations

import random
from typing import Any

from fuzz.change import written

Document = dict[str, Any]

TITLES = (
    "A piece", "Très joli", "لوحة حائط", "🧶 knots", "<b>bold</b> & co", "50 % off; 'quoted'",
    "№ 7 ½", "e\u0301 combined", "a\u00ad soft hyphen", "very " * 30,
    "{braces}", "\\n", "-->", "]]>",
)  # fmt: skip
NAMES = ("net", "lace", "the top", "Ö", "a b c", "x.y", "band 2")
KNOTS = ("square_knot", "half_knot", "overhand")
OTHERS = ("berry_knot", "crown_knot", "josephine_knot", "half_hitch_chain", "switched_square_knot",
          "vertical_larks_head", "square_knot", "half_knot", "overhand")  # fmt: skip


def valid(rng: random.Random) -> str:
    """Return a pattern that obeys the format; whether it can be worked is another matter."""
    motifs = {name: motif(rng) for name in rng.sample(("leaf", "wave", "m3"), rng.randrange(3))}
    sections = Sections(rng, [*motifs, "diamond", "moth"])
    found = [sections.section(2) for _ in range(rng.randint(1, 4))]
    unit = rng.choice((1, 4, 4, 8, 12, 24))
    count = unit * max(1, rng.choice((2, 3, 4, 6)) * 4 // unit + rng.randrange(2))
    document: Document = {"knotplot": 1, "title": rng.choice(TITLES)}
    document["units"] = rng.choice(("cm", "mm", "in", "cm", "ft"))
    area = {"width": measure(rng, count * rng.choice((5, 8, 12))), "drop": measure(rng, 1800)}
    document |= _area(rng, area)
    document |= _cord(rng)
    document["strands"] = {"count": count}
    document["mount"] = mount(rng)
    document["sections"] = _ended(rng, found)
    document["motifs"] = motifs
    for key, make in _MORE.items():
        if rng.random() < 0.35:
            document[key] = make(rng)
    if rng.random() < 0.3:
        _fill(document)
        document |= {"size": {"width": measure(rng, count * 8), "drop": measure(rng, 600)}}
        document.pop("opening", None)
    return written(document)


def measure(rng: random.Random, mm: float) -> str:
    """Return a length of about so many mm, in any unit and manner of writing."""
    mm *= rng.uniform(0.8, 1.3)
    return rng.choice(
        (
            f"{mm:.0f} mm", f"{mm / 10:.1f} cm", f"{mm / 1000:.4f} m", f'{mm / 25.4:.2f} in',
            f"{max(1, round(mm / 25.4))} {rng.choice(('1/2', '3/4', '1/8'))} in",
            f'{mm / 25.4:.1f}"', f"{mm / 304.8:.3f} ft", f"{mm / 914.4:.4f} yd",
        )
    )  # fmt: skip


def mount(rng: random.Random) -> Document:
    """Return any mount."""
    rod = rng.choice(("12 mm", "20 mm", "1 in", "3.5 cm"))
    fold = rng.choice(({}, {"fold": "middle"}, {"fold": "uneven"}))
    return rng.choice(
        (
            {
                "kind": "rod_pocket",
                "rod": rod,
                "rows": rng.randint(5, 14),
                "tail": measure(rng, 350),
            },
            {"kind": "larks_head", "rod": rod, **fold},
            {"kind": "reverse_larks_head", "rod": rod, **fold},
            {"kind": "hitched", "rod": rod, "tail": measure(rng, 90)},
            {"kind": "picot", "rod": rod, "loop": measure(rng, 60), **fold},
            {"kind": "ring", "diameter": measure(rng, 250), **fold},
            {"kind": "open", "tail": measure(rng, 120)},
        )
    )


class Sections:
    """Makes sections of every kind, with motifs of those names."""

    def __init__(self, rng: random.Random, motifs: list[str]) -> None:
        self.rng, self.motifs = rng, motifs

    def section(self, depth: int) -> Document:
        """Return any section, with others inside down to that depth."""
        rng = self.rng
        named = (
            {"name": rng.choice(NAMES) + str(rng.randrange(10**6))} if rng.random() < 0.4 else {}
        )
        return named | rng.choice(
            (
                self._mesh,
                self._mesh,
                self._line,
                self._band,
                self._sennits,
                self._repeat,
                self._columns,
                self._small,
            )
        )(depth)

    def _mesh(self, depth: int) -> Document:
        rng = self.rng
        more = {
            "spacing": measure(rng, 9), "start": rng.choice(("edge", "offset")),
            "shape": rng.choice(("straight", "decrease", "increase")), "facing": _facing(rng),
        }  # fmt: skip
        return {"kind": "square_knot_mesh", "rows": rng.randint(1, 6), **_some(rng, more)}

    def _line(self, depth: int) -> Document:
        rng = self.rng
        more = {"overhang": measure(rng, 80), "layer": rng.choice(("body", "body", "tails"))}
        return {"kind": "hitch_line", **_some(rng, more)}

    def _band(self, depth: int) -> Document:
        rng = self.rng
        more = {
            "offset": "half", "gap": measure(rng, 12), "edges": rng.choice(("half", "free")),
        }  # fmt: skip
        found = {"kind": "motif_band", "motif": rng.choice(self.motifs), "rows": rng.randint(1, 3)}
        return found | _some(rng, more)

    def _sennits(self, depth: int) -> Document:
        rng = self.rng
        size = rng.choice(({"count": rng.randint(1, 9)}, {"length": measure(rng, 80)}))
        more = {"strands": rng.choice((2, 3, 4, 4, 6, 8)), "facing": _facing(rng)}
        return {"kind": "sennits", "knot": rng.choice(OTHERS), **size, **_some(rng, more)}

    def _repeat(self, depth: int) -> Document:
        rng = self.rng
        if not depth:
            return self._small(depth)
        inner = [self.section(depth - 1) for _ in range(rng.randint(1, 2))]
        for each in inner:
            each.pop("name", None)
        return {"kind": "repeat", "times": rng.randint(1, 3), "sections": inner}

    def _columns(self, depth: int) -> Document:
        rng = self.rng
        if not depth:
            return self._small(depth)
        parts: list[Document] = []
        for _ in range(rng.randint(1, 3)):
            inner = [self.section(depth - 1) for _ in range(rng.randint(1, 2))]
            more = _some(rng, {"repeat": rng.randint(1, 2)})
            parts.append({"strands": rng.choice((4, 4, 8, 12)), **more, "sections": inner})
        if rng.random() < 0.8:
            rng.choice(parts)["strands"] = "rest"
        return {"kind": "columns", "parts": parts}

    def _small(self, depth: int) -> Document:
        rng = self.rng
        return rng.choice(
            (
                {"kind": "free", "length": measure(rng, 40)},
                {"kind": "gather", "wrap": measure(rng, 25)},
            )
        )


def _ended(rng: random.Random, found: list[Document]) -> list[Document]:
    finish = rng.choice(("combed", "cut", "knotted"))
    fringe: Document = {"kind": "fringe", "length": measure(rng, 90), "finish": finish}
    tassel: Document = {"kind": "tassel", "wrap": measure(rng, 25)}
    if rng.random() < 0.5:
        tassel["colour"] = "rust"
    return found + rng.choice(([], [fringe], [fringe], [tassel], [tassel, fringe]))


def _fill(document: Document) -> None:
    """Let the first section that can be take what the drop leaves."""
    for each in document["sections"]:
        if each["kind"] in ("square_knot_mesh", "motif_band"):
            each["rows"] = "fill"
            return
        if each["kind"] == "free":
            each["length"] = "fill"
            return


def motif(rng: random.Random) -> Document:
    """Return a motif of any steps on 2 to 12 strands."""
    strands = rng.choice((2, 3, 4, 6, 8, 12))
    found = [step(rng, strands, 2) for _ in range(rng.randint(1, 6))]
    more = _some(rng, {"title": rng.choice(TITLES)[:60], "top": rng.randint(1, len(found))})
    return {"strands": strands, "steps": found, **more}


def step(rng: random.Random, m: int, depth: int) -> Document:
    """Return any step on m lanes."""
    a, b = rng.sample(range(1, m + 1), 2)
    low, turns = rng.randint(1, m - 1), {"turns": rng.randint(1, 3)}
    first = rng.randint(1, m - 1)
    knot: Document = {
        "kind": rng.choice(KNOTS),
        "lanes": list(range(first, rng.randint(first + 1, m) + 1)),
    }
    if knot["kind"] != "overhand":
        more = {"facing": rng.choice(("left", "right")), "picot": measure(rng, 20)}
        knot |= _some(rng, more | ({"workers": 2} if len(knot["lanes"]) > 3 else {}))
    bar = _some(rng, {**turns, "times": rng.randint(1, 3), "angle": rng.choice((0, 30, "45°"))})
    found: list[Document] = [
        {"cross": [low, low + 1], **_some(rng, {"under": True})}, {"knot": knot}, {"knot": knot},
        {"hitch": {"lead": a, "to": b, **bar}}, {"hitch": {"lead": a, "to": b, **bar}},
        {"vertical": {"worker": a, "to": b, **_some(rng, turns)}}, {"gap": measure(rng, 6)},
    ]  # fmt: skip
    if depth:
        inner = [step(rng, m, depth - 1) for _ in range(rng.randint(1, 2))]
        found += [
            {"repeat": {"times": rng.randint(1, 3), "steps": inner}}, {"mirror": inner},
            {"both": inner}, {"add": {"after": a, "cords": 1}}, {"end": {"lanes": [a]}},
        ]  # fmt: skip
    return rng.choice(found)


def _area(rng: random.Random, area: Document) -> Document:
    if rng.random() < 0.7:
        return {"size": area}
    more = _some(rng, {"overlap": measure(rng, 20), "fullness": rng.choice((1, 1.2, 1.5))})
    return {"opening": area | more}


def _cord(rng: random.Random) -> Document:
    more = {
        "construction": rng.choice(("twisted", "braided", "single")),
        "fibre": rng.choice(("cotton", "jute", "Ü")),
        "mass_per_length": "9.6 g/m", "price_per_spool": rng.choice(("18.50 EUR", "7 USD")),
    }  # fmt: skip
    spools = rng.choice(
        ({}, {"spool": "100 m"}, {"spool": "1 kg"}, {"spools": ["100 m", "37 m", "8 yd"]})
    )
    found = {
        "diameter": rng.choice(("3 mm", "4 mm", "1/8 in", "0.5 cm")),
        **_some(rng, more),
        **spools,
    }
    if rng.random() < 0.7:
        return {"cord": found}
    return {"cords": {"main": found, **_some(rng, {"wrap": {"diameter": "2 mm"}})}}


def _colours(rng: random.Random) -> Document:
    runs = [
        f"{name}*{rng.randint(1, 7)}"
        for name in rng.sample(("natural", "rust", "deep sea", "Ü"), 2)
    ]
    return {"order": runs, **_some(rng, {"mirror": True, "palette": {"rust": "#a4502f"}})}


def _swatch(rng: random.Random) -> Document:
    more = {
        "hung_width": "15 cm", "rows": 4, "height": measure(rng, 65), "minutes": 14,
        "cord_used": measure(rng, 420), "of": "square_knot_mesh",
    }  # fmt: skip
    return {"strands": 20, "width": "14 cm", **_some(rng, more)}


def _edge(rng: random.Random) -> Document:
    rise = rng.choice(("3 cm", "-3 cm", "8 cm", "-1 in", "0"))
    shape = rng.choice(("straight", "arc", "parabola", "catenary", "vee", "scallops", "points"))
    more: Document = {"scallops": {"count": rng.randint(1, 6)}}.get(shape, {})
    if shape == "points":
        more = {"at": [[0, 0], [0.3, 1], [0.7, 0.2], [1, rng.choice((0, 0.5, 1))]]}
    return {"profile": shape, "rise": rise, **more}


def _work(rng: random.Random) -> Document:
    more = {"overhead": "15 %", "markup": "30 %", "tax": "7 %", "minutes": {"half_knot": 0.5}}
    return {"rate": rng.choice(("22 EUR", "30 USD")), **_some(rng, more)}


def _support(rng: random.Random) -> Document:
    found = {"material": rng.choice(("pine", "bamboo", "found branch", "oak")), "diameter": "20 mm"}
    if rng.random() < 0.4:
        found = {"material": "steel tube", "diameter": "20 mm", "wall": "1.5 mm"}
    return {**found, "span": measure(rng, 600), **_some(rng, {"price": "8 EUR"})}


_MORE = {
    "colours": _colours, "swatch": _swatch, "lower_edge": _edge, "work": _work, "support": _support,
    "cut": lambda rng: _some(rng, {"groups": rng.randint(1, 8), "step": measure(rng, 40)}),
    "allowance": lambda rng: {"confidence": rng.choice((0.05, 0.5, 0.9, 0.99, 0.9999))},
    "cord_use": lambda rng: {"square_knot": {"working": rng.uniform(5.0, 20.0)}},
    "changes": lambda rng: rng.choice((["first", "second"], "only one")),
}  # fmt: skip


def _facing(rng: random.Random) -> str:
    return rng.choice(("left", "right", "alternate"))


def _some(rng: random.Random, options: Document) -> Document:
    """Return some of the options, each as likely left out."""
    return {key: value for key, value in options.items() if rng.random() < 0.4}
