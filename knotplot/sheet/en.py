"""English: the words of the sheet's pages. The instructions have their own in their package.

Another language is one more file like this one, with the same keys. What is told of tools, of
measuring, care and safety is common practice of the trade.
"""

from __future__ import annotations

from types import MappingProxyType

_PAGES = {
    "page": "Page {page} of {pages}",
    "version": "Version {version}",
    "continued": "{heading} (continued)",
    "subject": "Knotting pattern: {width} wide, drop {drop}",
    "keywords": "macramé, knotting pattern, {knots}",
    "parts between": " · ",
    "desc": "{title}, page {page} of {pages}: {part}",
    # parts, by anchor
    "cover": "Cover",
    "about": "About this pattern",
    "materials": "Materials and tools",
    "sizes": "Sizes and measuring",
    "knots": "Knots used",
    "chart": "Chart",
    "rows": "Row by row",
    "finishing": "Finishing and care",
    "care": "Care",
    "safety": "Safety",
    "glossary": "Glossary and licence",
    "licence": "Licence",
    # numbers of things
    "cord one": "{count} cord",
    "cord many": "{count} cords",
    "knot one": "{count} knot",
    "knot many": "{count} knots",
    "length one": "in one length",
    "length many": "in {count} lengths",
    "spool one": "{count} spool",
    "spool many": "{count} spools",
}

_COVER = {
    "by": "designed by {designer}",
    "size": "Finished size",
    "size value": "{width} × {drop}",
    "cut": "Cords to cut",
    "cut value": "{cords}\n{lengths}",
    "cord": "Cord in all",
    "metres": "{metres} m\n{yards} yd",
    "time": "Time",
    "long": "{metres} m ({yards} yd)",
    "hours": "about {hours} hours",
    "hour": "about 1 hour",
    "minutes": "about {minutes} minutes",
    "used": "Knots used",
    "named": "Sizes",
    "used count": "{name} ({count})",
}

_ABOUT = {
    "contents": "In this sheet",
    "made for": "Made for",
    "changes": "Changes",
    "how to use": "How to use this sheet",
    "how to use text": "Read the sheet through before you cut. Knot a swatch first and compare it "
    "with the numbers under “{sizes}”: they decide whether the piece comes out at its size. Then "
    "cut, mount and work row by row, ticking every row as you finish it. Lengths stand in "
    "centimetres and in inches to the nearest eighth; keep to one of the two. Print at 100 %.",
}

_MATERIALS = {
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

_SIZES = {
    "sizes lead": "The finished size follows from your opening; the number of cords from your "
    "swatch. Here are both, worked through.",
    "outline": "The piece and its measures",
    "named sizes": "Sizes in this pattern",
    "size name": "Size",
    "width": "Width",
    "drop": "Drop",
    "here": "{name} (this sheet)",
    "measure": "Measure the opening",
    "opening": "This piece",
    "opening text": "({width} + 2 × {overlap} overlap) × {fullness} fullness = {result} wide",
    "swatch": "Knot a swatch",
    "swatch as given": "The designer's swatch, of {of}",
    "swatch as given plain": "The designer's swatch",
    "as worked": "On the board",
    "as hung": "Hanging",
    "swatch width": "Width of {strands} cords",
    "swatch width plain": "Width",
    "swatch height": "Height of {rows} rows",
    "swatch height plain": "Height",
    "swatch cord": "Cord used by one cord",
    "swatch minutes": "Time",
    "minutes value": "{minutes} min",
    "work out": "From the swatch to the number of cords",
    "step estimate": "{width} wide × {strands} cords ÷ {swatch} = {estimate} cords",
    "step repeat": "The parts of this piece together can be worked on {plus} + {repeat} × k cords: "
    "{least}, and so on.",
    "step repeat plain": "The parts of this piece together can be worked on any multiple of "
    "{repeat}: {least}, and so on.",
    "step repeat any": "This piece can be worked on any number of cords.",
    "step chosen": "Chosen: {count} cords hang side by side.",
    "step given": "The pattern asks for {count} cords.",
    "no swatch": "No swatch was given with this pattern: it asks for {count} cords over {width}. "
    "Your own gauge is right where {some} cords come to {wide}.",
    "target": "Your own gauge is right where {some} cords hang {wide} wide. If your swatch comes "
    "out wider, pull tighter or take thinner cord; if narrower, knot looser or take thicker cord.",
    "option count": "Cords",
    "option width": "Width at this gauge",
    "option change": "To reach {width}",
    "option looser": "knot {change} % wider",
    "option tighter": "knot {change} % closer",
    "option same": "as it is",
    "chosen": "{count} (chosen)",
    "board": "On the board and hanging",
    "board text": "Knots settle when the piece hangs. As worked on the board it measures:",
    "board width": "Width",
    "board drop": "Drop",
    "board none": "The swatch doesn't say how it settles, so both sizes are taken as one. Measure "
    "yours flat and again hanging: the piece will change in the same proportion.",
    "hung": "Hanging",
    "worked": "On the board",
}

_KNOTS = {
    "knots lead": "Each knot of this piece as it looks when it is tied, its mark in the chart, and "
    "how to tie it.",
    "in piece": "{count} in this piece",
    "mark": "mark in the chart",
    "fault": "What goes wrong",
    "crosses": "Where two cords only change places, they are crossed, not tied. The chart shows it "
    "as a small cross; the rows say which cord lies over.",
}

_CHART = {
    "chart lead": "Drawn as worked, from top to bottom. Lines are cords, marks are knots; rows are "
    "numbered at both sides as under “{rows}”, which tells the same in words.",
    "repeat": "One repeat, with both edges",
    "whole": "The whole chart",
    "over": "The whole chart, at a glance",
    "tiles": "The whole chart, on {count} pages",
    "tiles text": "Lay neighbouring pages over each other so that their crosses meet, cut one of "
    "the two along the dashed line, and tape them together.",
    "too large": "The whole chart is too large for paper: it is drawn here at a small scale. Work "
    "from the repeat and the rows; the file chart.svg has all of it.",
    "far too large": "The whole chart is too large for paper. Work from the repeat and the rows; "
    "the file chart.svg has all of it.",
}

_REST = {
    "rows lead": "Tick a row when it is done. Stop at every check: a fault found there costs "
    "minutes, at the end it costs the piece.",
    "finishing lead": "Hang it first. Everything here is done with the piece hanging, never flat.",
    "trim": "The trim line",
    "from left": "From the left",
    "up": "Up from the string",
    "safety lead": "Please read this page before you hang the piece, and give it on with it.",
    "facts": "Facts of this piece",
    "fact strand": "Longest free strand",
    "fact strand how": "The longest stretch of a hanging cord that no knot holds, trimmed.",
    "fact opening": "Largest opening",
    "fact opening how": "The tallest gap between two neighbouring cords, from the knot or line "
    "that joins them to the next below. Pulled apart it measures twice that round, or more.",
    "fact weight": "Cord in the piece, dry",
    "fact weight how": "All cords as cut; the piece weighs less once trimmed, more with its "
    "support, and much more when wet.",
    "cautions": "Cautions",
    "no conformity": "These are general words of caution. They are no safety assessment of the "
    "piece you make and claim no conformity with any standard or rule. Local rules and the advice "
    "of a licensed trade (electrician, builder, fire safety) go before this sheet.",
    "glossary lead": "Words of this sheet, and what they are called elsewhere.",
    "term": "Here",
    "also": "Also called",
    "meaning": "What it is",
    "no licence": "No licence was stated.",
}

_CARE = (
    "Dust it with a soft brush or a vacuum cleaner at low power, from top to bottom.",
    "Take out a spot at once with cool water and a little mild soap; dab, don't rub.",
    "Don't put it in a machine: knots felt and fringes tangle.",
    "If it must be washed, soak it in cool water, press the water out in a towel, and dry it "
    "hanging in the shade, pulled to its size.",
    "Natural fibres shrink a little when first wet, and colours may run: try your swatch first.",
    "Strong sun bleaches and weakens cord. Turn or move the piece now and then.",
    "Comb and trim the fringe again when it has settled.",
)

_CAUTIONS = (
    "Children: Cords and loops can strangle a child. Hang the piece out of reach of children, "
    "never at or near a bed or cot, and leave no cord or loop within their reach at a window.",
    "Fire: Keep it away from flames, candles, stoves, heaters and hot lamps. Cord and fringe catch "
    "fire easily.",
    "Load: What hangs overhead must be held by fixings in the structure itself, with rings that "
    "are welded shut. A wet pot weighs much more than a dry one, and the strength of a knotted "
    "cord is not known: don't load it beyond what the makers of cord, hook and fixing allow.",
    "Ways: Don't hang it where it hides or narrows an exit, or where somebody can trip over it or "
    "be caught in it.",
    "Pets: Pets bite, swallow and tangle themselves in cords. Keep fringes out of their reach.",
    "Tools: Scissors, pins and combs are sharp. Put them away when you leave the work.",
    "Dust: Cutting and combing sets fibre dust free. Air the room, and wear a mask if you do it "
    "for long.",
)

_MEASURE = (
    "Width: measure at the top, in the middle and at the bottom; take the narrowest, less a "
    "little room to move.",
    "Drop: measure from the top of the support to the lowest point of the trimmed edge, with the "
    "support in its place.",
    "Then: put your measures into the pattern and make the sheet anew. Cords, lengths, rows and "
    "chart follow.",
)

_SWATCH = (
    "Take the very cord of the piece. Mount {strands} cords and work {rows} rows or more, as the "
    "piece is worked.",
    "Measure it flat on the board: the width over all its cords, the height over all its rows.",
    "Hang it overnight with its ends free, then measure both again. The hung width counts.",
    "Note how much of one cord it took, and how many minutes: they make lengths and time yours.",
)

_TOOLS = {
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

_ALL = (_PAGES, _COVER, _ABOUT, _MATERIALS, _SIZES, _KNOTS, _CHART, _REST)
TEXTS = MappingProxyType(
    {
        **{key: text for texts in _ALL for key, text in texts.items()},
        **{f"tool {key}": text for key, text in _TOOLS.items()},
    }
)
LISTS = MappingProxyType(
    {"care": _CARE, "cautions": _CAUTIONS, "measure": _MEASURE, "swatch": _SWATCH}
)
