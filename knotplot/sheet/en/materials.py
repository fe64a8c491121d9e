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
    "length": "Length",
    "spools": "Spools",
    "spools value": "{count}, of {size}",
    "spools sizes": "{count} of those at hand: {size}",
    "spools free": "as sold",
    "weight": "Weight",
    "weight estimated": "{weight}\n(estimated)",
    "cost": "Cost",
    "cost value": "{cost} {currency}",
    "grams": "{mass} g",
    "kilograms": "{mass} kg",
    "none": "–",
    "no fewer": "No way of cutting these cords takes fewer than {bound}.",
    "no fewer than": "No way of cutting takes fewer than {bound}; the plan below takes {count}.",
    "estimated": "The weight is estimated from the cord's thickness, fibre and make. Weigh a metre "
    "of yours to know it.",
    "plan": "How the spools are cut",
    "plan spool": "Spool",
    "plan one": "{first}",
    "plan many": "{first}–{last}, each",
    "plan take": "Cut from it",
    "plan left": "Left over",
    "plan line": "{count} × {label}",
    "cutting": "Cut list",
    "label": "Label",
    "role": "For",
    "role main": "main cords",
    "role leader": "leaders",
    "role wrap": "wraps",
    "how many": "How many",
    "each": "Length of each",
    "ids": "Cords",
    "ids note": "Cords are numbered from the left as mounted. Tag each bundle with its label.",
    "leaders note": "Leaders (L) are separate cords laid across the work to hitch onto.",
    "wraps note": "Wraps (W) are separate cords that bind a bundle.",
    "folded note": "Main cords are folded in half: each gives two hanging cords.",
    "allowance": "How the lengths were found",
    "allowance text": "Each length is what its cord uses, plus an allowance chosen so that with a "
    "chance of {confidence} % no cord of the piece comes out too short, rounded up to whole "
    "{step} and gathered into at most {groups} lengths for each kind of cord.",
    "source closed-form arcs": "What a knot uses is computed from its own curve (closed-form "
    "arcs).",
    "source measured": "It is scaled by the cord that the swatch was measured to use, and hands "
    "are taken to differ by {error} % from that.",
    "source table": "No swatch was measured for its cord, so hands are taken to differ by {error} "
    "% from it. Before you cut everything, knot a swatch, note the cord it uses, and put it into "
    "the pattern.",
    "warnings": "Know before you cut",
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
