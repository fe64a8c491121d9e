"""The JSON Schema of a pattern file, for editors."""

from __future__ import annotations

from typing import Any

from knotplot.pattern.models import Pattern
from knotplot.pattern.not_built import NOT_BUILT


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a pattern file; it marks what isn't built yet."""
    made = Pattern.model_json_schema()
    for each in NOT_BUILT:
        made["properties"][each.key]["description"] = f"Not built yet: {each.what}; {each.remedy}."
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **made,
        "title": "knotplot pattern",
        "description": "A macramé pattern with all its measures; `knotplot explain` tells more.",
    }
