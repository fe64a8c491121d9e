"""Odd values, keys and tokens to put into patterns."""

from __future__ import annotations

from typing import Any

# Values that are odd somewhere: numbers at the limits, text of other types, wrong shapes.
ODD: tuple[Any, ...] = (
    0, 1, 2, 3, 4, 5, 7, 8, 12, 16, 24, 100, 999, -1, 20_001, 2_000_001, 10**30, 0.0, 0.5, 1.0,
    2.5, -0.001, 1e-9, 1e300, float("inf"), float("-inf"), float("nan"), True, False, None, "",
    " ", "~", "0", "1", "2 cm", "5 mm", "1 in", '3"', "1/2 in", "0.01 mm", "1e3", "0x2", "0o7",
    "1_000", "1:30", "−4 cm", "-4 cm", "+4 cm", "4,5 cm", "1/0 in", "999 m", "1001 m", "½",
    "36½\"", "5 ft 3 in", "mm", "fill", "rest", "none", "auto", "middle", "uneven", "edge",
    "offset", "half", "free", "left", "right", "alternate", "round", "flat", "body", "tails",
    "decrease", "increase", "combed", "cut", "knotted", "on", "no", "yes", "{}", "{0}", "%s",
    "a\tb", "a\nb", "\x07", "\u202e", "\u00a0", "é", "e\u0301", "🧶", "\ufeff", "\ufffe",
    "x" * 300, "<b>&amp;</b>", "]]>", "natural*3", "rust*0", "*", "#a4502f", "#fff", "12 EUR",
    "12", "-3 EUR", "1000000000000000 EUR", "15 %", "1001 %", "9 g/m", "3 kg", "1 kg", "45°",
    "90", "diamond", "leaf", "moth", "any", "net", "lace", "square_knot", "half_knot", "overhand",
    "larks_head", "berry_knot", "crown_knot", "josephine_knot", "half_hitch_chain",
    "gathering_knot", "ring", "open", "hitched", "picot", "rod_pocket", "pine", "steel", "oak",
    "arc", "parabola", "catenary", "vee", "scallops", "points", "straight", [], [0], [1, 2],
    [2, 1], [1, 2, 3, 4], [[0, 0], [1, 1]], [[0, 1], [0.5, 0], [1, 1]], {},
    {"kind": "free", "length": 3}, {"a": 1}, {"kind": "ring", "diameter": "20 cm"},
    {"kind": "open", "tail": "5 cm"},
)  # fmt: skip

KEYS = (
    "kind", "rows", "name", "length", "strands", "count", "steps", "sections", "x-note", "kinds",
    "Kind", "", " ", "1", "true", "null", "a.b", "a[0]", "{}", "\u00a0", "🧶", "colour", "wrap",
    "knot",
)  # fmt: skip

TOKENS = (
    b"\n", b"  ", b"\t", b": ", b"- ", b"[", b"]", b"{", b"}", b"&a ", b"*a", b"!!str ", b"!x ",
    b"---\n", b"...\n", b"? ", b"| \n", b">\n", b"%YAML 1.1\n", b"'", b'"', b"#", b"\xff",
    b"\x00", b"\xc3", b"\xed\xa0\x80", b"\xef\xbb\xbf", b"\xe2\x80\xae", b"\xe2\x80\xa8", b"\x85",
    b"\r", b"null", b"~", b".inf", b".nan", b"1e9", b"0x1F", b"<<: ", b"=", b"\\", b"\\x00",
    b", ", b"0", b"9", b"-", b"1/0", b"@", b"`", b"\x7f",
)  # fmt: skip
