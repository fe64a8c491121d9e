"""English: words of a quote for a commission."""

from __future__ import annotations

LINES = {
    "quote cord": "Cord, {cord}",
    "quote cord free": "left out: no price known",
    "quote cord how": "{spools} × {price}",
    "quote support": "Support",
    "quote support how": "{material}, {diameter} thick",
    "quote labour": "Labour",
    "quote labour how": "{hours} hours × {price}",
    "quote overhead": "Overhead",
    "quote overhead how": "{percent} % of {base}, materials and labour",
    "quote markup": "Markup",
    "quote markup how": "{percent} % of {base}, the cost with overhead",
    "quote net": "Net price",
    "quote tax": "Tax",
    "quote tax how": "{percent} % of the net price",
    "quote total": "Total",
}

HOURS = {
    "hours title": "Hours",
    "hours what": "Knot",
    "hours count": "Number",
    "hours each": "Minutes each",
    "hours whose": "Minutes from",
    "hours own": "your own figure",
    "hours swatch": "your timed swatch",
    "hours usual": "usual pace",
    "hours cutting": "measuring and cutting cords",
    "hours total": "in all",
}

NOTES = {
    "quote left over": "Cord is charged in whole spools, as it is bought. Of these, cord for "
    "{amount} {currency} is left over.",
    "quote left out": "Not in this price: cord for which no price is known ({kinds}).",
    "quote support out": "What it hangs on ({support}) is not in this price.",
    "quote rounding": "Each line is rounded to 0.01; the rounded lines are added.",
    "quote own": "All prices, hours and percentages are the maker's own.",
}

PAGE = {
    "quote": "Quote",
    "quote lead": "A piece knotted by hand, made to order.",
    "quote piece": "Piece",
    "quote size": "Finished size",
    "quote made of": "Made of",
    "quote cord all": "cord {cord}, {length}",
    "quote hung on": "hung on {support} (included)",
    "quote work": "Work",
    "quote work value": "{knots} tied by hand, {hours} hours with measuring and cutting the cords",
    "quote what": "For",
    "quote how": "How it is reckoned",
    "quote amount": "Amount in {currency}",
    "quote total in": "Total in {currency}",
    "quote maker": "The maker",
    "quote customer": "The customer",
    "quote name": "Name",
    "quote signature": "Place, date, signature",
}

TEXTS = {**LINES, **HOURS, **NOTES, **PAGE}
