"""Make the shipped patterns with the lowest versions allowed, and on every Python there is.

    python tests/versions.py DIR

Makes environments in DIR: one with the lowest version of each dependency that pyproject.toml
allows, in which a quick part of the tests is run; and one for each newer Python found, with the
newest versions. What they make of the patterns must be what this Python makes, to the byte; PDFs to
the letter and the pixel.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

from pypdfium2 import PdfDocument

ROOT = Path(__file__).resolve().parents[1]
OLDEST = (3, 11)
TOOLS = ("pytest", "hypothesis")  # of development, those that the quick tests need
QUICK = (
    "tests/curves", "tests/materials/test_cutting.py", "tests/materials/test_spools.py",
    "tests/pattern/test_bad_input.py", "tests/pattern/test_schema.py",
    "tests/pattern/test_source.py", "tests/renderers/test_files.py", "tests/test_fields.py",
    "tests/test_public.py", "tests/test_units.py",
)  # fmt: skip


def lowest(requirement: str) -> str:
    """Return a requirement with its lowest version as the only one.

    >>> lowest("reportlab[accel]>=4.4")
    'reportlab[accel]==4.4'
    """
    match = re.fullmatch(r"([\w.-]+(?:\[\w+\])?)>=([\w.]+)", requirement)
    if not match:
        raise ValueError(f"{requirement}: not a lowest version alone")
    return f"{match[1]}=={match[2]}"


def needs() -> list[str]:
    """Return what knotplot needs at run time, pictures included."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    return [*project["dependencies"], *project["optional-dependencies"]["png"]]


def tools() -> list[str]:
    """Return what the quick tests need besides."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    dev = project["optional-dependencies"]["dev"]
    return [each for each in dev if re.split(r"[>=\[]", each)[0] in TOOLS]


def pythons() -> dict[str, Path]:
    """Return the Pythons on this machine besides this one, by version as 3.12; one of each."""
    places = [
        Path(found) for minor in range(OLDEST[1], 30) if (found := shutil.which(f"python3.{minor}"))
    ]
    manager = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv"))
    places += sorted(manager.glob("versions/*/bin/python3"))
    asks = "import sys, venv, ensurepip; print(*sys.version_info[:2])"
    found: dict[str, Path] = {}
    for place in places:
        told = subprocess.run([place, "-c", asks], capture_output=True, text=True, check=False)
        if told.returncode:
            continue  # not a version that is chosen, or one without venv
        version = tuple(map(int, told.stdout.split()))
        if version >= OLDEST and version != sys.version_info[:2]:
            found.setdefault(".".join(map(str, version)), place)
    return dict(sorted(found.items(), key=lambda each: int(each[0].split(".")[1])))


def environment(python: Path, folder: Path, requirements: list[str]) -> Path:
    """Return the Python of a new environment with those packages."""
    subprocess.run([python, "-m", "venv", folder], check=True)
    made = folder / "bin" / "python"
    # Wheels alone: what must be compiled first is no version that a maker can be asked to use.
    pip = [made, "-m", "pip", "install", "-q", "--only-binary", ":all:", *requirements]
    subprocess.run(pip, check=True)
    return made


def own() -> dict[str, str]:
    """Return the environment variables for running this repository's code."""
    return {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}


def seen(pdf: bytes) -> list[tuple[str, bytes]]:
    """Return what each page says and shows: versions of reportlab write other things round them."""
    return [
        (page.get_textpage().get_text_range(), bytes(page.render(scale=1.0).buffer))
        for page in (PdfDocument(pdf) if pdf else ())
    ]


def made(python: Path | str, folder: Path) -> dict[str, bytes]:
    """Return what a Python makes of the shipped patterns, by pattern and file."""
    found = {}
    for pattern in sorted(ROOT.glob("patterns/*.yaml")):
        out = folder / pattern.stem
        words = [python, "-m", "knotplot", "make", pattern, "-o", out]
        subprocess.run(words, check=True, env=own(), cwd=ROOT, stdout=subprocess.DEVNULL)
        for place in sorted(out.iterdir()):
            found[f"{pattern.stem}/{place.name}"] = place.read_bytes()
    return found


def main() -> int:
    work = Path(sys.argv[1])
    this = made(sys.executable, work / "made" / "this")
    wrong = 0

    def compare(name: str, python: Path) -> None:
        nonlocal wrong
        other = made(python, work / "made" / name)
        for file in sorted({*this, *other}):
            mine, theirs = this.get(file, b""), other.get(file, b"")
            if mine != theirs and not (file.endswith(".pdf") and seen(mine) == seen(theirs)):
                print(f"{name}: {file} is another than this Python makes")
                wrong += 1
        print(f"{name}: {len(other)} files compared", flush=True)

    least = [lowest(each) for each in [*needs(), *tools()]]
    print("lowest versions:", ", ".join(least), flush=True)
    python = environment(Path(sys.executable), work / "lowest", least)
    compare("lowest", python)
    pytest = [python, "-m", "pytest", "-q", "-p", "no:cacheprovider", *QUICK]
    wrong += subprocess.run(pytest, check=False, env=own(), cwd=ROOT).returncode
    others = pythons()
    for version, place in others.items():
        compare(version, environment(place, work / version, needs()))
    if not others:
        print("no other Python from 3.11 on is on this machine")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
