"""English: words of knots, chart, rows, finishing and safety."""

from __future__ import annotations

KNOTS = {
    "knots lead": "Each knot of this piece, stage by stage, as it is tied in the piece, and its "
    "mark in the chart. Blue with an arrow is the cord in your hand, led as the arrow points; a "
    "dark bar lies across cords that are held still.",
    "in piece": "{count} in this piece",
    "mark": "mark in the chart",
    "in ends": "in the ends of the fringe",
    "fault": "What goes wrong",
    "crosses": "Where two cords only change places, they are crossed, not tied. The chart shows it "
    "as a small cross; the rows say which cord lies over.",
}

CHART = {
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

REST = {
    "rows lead": "Tick a row when it is done. Stop at every check: a fault found there costs "
    "minutes, at the end it costs the piece.",
    "finishing lead": "Hang it first. Everything here is done with the piece hanging, never flat.",
    "trim": "The trim line",
    "turn": "Place",
    "turn side": "side",
    "turn tip": "sharp tip",
    "turn dip": "lowest place",
    "turn notch": "sharp notch",
    "turn crown": "crown",
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

CARE = (
    "Dust it with a soft brush or a vacuum cleaner at low power, from top to bottom.",
    "Take out a spot at once with cool water and a little mild soap; dab, don't rub.",
    "Don't put it in a machine: knots felt and fringes tangle.",
    "If it must be washed, soak it in cool water, press the water out in a towel, and dry it "
    "hanging in the shade, pulled to its size.",
    "Natural fibres shrink a little when first wet, and colours may run: try your swatch first.",
    "Strong sun bleaches and weakens cord. Turn or move the piece now and then.",
    "Trim the fringe again when it has settled; comb it first, if it was combed; where its ends "
    "are knotted, trim only the tails.",
)

CAUTIONS = (
    (
        "Children",
        "Cords and loops can strangle a child. Hang the piece out of reach of children, never "
        "at or near a bed or cot, and leave no cord or loop within their reach at a window.",
    ),
    (
        "Fire",
        "Keep it away from flames, candles, stoves, heaters and hot lamps. Cord and fringe "
        "catch fire easily.",
    ),
    (
        "Load",
        "What hangs overhead must be held by fixings in the structure itself, with rings that "
        "are welded shut. A wet pot weighs much more than a dry one, and the strength of a "
        "knotted cord is not known: don't load it beyond what the makers of cord, hook and "
        "fixing allow.",
    ),
    (
        "Ways",
        "Don't hang it where it hides or narrows an exit, or where somebody can trip over it "
        "or be caught in it.",
    ),
    (
        "Pets",
        "Pets bite, swallow and tangle themselves in cords. Keep fringes out of their reach.",
    ),
    (
        "Tools",
        "Scissors, pins and combs are sharp. Put them away when you leave the work.",
    ),
    (
        "Dust",
        "Cutting and combing sets fibre dust free. Air the room, and wear a mask if you do it "
        "for long.",
    ),
)

TEXTS = {**KNOTS, **CHART, **REST}
LISTS = {"care": CARE}
PAIRS = {"cautions": CAUTIONS}
