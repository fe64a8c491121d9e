"""Parts that are found, not listed: one file a knot, a mount, a section, a step.

A `Registry` imports every module of a package and collects what each offers under its name; two
files that claim one name are refused with both paths. `Tagged` makes a pydantic union of the
models found, told apart by their `kind`, which nests, dumps every field and gives a right JSON
Schema (a `Union` built at run time fails strict typing, and `list[Base]` drops fields on dump).
"""

from __future__ import annotations

import difflib
import importlib
import pkgutil
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from importlib import resources
from itertools import islice
from types import ModuleType
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

T = TypeVar("T")


def modules(package: ModuleType) -> tuple[ModuleType, ...]:
    """Import the modules of `package` wherever its `__path__` leads, by name.

    `base` and names that begin with an underscore are skipped. A name that stands in two places
    of the path is refused.
    """
    found: dict[str, str] = {}
    for place in package.__path__:
        for info in pkgutil.iter_modules([place]):
            if info.name == "base" or info.name.startswith("_"):
                continue
            if info.name in found and found[info.name] != place:
                raise ValueError(
                    f"two files claim the name {info.name!r}: one in {found[info.name]}, "
                    f"one in {place}"
                )
            found[info.name] = place
    return tuple(importlib.import_module(f"{package.__name__}.{name}") for name in sorted(found))


def read_data(package: str, name: str) -> bytes:
    """Return what a file of data beside a package's modules holds; the package may be in a zip."""
    return (resources.files(package) / name).read_bytes()


def shipped(package: str, folder: str = "") -> tuple[str, ...]:
    """Return the names of the YAML files shipped in a folder of a package, sorted."""
    names = (entry.name for entry in (resources.files(package) / folder).iterdir())
    return tuple(sorted(name[:-5] for name in names if name.endswith(".yaml")))


def read_shipped(package: str, name: str, folder: str = "") -> Any:
    """Return what a YAML file shipped in a folder of a package holds."""
    import yaml

    file = resources.files(package) / folder / f"{name}.yaml"
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    return yaml.load(file.read_text("utf-8"), Loader=loader)


class Registry(Mapping[str, T], Generic[T]):
    """The things of one sort that the modules of a package offer, by name.

    `find` yields (name, thing) for one module. The package is searched when the registry is
    first asked, so that a part may be added before that.
    """

    def __init__(self, package: str, find: Callable[[ModuleType], Iterable[tuple[str, T]]]) -> None:
        self.package = package
        self._find = find
        self._found: dict[str, T] | None = None

    def _all(self) -> dict[str, T]:
        if self._found is None:
            self._found = collect(modules(importlib.import_module(self.package)), self._find)
        return self._found

    def __getitem__(self, name: str) -> T:
        return self._all()[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._all())

    def __len__(self) -> int:
        return len(self._all())


def collect(
    found: Iterable[ModuleType], find: Callable[[ModuleType], Iterable[tuple[str, T]]]
) -> dict[str, T]:
    """Return what the modules offer, sorted by name; raise ValueError where two claim one name."""
    things: dict[str, T] = {}
    paths: dict[str, str] = {}
    for module in found:
        path = str(module.__file__)
        for name, thing in find(module):
            if name in things:
                raise ValueError(f"two files claim the name {name!r}: {paths[name]} and {path}")
            things[name], paths[name] = thing, path
    return dict(sorted(things.items()))


def models(base: type, tag: str = "kind") -> Callable[[ModuleType], Iterator[tuple[str, Any]]]:
    """Return a `find` for the models of a module: subclasses of `base` made there, by their tag.

    The tag of a model is the default of its field `tag`; a class without one is no model.
    """

    def find(module: ModuleType) -> Iterator[tuple[str, Any]]:
        for thing in vars(module).values():
            mine = isinstance(thing, type) and thing.__module__ == module.__name__
            if mine and issubclass(thing, base):
                field = thing.model_fields.get(tag)
                if field is not None and isinstance(field.default, str):
                    yield field.default, thing

    return find


class Tagged:
    """Marks `Annotated[Base, Tagged(registry)]`: any model of the registry, told by its tag.

    `discriminator` is the tag's key, or a function of the value that returns the tag.
    """

    def __init__(
        self,
        registry: Mapping[str, type[BaseModel]],
        discriminator: str | Callable[[Any], str | None] = "kind",
    ) -> None:
        self.registry = registry
        self.discriminator = discriminator

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        choices = {name: handler.generate_schema(model) for name, model in self.registry.items()}
        union = core_schema.tagged_union_schema(choices, discriminator=self.discriminator)
        return core_schema.no_info_before_validator_function(self._check_tag, union)

    def _check_tag(self, value: Any) -> Any:
        """Refuse a mapping without a tag."""
        tag = self.discriminator
        if isinstance(tag, str) and isinstance(value, dict) and tag not in value:
            problem = f"'{tag}' is missing"
            remedy = f"add '{tag}', one of {', '.join(self.registry)}"
            told = {"problem": problem, "remedy": remedy}
            raise PydanticCustomError("wrong", "{problem}; {remedy}", told)
        return value


def likely(word: object, known: Collection[str], most: int = 1, least: float = 0.6) -> list[str]:
    """Return the known words that are nearest to a mistyped one, at most `most`, nearest first.

    Those are alike by `least` or more, 1 being the same word.
    """
    if not isinstance(word, str) or len(word) > 120:
        return []
    # Comparing is slow, so a file can't have thousands compared.
    return difflib.get_close_matches(word, list(islice(known, 500)), most, least)


def hint(word: object, known: Collection[str], most: int = 1) -> str:
    """Say which known word was meant, or which ones there are.

    >>> hint("parabla", ["arc", "parabola"])
    "did you mean 'parabola'?"
    """
    near = likely(word, known, most)
    if near:
        return f"did you mean {' or '.join(map(repr, near))}?"
    first = [name if name.isprintable() else repr(name) for name in islice(known, 21)]
    rest = ", …" if len(first) > 20 else ""
    return f"use one of {', '.join(first[:20])}{rest}" if first else "there is none"
