"""English: words of the pages, the cover and the contents."""

from __future__ import annotations

PAGES = {
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

COVER = {
    "by": "designed by {designer}",
    "size": "Finished size",
    "size value": "{width} × {drop}",
    "cut": "Cords to cut",
    "cut value": "{cords}\n{lengths}",
    "cord": "Cord in all",
    "metres": "{metres} m\n{yards} yd",
    "time": "Time",
    "total": "{metres} m ({yards} yd)",
    "left over": "{metres} m ({feet} ft)",
    "hours": "about {hours} hours",
    "hour": "about 1 hour",
    "minutes": "about {minutes} minutes",
    "colours": "Colours",
    "more colours": "and {count} more",
    "used": "Knots used",
    "named": "Sizes",
    "used count": "{name} ({count})",
}

ABOUT = {
    "contents": "In this sheet",
    "made for": "Made for",
    "changes": "Changes",
    "how to use": "How to use this sheet",
    "how to use text": "Read the sheet through before you cut. Knot a swatch first and compare it "
    "with the numbers under “{sizes}”: they decide whether the piece comes out at its size. Then "
    "cut, mount and work row by row, ticking every row as you finish it. Lengths stand in "
    "centimetres and in inches to the nearest eighth, those to cut in inches rounded up; keep to "
    "one of the two. Print at 100 %.",
}

TEXTS = {**PAGES, **COVER, **ABOUT}
