"""The JSON Schema of a pattern file, for editors."""

from __future__ import annotations

from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from knotplot.pattern.models import Pattern
from knotplot.pattern.not_built import NOT_BUILT


class _InOrder(GenerateJsonSchema):
    """Leaves keys in their order: pydantic would sort those of examples too."""

    def sort(self, value: JsonSchemaValue, parent_key: str | None = None) -> JsonSchemaValue:
        """Return the schema as it is."""
        return value


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a pattern file; it marks what isn't built yet."""
    made = Pattern.model_json_schema(schema_generator=_InOrder)
    for each in NOT_BUILT:
        made["properties"][each.key]["description"] = f"Not built yet: {each.what}; {each.remedy}."
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **made,
        "title": "knotplot pattern",
        "description": "A macramé pattern with all its measures; `knotplot explain` tells more.",
    }
