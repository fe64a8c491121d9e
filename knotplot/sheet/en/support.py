"""English: words of what the piece hangs on."""

from __future__ import annotations

TEXTS = {
    "hangs on": "What it hangs on",
    "rod head": "The rod",
    "under head": "Under this piece",
    "rod material": "Material",
    "rod of": "{called} ({stock})",
    "rod thickness": "Thickness",
    "rod wall": "{diameter},\nwall {wall}",
    "rod span": "Between brackets",
    "rod length": "Cut it this long",
    "rod smallest": "Thinnest that would do",
    "rod smallest none": "none of this material",
    "rod weight": "Weight of the piece, dry",
    "rod own weight": "Weight of the rod",
    "rod sag": "Sag",
    "rod sag none": "less than can be seen",
    "rod sag grows": "{now} at once,\n{later} in time",
    "rod gives way": "far too much",
    "rod sag limit": "Sag, at most (span/200)",
    "rod stress": "Bending stress",
    "rod stress value": "{share} % of a cautious {stress} MPa",
    "rod bracket": "Each bracket carries",
    "rod bracket value": "{weight}, {newtons} N",
    "rod spacing": "Widest between brackets",
    "mass estimated": "{mass} (estimated)",
    "rod picture": "Rod, brackets and width to one scale; the sag is drawn {factor} times as "
    "large, from the straight rod that the dashes show.",
    "rod picture true": "Rod, brackets, width and sag to one scale; the dashes show the straight "
    "rod.",
    "rod picture desc": "The rod on its two brackets, bent by the piece",
    "rod cautions": "These figures are for a straight, dry, sound rod and a load that hangs still. "
    "Nothing is allowed for anyone who pulls at it, nor for a knot or crack; a branch counts by "
    "its thinnest place. Wet, the piece can weigh twice as much.",
    "rod creep": "Wood goes on sagging under a load that stays: in the course of years to {times} "
    "times its sag at once. The drawing, the limit and the thinnest rod go by that.",
    "rod fixings": "Fix brackets into structure (a stud, a joist, masonry), never into plaster or "
    "board alone, and go by the fixings' own figures. Local rules and a licensed trade go before "
    "this sheet, which claims no conformity with any standard.",
    "stock softwood": "softwood",
    "stock cedar": "cedar",
    "stock hardwood": "hardwood",
    "stock branch": "branch",
    "stock bamboo": "bamboo",
    "stock steel bar": "steel bar",
    "stock steel tube": "steel tube",
    "stock stainless bar": "stainless steel bar",
    "stock stainless tube": "stainless steel tube",
    "stock brass bar": "brass bar",
    "stock brass tube": "brass tube",
    "stock copper tube": "copper tube",
    "stock aluminium bar": "aluminium bar",
    "stock aluminium tube": "aluminium tube",
    "stock acrylic": "acrylic",
}
