"""The commands: `knotplot make FILE -o DIR` and its kin.

Exit 0 good, 1 the pattern (or the place to write to) is at fault, 2 wrong usage. Messages go to
stderr, one line a fault, never a traceback.
"""

from __future__ import annotations

import argparse
import gc
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from knotplot import __version__, arguments
from knotplot.console import internal, one_line, say, set_streams, tell
from knotplot.errors import KnotplotError, PatternError, Refusal, UsageError, shown
from knotplot.pattern.not_built import NOT_BUILT, OPTIONS

if TYPE_CHECKING:
    from knotplot.api import WorkedPiece
    from knotplot.output import Picture
    from knotplot.pattern.models import Pattern
    from knotplot.pattern.tree import Source

GOOD, AT_FAULT, WRONG_USAGE, STOPPED = 0, 1, 2, 130


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    # A command makes records that live until its end: looking for cycles among them would take a
    # fifteenth of its time, and find next to nothing.
    collects = gc.isenabled()
    gc.disable()
    try:
        return _run(argv)
    finally:
        if collects:
            gc.enable()


def _run(argv: Sequence[str] | None) -> int:
    set_streams()
    try:
        asked = _parser().parse_args(argv)
        run: Callable[[argparse.Namespace], None] = asked.run
        run(asked)
        return GOOD
    except SystemExit as done:  # argparse: --help, --version, wrong usage
        return done.code if isinstance(done.code, int) else GOOD
    except PatternError as error:
        for fault in error.faults:
            tell(str(fault))
        return AT_FAULT
    except UsageError as error:
        tell(f"knotplot: {error}")
        return WRONG_USAGE
    except KnotplotError as error:
        tell(str(error))
        return AT_FAULT
    except KeyboardInterrupt:
        return STOPPED
    except Exception as error:  # a fault of ours: say where, ask for a report
        tell(internal(error))
        return AT_FAULT


# --- the commands --------------------------------------------------------------------------------


def _make(asked: argparse.Namespace) -> None:
    from knotplot.output import json_text
    from knotplot.renderers.files import write_folder

    made = _built(asked)
    chart, cord = made.draw("chart"), made.draw("cord")  # first, since they may be refused
    files = {
        "sheet.pdf": made.sheet().pdf(),
        "chart.svg": chart.svg().encode(),
        "cord.svg": cord.svg().encode(),
        "figures.json": json_text(made.figures()).encode(),
    }
    for name in files:
        _spare_the_pattern(asked, Path(asked.output) / name)
    for place in write_folder(asked.output, files):
        say(str(place))


def _sheet(asked: argparse.Namespace) -> None:
    for option in OPTIONS:
        if getattr(asked, option.removeprefix("--").replace("-", "_")):
            raise Refusal(f"{option}: not built yet", f"leave {option} out")
    _check_ending(asked.output, ".pdf")
    _spare_the_pattern(asked, Path(asked.output))
    _built(asked, quote=asked.quote).sheet(asked.paper, asked.quote).pdf(asked.output)


def _draw(asked: argparse.Namespace) -> None:
    _check_ending(asked.output, ".svg", ".png")
    if asked.file is not None:
        _spare_the_pattern(asked, Path(asked.output))
    from knotplot.views import KNOT_VIEW, check_view

    options: dict[str, Any] = {
        name: value
        for name in arguments.VIEW_OPTIONS
        if (value := getattr(asked, name)) is not None and value is not False
    }
    check_view(asked.view, options)
    if asked.file is not None:
        drawn = _built(asked).draw(asked.view, ids=asked.ids, **options)
    elif asked.view.startswith(KNOT_VIEW) and not _changed(asked):
        drawn = _knot(asked.view.removeprefix(KNOT_VIEW), options, asked.ids)
    else:
        what = _changed(asked) or f"--view {asked.view}"
        raise UsageError(f"{what} needs a pattern: knotplot draw FILE --view {asked.view}")
    drawn.save(asked.output)
    _tell_resolution(drawn, asked.output)


def _changed(asked: argparse.Namespace) -> str | None:
    """Return the first option asked for that says something of a pattern, None without one."""
    said = (("--size", asked.size), ("--kits", asked.kits), ("--set", asked.sets))
    return next((option for option, value in said if value), None)


def _knot(name: str, options: dict[str, Any], ids: str) -> Picture:
    """Return how a knot is tied, or a way of working worked, without a pattern."""
    from knotplot.api import knot, technique
    from knotplot.techniques import techniques

    return (technique if name in techniques() else knot)(name, ids=ids, **options)


def _figures(asked: argparse.Namespace) -> None:
    from knotplot.output import json_text

    say(json_text(_built(asked, warn=False).figures(rows=asked.rows)))


def _quote(asked: argparse.Namespace) -> None:
    say(_built(asked, quote=True).quote_text())


def _words(asked: argparse.Namespace) -> None:
    say(_built(asked).words())


def _check(asked: argparse.Namespace) -> None:
    """Say that the pattern is good, in every size if none is asked for."""
    from knotplot.pattern.load import source_in
    from knotplot.units import both

    source = source_in(asked.file)  # once: a pipe gives its text once, and a file may change
    made = _made(_pattern(asked, source))
    pattern = made.pattern
    size = f"{both(pattern.width)} × {both(pattern.drop)}"
    lines = [f"{asked.file}: good", f"title: {pattern.title}", f"size: {size}", *_counts(made)]
    lines += [f"warning: {warning}" for warning in made.warnings]
    for name in () if asked.size else pattern.sizes:
        at_size = _made(_pattern(asked, source, name))
        lines.append(f"size {name}: good; {'; '.join(_counts(at_size))}")
        lines += [f"size {name}: warning: {text}" for text in at_size.warnings]
    for line in lines:
        say(one_line(line))


def _counts(made: WorkedPiece) -> list[str]:
    piece = made.layout.piece
    return [
        f"strands: {made.count.count}",
        f"rows: {len(piece.rows)}",
        f"knots: {sum(made.bill.knots.values())}",
    ]


def _schema(asked: argparse.Namespace) -> None:
    from knotplot.figure_types import figures_schema
    from knotplot.output import json_text
    from knotplot.pattern.schema import json_schema

    say(json_text(figures_schema() if asked.figures else json_schema()))


def _new(asked: argparse.Namespace) -> None:
    """Write a pattern to begin from, never over a file, and say what comes next."""
    from shlex import quote

    from knotplot.pattern.library import starter
    from knotplot.renderers.files import write_first

    write_first(asked.file, starter(asked.name).encode())
    file, sheet = quote(asked.file), quote(str(Path(asked.file).with_suffix(".pdf")))
    say(one_line(f"{asked.file}: written; now: knotplot sheet {file} -o {sheet}"))


def _explain(asked: argparse.Namespace) -> None:
    from knotplot.pattern.explain import explained

    try:
        say(explained(asked.name))
    except Refusal as refusal:
        raise UsageError(f"{shown(asked.name)}: {refusal}") from None


def _knots(asked: argparse.Namespace) -> None:
    """List the knots, all or those of a pattern; or draw the list, or write a sheet of them."""
    if asked.sheet is None and (asked.paper or asked.left_handed):
        option = "--paper" if asked.paper else "--left-handed"
        raise UsageError(f"{option}: only a knot sheet has it; write --sheet X.pdf too")
    if asked.output is not None:
        _check_ending(asked.output, ".svg", ".png")
    if asked.sheet is not None:
        _check_ending(asked.sheet, ".pdf", option="--sheet")
    for option, place in (("-o", asked.output), ("--sheet", asked.sheet)):
        if asked.file is not None and place is not None:
            _spare_the_pattern(asked, Path(place), option)
    made = None if asked.file is None else _built(asked)
    if asked.output is None and asked.sheet is None:
        _list_knots(made)
        return
    from knotplot.api import knot_list, knot_sheet
    from knotplot.renderers.files import write_together

    files: dict[str, bytes] = {}
    if asked.output is not None:
        drawn = knot_list() if made is None else made.knot_list()
        files[asked.output] = drawn.encoded(asked.output)
        _tell_resolution(drawn, asked.output)
    if asked.sheet is not None:
        paper, left = asked.paper or "a4", asked.left_handed
        taught = knot_sheet(paper, left) if made is None else made.knot_sheet(paper, left)
        files[asked.sheet] = taught.pdf()
    write_together(files)


def _list_knots(made: WorkedPiece | None) -> None:
    """Print a line for each knot there is, or that a piece has: what a knot sheet tells of it."""
    from knotplot.sheet.knot_list import knot_list

    told = knot_list(None if made is None else made.layout.piece)
    wide = max((len(name) for name, _ in told), default=0)
    for name, text in told:
        say(f"{name:<{wide}}  {text}")


# --- reading and building ------------------------------------------------------------------------


def _pattern(
    asked: argparse.Namespace, source: Source | None = None, size: str | None = None
) -> Pattern:
    """Read the pattern with what is laid over it; `--kits` is one more `--set`, the last."""
    from knotplot.pattern.load import read_as, source_in

    kits = f"kits={asked.kits}"
    sets = [*asked.sets, kits] if asked.kits is not None else asked.sets
    try:
        return read_as(source or source_in(asked.file), size or asked.size, sets)
    except PatternError as error:
        mine = f"--set {kits}"
        raise PatternError(
            replace(fault, origin="--kits") if fault.origin == mine else fault
            for fault in error.faults
        ) from None


def _made(pattern: Pattern) -> WorkedPiece:
    from knotplot.api import build

    return build(pattern)


def _built(asked: argparse.Namespace, warn: bool = True, quote: bool = False) -> WorkedPiece:
    """Build the pattern asked for; say its warnings on stderr, unless the command prints them.

    Where a `quote` is wanted and can't be made, that alone is said.
    """
    made = _made(_pattern(asked))
    if quote:
        made.quote()
    for warning in made.warnings if warn else ():
        tell(f"{asked.file}: warning: {warning}")
    return made


def _tell_resolution(picture: Picture, output: str) -> None:
    """Say on stderr where a picture is too large for the usual resolution of a PNG."""
    if Path(output).suffix.lower() == ".png":
        from knotplot.renderers.png import MOST_PIXELS, USUAL

        if picture.px_per_mm < USUAL:
            tell(
                f"{output}: {picture.px_per_mm:.4g} pixels a millimetre in place of {USUAL:g}, "
                f"since a picture has {MOST_PIXELS:,} at most; an .svg has every detail"
            )


def _check_ending(output: str, *endings: str, option: str = "-o") -> None:
    if Path(output).suffix.lower() not in endings:
        known = " or ".join(endings)
        raise UsageError(f"{option} {shown(output)}: use a name that ends in {known}")


def _spare_the_pattern(asked: argparse.Namespace, place: Path, option: str = "-o") -> None:
    """Refuse to write over the very file that is read."""
    try:
        same = place.samefile(asked.file)
    except (OSError, ValueError):
        return
    if same:
        where = shown(str(place))
        raise UsageError(f"{option} would write over the pattern {where}; name another place")


# --- words in and out ----------------------------------------------------------------------------


class _Parser(argparse.ArgumentParser):
    """argparse with its errors on one line."""

    def error(self, message: str) -> NoReturn:
        tell(f"{self.prog}: {message}; see {self.prog} --help")
        raise SystemExit(WRONG_USAGE)


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="knotplot", allow_abbrev=False,
        description="From a macramé pattern to cords, cut list, chart, words and a sheet.",
    )  # fmt: skip
    parser.add_argument("--version", action="version", version=f"knotplot {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)

    def command(name: str, run: Callable[..., None], what: str, file: bool = True) -> Any:
        made = commands.add_parser(name, help=what, description=what, allow_abbrev=False)
        made.set_defaults(run=run)
        if file:
            _add_file(made)
        return made

    new = command("new", _new, "Write a pattern to begin from, with comments.", file=False)
    new.add_argument("file", metavar="FILE", type=arguments.named, help="the file to write")
    new.add_argument(
        "--from", dest="name", metavar="NAME",
        help="a shipped pattern; without it, a small one with a comment at each key",
    )  # fmt: skip
    make = command("make", _make, "Write sheet.pdf, chart.svg, cord.svg and figures.json.")
    _add_output(make, "DIR", "the folder to write to, made if it isn't there")
    _add_sheet_options(command("sheet", _sheet, "Write the sheet to print."))
    draw = command("draw", _draw, "Draw one view of the piece, or a knot.", file=False)
    _add_draw_options(draw)
    figures = command("figures", _figures, "Print every number of the piece as JSON.")
    figures.add_argument("--rows", action="store_true", help="with every row and tie")
    command("quote", _quote, "Print what a commission costs: hours by knot, then line by line.")
    command("words", _words, "Print the instructions as plain text.")
    command("check", _check, "Say whether the pattern is good.")
    explain = command("explain", _explain, "Tell what may be written in a pattern.", file=False)
    explain.add_argument(
        "name", metavar="NAME", nargs="?", help="a name or path, as fringe or cord.diameter"
    )
    schema = command("schema", _schema, "Print the JSON Schema of pattern files.", file=False)
    schema.add_argument("--figures", action="store_true", help="that of what `figures` prints")
    knots = command("knots", _knots, "List the knots there are, or teach them.", file=False)
    _add_knots_options(knots)
    return parser


def _add_sheet_options(sheet: argparse.ArgumentParser) -> None:
    _add_output(sheet, "X.pdf", "the file to write")
    sheet.add_argument("--paper", choices=("a4", "letter"), default="a4", help="a4 unless said")
    for option, what in OPTIONS.items():
        sheet.add_argument(option, action="store_true", help=f"not built yet: {what}")
    sheet.add_argument(
        "--quote", action="store_true", help="with a quote for a customer as its last page"
    )


def _add_draw_options(draw: argparse.ArgumentParser) -> None:
    _add_file(draw, needed=False)
    arguments.add_view(draw)
    _add_output(draw, "X.svg", "the file to write, .svg or .png")


def _add_knots_options(knots: argparse.ArgumentParser) -> None:
    """Let a pattern be left out; then no size or override of one can be asked for."""
    knots.set_defaults(size=None, kits=None, sets=[])
    knots.add_argument("file", metavar="FILE", nargs="?", help="only the knots of this pattern")
    knots.add_argument(
        "-o", dest="output", metavar="X.svg", type=arguments.named,
        help="draw the list with chart marks, as .svg or .png",
    )  # fmt: skip
    knots.add_argument(
        "--sheet", metavar="X.pdf", type=arguments.named, help="write a sheet that teaches them"
    )
    knots.add_argument("--paper", choices=("a4", "letter"), help="of the sheet; a4 unless said")
    knots.add_argument("--left-handed", action="store_true", help="for the left hand, mirrored")


def _add_file(parser: argparse.ArgumentParser, needed: bool = True) -> None:
    count = None if needed else "?"
    parser.add_argument("file", metavar="FILE", nargs=count, help="the pattern, in YAML")
    parser.add_argument("--size", metavar="NAME", help="one of the pattern's named sizes")
    kits = next((f"; not built yet: {each.what}" for each in NOT_BUILT if each.key == "kits"), "")
    parser.add_argument(
        "--kits", metavar="N", type=arguments.kits, help=f"cut cord for so many pieces{kits}"
    )
    parser.add_argument(
        "--set", dest="sets", action="append", default=[], metavar="PATH=VALUE",
        help='lay a value over the pattern, as size.width="120 cm"; any number of times',
    )  # fmt: skip


def _add_output(parser: argparse.ArgumentParser, metavar: str, what: str) -> None:
    parser.add_argument(
        "-o", dest="output", metavar=metavar, required=True, type=arguments.named, help=what
    )
