"""English: words of the cut list, the spools, the allowance, and where the cord goes."""

from __future__ import annotations

TEXTS = {
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
    "added note": "Cords {cords} are added in the course of the work, each folded in half.",
    "leaders note": "Leaders (L) are separate cords laid across the work to hitch onto.",
    "wraps note": "Wraps (W) are separate cords that bind a bundle.",
    "folded note": "Main cords are folded in half: each gives two hanging cords. Where the two "
    "take different lengths, the cord is cut for twice the longer one.",
    "uneven note": "Main cords are folded where the next table says: each gives two hanging cords.",
    "folds": "Where to fold",
    "fold left": "Left side",
    "fold right": "Right side",
    "fold text": "Measure the left side from one end, fold there, and hang that side on the left. "
    "Each side is then as long as its own knots need; fold places are whole and keep to what both "
    "sides need at the least.",
    "fold saves": "So folded, {saved} less cord is cut in all than with every cord folded in half.",
    "fold saves none": "Folded in half, the cords of this piece would be cut no longer.",
    "fewer": "Fewer lengths",
    "fewer text": "Fewer different lengths are quicker to measure out, and cost cord:",
    "fewer role": "For",
    "fewer lengths": "Lengths",
    "fewer total": "Cord cut",
    "fewer more": "More than here",
    "fewer here": "{count} (as here)",
    "fewer none": "–",
    "allowance": "How the lengths were found",
    "allowance text": "Each length is what its cord uses, plus an allowance chosen so that with a "
    "chance of {confidence} % no cord of the piece comes out too short, rounded up to a multiple "
    "of {step} and gathered into {gathered}.",
    "gathered": "at most {groups} lengths for each {each}",
    "gathered auto": "the fewest lengths for each {each} that take no more spools, and no more "
    "than 5 % more cord, than eight lengths would",
    "allowance kinds": "kind of cord",
    "allowance colours": "kind and colour of cord",
    "source solved rope": "What a knot uses was computed from its own curve, as a rope pulled "
    "tight.",
    "source measured": "It is scaled by the cord that the swatch was measured to use, and hands "
    "are taken to differ by {error} % from that.",
    "source table": "No swatch was measured for its cord, so hands are taken to differ by {error} "
    "% from it. Before you cut everything, knot a swatch, note the cord it uses, and put it into "
    "the pattern.",
    "flat": "The allowance comes to {allowance} in all. A flat ten per cent would be {flat}, and "
    "at this chance it would be {short}.",
    "flat short none": "enough for every cord",
    "flat short all": "too little for every cord",
    "flat short one": "too little for 1 cord of {cords}",
    "flat short many": "too little for {count} cords of {cords}",
    "goes": "Where the cord goes",
    "goes text": "Of all that is cut, so much lies in each; a bar is one cord of its length, on "
    "the average.",
    "goes first": "The first {count} lengths are drawn.",
    "goes mount": "knots of the mounting",
    "goes knots": "knots",
    "goes runs": "between knots",
    "goes finish": "fringe, trim and ends",
    "goes allowance": "allowance",
    "goes lost": "whole lengths, folds",
    "goes share": "{what}: {share} %",
    "plan": "How the spools are cut",
    "plan text": "Cut each spool as it stands here, the longest cords first, and tick its box: no "
    "cord then falls on a spool's end.",
    "plan joins": "Cutting straight down the cut list, {joins} would fall on one.",
    "plan joins one": "{count} cord",
    "plan joins many": "{count} cords",
    "plan one": "Spool {first} ({size})",
    "plan many": "Spools {first}–{last} ({size} each)",
    "plan each": "From each: {cuts}.",
    "plan all": "{cuts}.",
    "plan left": "{left} left over.",
    "plan left none": "Nothing is left over.",
    "plan line": "{count} × {label}",
    "plan then": ", then ",
    "plan rest": "; from what is left, {cuts} ({roles})",
}
