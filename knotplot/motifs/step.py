"""What a step of a motif is: one key in a file, plain fields here, and how it reads in a mirror."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, ClassVar, NamedTuple

from pydantic import (
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    SerializerFunctionWrapHandler,
    model_serializer,
    model_validator,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from knotplot.discovery import Tagged, hint, likely
from knotplot.errors import Path, shown
from knotplot.fields import Spec, at_most, wrong


class LaneFault(NamedTuple):
    """What is wrong with the lanes of a step; `path` runs from the step's own fields."""

    path: Path
    value: object
    problem: str
    remedy: str


class Step(Spec):
    """One step. `key` names it in a file; `payload` is its one field where no mapping follows."""

    key: ClassVar[str]
    payload: ClassVar[str | None] = None
    beside: ClassVar[tuple[str, ...]] = ()  # keys that may stand next to the step's own

    def __init_subclass__(cls, **options: Any) -> None:
        super().__init_subclass__(**options)
        STEPS[cls.key] = cls

    @property
    def copies(self) -> int:
        """Return how often the steps it holds are worked."""
        return 1

    def inner(self) -> tuple[Step, ...] | None:
        """Return the steps it holds, None if it works strands itself."""
        return None

    def mirrored(self, lanes: int) -> Step:
        """Return the step as it reads in a mirror: lane l as lanes + 1 − l."""
        return self

    def faults(self, lanes: int) -> Iterator[LaneFault]:
        """Yield what is wrong with it where `lanes` lanes are there."""
        yield from ()

    def lanes_after(self, lanes: int) -> int:
        """Return how many lanes are there once it is done."""
        return lanes

    @model_validator(mode="before")
    @classmethod
    def _unwrap(cls, data: Any) -> Any:
        if not isinstance(data, dict) or cls.key not in data:
            return data
        if cls.payload is None:
            return data[cls.key]
        return {cls.payload: data[cls.key], **{k: data[k] for k in cls.beside if k in data}}

    @model_serializer(mode="wrap")
    def _wrap(self, handler: SerializerFunctionWrapHandler) -> dict[str, Any]:
        fields: dict[str, Any] = handler(self)
        if self.key in fields:  # pydantic wraps a step twice where it was the first model used
            return fields
        if self.payload is None:
            return {self.key: fields}
        return {self.key: fields.pop(self.payload), **fields}

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        made = super().__get_pydantic_json_schema__(schema, handler)
        body = handler.resolve_ref_schema(made)
        inner = dict(body)
        told: dict[str, Any] = {
            key: inner.pop(key) for key in ("title", "description", "examples") if key in inner
        }
        if cls.payload is None:
            within = [example[cls.key] for example in told.get("examples", ())]
            properties = {cls.key: {**inner, **told, "examples": within}}
        else:
            fields = inner["properties"]
            properties = {cls.key: fields[cls.payload], **{k: fields[k] for k in cls.beside}}
        body.clear()
        body.update(
            **told,
            type="object",
            properties=properties,
            required=[cls.key],
            additionalProperties=False,
            patternProperties={"^x-": {}},
        )
        return made


STEPS: dict[str, type[Step]] = {}


def _key_of(data: Any) -> str | None:
    if isinstance(data, Step):
        return data.key
    return next(str(key) for key in data if key in STEPS)


def _one_key(data: Any) -> Any:
    """Refuse what isn't a mapping with exactly one key that names a step."""
    if isinstance(data, Step):
        return data
    if not isinstance(data, dict):
        raise wrong(
            "not a step", f"write one of {', '.join(STEPS)}, as 'hitch: {{lead: 6, to: 1}}'"
        )
    keys = [str(key) for key in data if not str(key).startswith("x-")]
    named = [key for key in keys if key in STEPS]
    if len(named) > 1:
        raise wrong(f"{len(named)} steps in one: {', '.join(named)}", "begin a line for each")
    if not named:
        problem = f"unknown step {shown(keys[0])}" if keys else "an empty step"
        raise wrong(problem, hint(keys[0] if keys else None, STEPS))
    (name,) = named
    for key in keys:
        if key != name and key not in STEPS[name].beside:
            near = likely(key, STEPS[name].beside)
            inside = f"put it inside '{name}', or leave it out"
            remedy = f"did you mean '{near[0]}'?" if near else inside
            raise wrong(f"unknown key {shown(key)} beside '{name}'", remedy)
    return data


class _AnyStep(Tagged):
    """The union of all steps, told apart by their key."""

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        union = super().__get_pydantic_core_schema__(source, handler)
        return core_schema.no_info_before_validator_function(_one_key, union)


AnyStep = Annotated[Step, _AnyStep(STEPS, _key_of)]
MOST_STEPS = 100_000
Steps = Annotated[
    tuple[AnyStep, ...], Field(min_length=1, max_length=MOST_STEPS), at_most(MOST_STEPS)
]
