"""English: words of sizes, swatch and gauge."""

from __future__ import annotations

SIZES = {
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
    "swatch height": "Height of {rows}",
    "row one": "{count} row",
    "row many": "{count} rows",
    "swatch height plain": "Height",
    "swatch cord": "Cord used by one cord",
    "swatch minutes": "Time",
    "swatch sure": "Within",
    "within": "± {percent} %",
    "swatch error label": "How sure it is",
    "swatch error": "an edge or an end is read to 2 mm, and one tie takes a little more cord than "
    "the next. A larger swatch is surer.",
    "by swatch": " by {of}",
    "height label": "Height{by}",
    "cord label": "Cord{by}",
    "scaled height": "knots are counted and drawn {factor} × as tall as usual, so that "
    "the swatch's rows come out as measured, from the top of the first row's knots to the bottom "
    "of the last row's. This goes for: {names}.",
    "dropped height": "no knots of this cord make the swatch's rows so high or so low, "
    "so its height isn't used. Check its rows and its height.",
    "scaled cord": "beyond the straight way past a knot, working cords take {factor} × "
    "what was computed, as the swatch was measured to use. This goes for: {names}.",
    "unscaled height": "no swatch says how high its rows are, so that knots are taken at "
    "their usual height. Measure yours: the rows that fit may be more, or fewer.",
    "unscaled cord": "no swatch says how much it used, so that lengths are as computed.",
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
    "board none": "No swatch says how it settles, so both sizes are taken as one. Measure "
    "yours flat and again hanging: the piece will change in the same proportion.",
    "hung": "Hanging",
    "worked": "On the board",
}

MEASURE = (
    (
        "Width",
        "measure at the top, in the middle and at the bottom; take the narrowest, less a "
        "little room to move.",
    ),
    (
        "Drop",
        "measure from the top of the support to the lowest point of the trimmed edge, with "
        "the support in its place.",
    ),
    (
        "Then",
        "put your measures into the pattern and make the sheet anew. Cords, lengths, rows and "
        "chart follow.",
    ),
)

SWATCH = (
    "Measure how thick your cord is: wind it ten times round a pencil, the turns touching but not "
    "squeezed, and take a tenth of their width. This sheet is for cord of {diameter} mm.",
    "Take the very cord of the piece. Mount {strands} cords and work {rows} or more, as the piece "
    "is worked.",
    "Measure it flat on the board: the width over all its cords, the height over all its rows.",
    "Hang it overnight with its ends free, then measure both again. The hung width counts.",
    "Note how much of one cord it took, and how many minutes: they make lengths and time yours.",
)

TEXTS = SIZES
LISTS = {"swatch": SWATCH}
PAIRS = {"measure": MEASURE}
