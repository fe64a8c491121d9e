"""English: words of cord, cut list, spools and tools."""

from __future__ import annotations

MATERIALS = {
    "materials lead": "What to buy, what to cut, and what to have at hand before you begin.",
    "shopping": "Cord to buy",
    "kind": "Cord",
    "kind main": "main",
    "kind wrap": "wrapping",
    "cord kind": "{kind}: {cord}",
    "cord text": "{diameter} mm, {construction}, {fibre}",
    "twisted": "twisted",
    "braided": "braided",
    "single": "single strand",
    "fibre unknown": "fibre not stated",
    "colour": "Colour",
    "of colour": "{what}, {colour}",
    "length": "Length",
    "spools": "Spools",
    "spools value": "{count} × {size}",
    "spools sizes": "{count} of those at hand:\n{size}",
    "spools free": "as sold",
    "weight": "Weight",
    "weight estimated": "{weight}\n(estimated)",
    "cost": "Cost",
    "cost value": "{cost} {currency}",
    "grams": "{mass} g ({pounds} lb)",
    "kilograms": "{mass} kg ({pounds} lb)",
    "metres yards": "{metres} m ({yards} yd)",
    "only metres": "{metres} m",
    "only yards": "{yards} yd",
    "none": "–",
    "no fewer": "No way of cutting these cords takes fewer than {bound}.",
    "no fewer than": "No way of cutting takes fewer than {bound}; the plan below takes {count}.",
    "estimated": "The weight is estimated from the cord's thickness, fibre and make. Weigh a metre "
    "of yours to know it.",
    "notices": "Know before you cut",
    "tools": "Tools",
    "support rod": "to hang it on: a rod or branch {rod} thick and {length} long or longer",
    "support ring": "to hang it on: a ring {rod} across",
    "support none": "to hang it on: nothing, the piece has no support of its own",
}

TOOLS = {
    "board": "knotting board, or a rail at working height, for {width} × {drop}",
    "scissors": "sharp scissors",
    "tape": "tape measure and ruler",
    "pins": "pins and clamps to hold cords and leaders",
    "tags": "paper tags for the labels of the cut list",
    "line": "smooth cord for the temporary line, {length} long",
    "string": "string for the trim line, {length} long, and a spirit level",
    "comb": "comb or pet brush for the fringe",
    "needle": "blunt needle or crochet hook to hide ends",
}

TEXTS = {**MATERIALS, **{f"tool {key}": text for key, text in TOOLS.items()}}
