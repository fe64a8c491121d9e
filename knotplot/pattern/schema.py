"""The JSON Schema of a pattern file, for editors."""

from __future__ import annotations

from typing import Any

from knotplot.pattern.models import Pattern


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a pattern file."""
    made = Pattern.model_json_schema()
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **made,
        "title": "knotplot pattern",
    }
