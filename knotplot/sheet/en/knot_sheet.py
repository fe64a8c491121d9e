"""English: words of the knot sheet, and what is told of a knot."""

from __future__ import annotations

SHEET = {
    "all knots": "Knots",
    "its knots": "{title}: its knots",
    "hand left": "{title}, left-handed",
    "knot sheet lead": "Each knot stage by stage: what it is tied on, the cord it takes, and its "
    "mark in a chart. Blue with an arrow is the cord in your hand, led as the arrow points; a dark "
    "bar lies across cords that are held still.",
    "left hand": "For the left hand: pictures, marks and words are mirrored. Where a pattern is "
    "written for the right hand, read left for right and right for left in its rows too.",
    "knot sheet subject": "How to tie: {knots}",
    "knot sheet keywords": "macramé, {knots}",
}

FACTS = {
    "tied on": "Tied on",
    "tied one": "1 cord",
    "tied few": "{counts} cords",
    "tied one more": "1 cord or more",
    "tied more": "{least} cords or more",
    "tied range": "{least} to {most} cords",
    "tied even": "{least} to {most} cords, an even number",
    "tied here": "{range}, here {roles}",
    "tied rod": "on a rod {thick} thick",
    "faces left": "it faces left or right, here left",
    "faces right": "it faces left or right, here right",
    "takes": "Cord it takes",
    "takes text": "about {diameters}; in {diameter} mm cord that is {lengths}",
    "takes leader": "the leader runs straight through",
    "takes drawn": "not solved, but measured along its curves as drawn: tie one and see",
    "takes first": "{number} cord diameters for {whom}",
    "takes next": "{number} for {whom}",
    "pace": "Time",
    "pace seconds": "about {seconds} seconds, with practice",
    "pace minute": "about 1 minute, with practice",
    "pace minutes": "about {minutes} minutes, with practice",
    "difficulty": "Difficulty",
    "difficulty 1": "easy",
    "difficulty 2": "some practice",
    "difficulty 3": "takes practice",
    "by name": "in motifs and sennits by name",
    "list": ", ",
    "list and": " and ",
    "list or": " or ",
    "list facts": "; ",
    # who takes part: how many there are, and what each takes
    "working one": "1 working cord",
    "working many": "{count} working cords",
    "working takes one": "the working cord",
    "working takes many": "each working cord",
    "filler one": "1 filler cord",
    "filler many": "{count} filler cords",
    "filler takes one": "the filler cord",
    "filler takes many": "each filler cord",
    "knotting one": "1 knotting cord",
    "knotting many": "{count} knotting cords",
    "knotting takes one": "the knotting cord",
    "knotting takes many": "each knotting cord",
    "leader one": "1 leader",
    "leader many": "{count} leaders",
    "wrap one": "1 wrapping cord",
    "wrap many": "{count} wrapping cords",
    "wrap takes one": "the wrapping cord",
    "wrap takes many": "each wrapping cord",
    "mount one": "1 side of a folded cord",
    "mount many": "both sides of a folded cord",
    "mount takes one": "its side",
    "mount takes many": "each side of the cord",
}

TEXTS = {**SHEET, **FACTS}
