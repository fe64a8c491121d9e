"""Whatever is looked at, at a prompt or in a notebook, fits a line; a notebook shows what it is."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator

import pytest
from cli_sample import GOOD, changed

import knotplot
from knotplot import notebook
from knotplot.brief import MOST

WIDE = changed('title: Harbour <b>mat</b> & "sons"', f"title: {'Wide mat ' * 20}")


def piece(text: str = GOOD) -> knotplot.WorkedPiece:
    return knotplot.build(knotplot.loads(text))


def fault(text: str) -> knotplot.PatternError:
    with pytest.raises(knotplot.PatternError) as caught:
        knotplot.loads(text)
    return caught.value


def met(thing: object, path: str, depth: int = 5) -> Iterator[tuple[str, object]]:
    """Yield a thing and all of knotplot's own that is reached from it by attributes and items."""
    yield path, thing
    if depth == 0:
        return
    if isinstance(thing, tuple | list):
        inside = [(f"{path}[{i}]", each) for i, each in enumerate(thing[:3])]
    elif type(thing).__module__.startswith("knotplot") and not isinstance(thing, tuple):
        skipped = ("_", "model_")
        names = [name for name in dir(thing) if not name.startswith(skipped)]
        inside = [(f"{path}.{name}", getattr(thing, name)) for name in names]
    else:
        return
    for place, each in inside:
        own = type(each).__module__.startswith("knotplot") or isinstance(each, tuple | list)
        if own and not callable(each):
            yield from met(each, place, depth - 1)


@pytest.mark.filterwarnings("ignore::pydantic.PydanticDeprecatedSince20")
@pytest.mark.parametrize("text", [GOOD, WIDE], ids=["short", "long title"])
def test_all_that_is_reached_from_a_piece_fits_a_line(text: str) -> None:
    made = piece(text)
    views = [made.draw(view) for view in ("chart", "cord", "outline", "trim", "key", "repeat")]
    roots = {
        "piece": made,
        "sheet": made.sheet(),
        "views": views,
        "knot": knotplot.knot("overhand"),
    }
    seen, long = 0, []
    for name, root in roots.items():
        for path, thing in met(root, name):
            if not isinstance(thing, tuple | list):
                seen += 1
                if len(repr(thing)) > MOST or "\n" in repr(thing):
                    long.append(f"{path}: {type(thing).__name__}")
    assert long == []
    assert seen > 80


def test_a_piece_says_what_it_is() -> None:
    made = piece()
    title = "'Harbour <b>mat</b> & \"sons\"'"
    assert repr(made) == f"WorkedPiece({title}, 192 × 400 mm, 24 strands, 7 rows)"
    assert repr(made.pattern) == str(made.pattern) == f"Pattern({title}, 192 × 400 mm)"
    assert repr(made.sheet("letter")).endswith("pages, letter paper)")
    assert re.fullmatch(r"Picture\(.+ – Trim line', \d+ × \d+ mm\)", repr(made.draw("trim")))
    assert repr(made.pattern.sections[0]) == (
        "SquareKnotMesh(kind='square_knot_mesh', name='net', rows=4)"
    )
    assert repr(made.count).startswith("Count(estimate=None, count=24, repeat=")


def test_an_error_says_what_is_wrong_on_one_line() -> None:
    error = fault("knotplot: 1\nsize: 3\nrows: 2\n")
    assert len(error.faults) > 3
    count = len(error.faults)
    assert repr(error).startswith(f"PatternError({count} faults, the first: pattern:1: neither")
    for thing in (error, *error.faults, knotplot.UsageError("x" * 500), knotplot.Refusal("a", "b")):
        assert len(repr(thing)) <= MOST
        assert "\n" not in repr(thing)


def test_a_notebook_shows_a_small_picture_as_svg() -> None:
    knot = knotplot.knot("overhand")
    assert knot._repr_svg_() == knot.svg()
    assert knot._repr_png_() is None


def test_a_notebook_shows_a_large_picture_as_png(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(notebook, "MOST_SVG", 100)
    chart = piece().draw("chart")
    assert chart._repr_svg_() is None
    png = chart._repr_png_()
    assert png is not None
    width, height = (int.from_bytes(png[at : at + 4]) for at in (16, 20))
    assert png.startswith(b"\x89PNG")
    assert max(width, height) <= notebook.SCREEN + 1
    monkeypatch.setitem(__import__("sys").modules, "resvg_py", None)  # the extra isn't there
    assert chart._repr_png_() is None
    assert "<img" not in piece().sheet()._repr_html_()


def test_a_notebook_shows_a_piece_escaped_with_its_warnings() -> None:
    made = piece(changed("drop: 40 cm}", "drop: 40 cm}\nspare: x").replace("spare: x", "x-a: 1"))
    shown = made._repr_html_()
    assert "Harbour &lt;b&gt;mat&lt;/b&gt; &amp; &quot;sons&quot;" in shown
    assert "24 strands of 12 cords" in shown
    assert shown.count("<li>") == len(made.warnings)
    assert "&lt;i&gt;" in notebook.facts_html("a", [], ["<i>"])


def test_a_notebook_shows_the_first_page_of_a_sheet() -> None:
    sheet = piece().sheet()
    shown = sheet._repr_html_()
    assert f"{len(sheet)} pages of 210 × 297 mm" in shown
    held = re.search(r'src="data:image/(png|svg\+xml);base64,([^"]+)"', shown)
    assert held
    data = base64.b64decode(held[2])
    assert data.startswith(b"\x89PNG" if held[1] == "png" else b"<svg ")
