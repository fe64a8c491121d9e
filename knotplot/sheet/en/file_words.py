"""English: what warnings call by the file's words, in the words of the trade, for paper.

Pairs of a regular expression and what stands in its place, applied in their order. Who reads a
sheet may never see the file.
"""

from __future__ import annotations

from knotplot.kinds import kinds

# Those of one word are words of the trade.
KINDS = {name: kind.words["en"].one for name, kind in kinds().items() if "_" in name}

FILE_WORDS: tuple[tuple[str, str], ...] = (
    (r"with 'groups: 2' under 'cut', ", "in two lengths, "),
    (r"with 'fold: uneven' under 'mount', ", "folded unevenly, each at its own place, "),
    (r"'?\bcord_used\b'?", "the cord your swatch took"),
    (r"add 'rows', the number", "add the number"),
    (r"the section's '\w+'", "the bare cord between rows"),
    (r"^cord_use: ", "your own figures for cord: "),
    (r"^cords\.main: ", "main cord: "),
    (r"^cords\.wrap: ", "wrapping cord: "),
    (r", or give 'spool', what one holds$", ""),
    (r"give mount\.rod and support\.diameter alike", "take one thickness for both"),
    (r"^swatches\[\d+\]: ", "one of the swatches: "),
    (r"^swatches\[\d+\].*?: their minutes", "several swatches: their minutes"),
    (r"^mount: ", "mounting: "),
    (r"^lower_edge: ", "lower edge: "),
    (r"hang them, and give their height: 'swatch: .*'", "hang them, and measure how high they are"),
    (r"'count: (\d+)' under 'strands'", r"\1 strands"),
    (r"'diameter: ([\d.]+ mm)' under 'cords?(?:\.main)?'", r"cord of \1"),
    (r"'width: ([^']+)' under '(?:size|opening)'", r"a width of \1"),
    (r"'tail: ([^']+)' under 'mount'(?: and 'length: [^']+' for the last fringe)?", r"\1 for both"),
    (r"tie a plain knot before it: '- knot: .*'", "tie a plain knot on the same cords before it"),
    (r"\b(leads|led) lane (\d+)", r"\1 the cord in place \2"),
    (r"\blane(s?)\b", r"place\1"),
    *((rf"(?<!\w){kind}(?!\w)", words) for kind, words in KINDS.items()),
)
