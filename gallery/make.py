"""Make the gallery from patterns and knots: `python gallery/make.py`; --check says what is stale.

For each patterns/*.yaml: the sheet, chart and cord view, a picture, the figures (of every named
size too) and the words; and a page that shows them. Then the list of all knots and the sheet that
teaches them, and the reference of the pattern language with its pictures. Texts are compared byte
by byte. A PDF is compared by what its pages draw and say, and the picture by the drawing it was
made from, since their compressed bytes depend on the machine's zlib.
"""

from __future__ import annotations

import argparse
import hashlib
import io
import re
import sys
import zlib
from collections.abc import Iterator
from pathlib import Path

from format_page import format_page
from pypdf import PdfReader
from pypdf.generic import IndirectObject, StreamObject

from knotplot import build, knot_list, knot_sheet, load
from knotplot.api import WorkedPiece
from knotplot.output import json_text

ROOT = Path(__file__).resolve().parents[1]
GALLERY = ROOT / "gallery"
PICTURE_PX = 800  # the longer side of a picture
MOST_BYTES = 12_000_000  # of the whole gallery
KEPT = ("make.py", "format_page.py")
KNOTS = """# Knots

![Every knot with its chart mark, every way of working with its last picture](list.png)

- [the sheet that teaches them](sheet.pdf), stage by stage
"""


def made(pattern: Path) -> Iterator[tuple[str, bytes]]:
    """Yield name and content of each file of one pattern, and last its part of the page."""
    name = pattern.stem
    plain = load(pattern)
    piece = build(plain)
    cord = piece.draw("cord")
    yield f"{name}/sheet.pdf", piece.sheet().pdf()
    yield f"{name}/chart.svg", piece.draw("chart").svg().encode()
    yield f"{name}/cord.svg", cord.svg().encode()
    picture = cord.png(PICTURE_PX / max(cord.drawing.width, cord.drawing.height))
    yield f"{name}/cord.png", signed(picture, cord.svg().encode())
    yield f"{name}/words.txt", piece.words().encode()
    yield f"{name}/figures.json", json_text(piece.figures()).encode()
    for size in plain.sizes:
        figures = build(load(pattern, size=size)).figures()
        yield f"{name}/figures-{size}.json", json_text(figures).encode()
    yield f"{name}/README.md", page(name, piece).encode()


def knots() -> Iterator[tuple[str, bytes]]:
    """Yield name and content of each file on the catalogue's knots."""
    marks = knot_list()
    yield "knots/sheet.pdf", knot_sheet().pdf()
    yield "knots/list.png", signed(marks.png(), marks.svg().encode())
    yield "knots/README.md", KNOTS.encode()


def page(name: str, piece: WorkedPiece) -> str:
    """Return one pattern's page: what it is, in a few figures, with its files."""
    found = piece.figures()
    knots = ", ".join(f"{n} {kind.replace('_', ' ')}" for kind, n in found["knots"].items())
    sizes = (
        f"\n\nMade in the sizes {', '.join(piece.pattern.sizes)}." if piece.pattern.sizes else ""
    )
    return f"""# {found["title"]}

{piece.pattern.summary or ""}{sizes}

![The piece drawn as cord](cord.png)

- {found["strands"]["count"]} strands, about {found["hours"]:g} hours
- knots: {knots}
- [sheet](sheet.pdf) · [chart](chart.svg) · [cord view](cord.svg) · [words](words.txt) ·
  [figures](figures.json) · [the pattern itself](../../patterns/{name}.yaml)
"""


def signed(png: bytes, source: bytes) -> bytes:
    """Return a PNG with the hash of what it was drawn from in a text chunk after its header."""
    body = b"tEXtSource\0sha256:" + hashlib.sha256(source).hexdigest().encode()
    chunk = (len(body) - 4).to_bytes(4) + body + zlib.crc32(body).to_bytes(4)
    header = 8 + 25  # the signature and the chunk IHDR
    return png[:header] + chunk + png[header:]


def essence(name: str, data: bytes) -> object:
    """Return what of a file must be the same on every machine."""
    if name.endswith(".pdf"):
        reader = PdfReader(io.BytesIO(data))
        objects = (reader.get_object(IndirectObject(n, 0, reader)) for n in sorted(reader.xref[0]))
        # a stream's own keys hold its deflated length; fonts are the library's affair
        return [
            (thing.get_data() if "/Length1" not in thing else b"")
            if isinstance(thing, StreamObject)
            else re.sub(r"(IndirectObject\(\d+, \d+), \d+", r"\1", str(thing))
            for thing in objects
        ]
    if name.endswith(".png"):
        return data[8:33], data[33 : data.index(b"IDAT")].split(b"tEXt", 1)[-1][:90]
    return data


def stale(files: dict[str, bytes]) -> Iterator[str]:
    """Yield the files that aren't what the code makes, lacking ones and left-over ones too."""
    for name, data in files.items():
        place = GALLERY / name
        if not place.is_file():
            yield f"{name} is missing"
        elif essence(name, place.read_bytes()) != essence(name, data):
            yield f"{name} is stale"
    for place in left_over(files):
        yield f"{place.relative_to(GALLERY).as_posix()} is made from no pattern"


def left_over(files: dict[str, bytes]) -> Iterator[Path]:
    """Yield the files of the gallery that no pattern makes any more."""
    for place in sorted(GALLERY.rglob("*")):
        name = place.relative_to(GALLERY).as_posix()
        if place.is_file() and name not in (*files, *KEPT) and "__pycache__" not in name:
            yield place


def main() -> int:
    """Make the gallery, or check it; return the exit code."""
    parser = argparse.ArgumentParser(description="Make the gallery from the patterns.")
    parser.add_argument("--check", action="store_true", help="change nothing, say what is stale")
    check = parser.parse_args().check
    files = dict(file for at in sorted(ROOT.glob("patterns/*.yaml")) for file in made(at))
    files |= dict(knots()) | dict(format_page())
    size = sum(map(len, files.values()))
    if size > MOST_BYTES:
        sys.stderr.write(f"the gallery has {size / 1e6:.1f} MB, and may have {MOST_BYTES / 1e6}\n")
        return 1
    if check:
        found = list(stale(files))
        sys.stderr.writelines(f"gallery/{line}\n" for line in found)
        if found:
            sys.stderr.write("make it again: python gallery/make.py\n")
        return 1 if found else 0
    for name, data in files.items():
        place = GALLERY / name
        place.parent.mkdir(exist_ok=True)
        if not place.is_file() or essence(name, place.read_bytes()) != essence(name, data):
            place.write_bytes(data)
    for place in list(left_over(files)):
        place.unlink()
    sys.stdout.write(f"{len(files)} files, {size / 1e6:.1f} MB\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
