"""Give knotplot patterns nobody would write, and see that each is made or refused in plain words.

    python tests/fuzz/run.py [--cases N] [--seed S] [--from I] [--kind tree|bytes|set|valid]

Case I of a seed is the same on every run and machine, so that runs add up: `--from 2000` goes on
where the first 2,000 ended. Prints what ought not to be, each kind of find once, with the smallest
pattern that shows it; exits 1 if there is any.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from fuzz.bases import bases  # noqa: E402  # found on the path above
from fuzz.case import Case, examine  # noqa: E402
from fuzz.change import assignments, changed_bytes, changed_tree, parsed  # noqa: E402
from fuzz.shrink import shrunk  # noqa: E402
from fuzz.valid import valid  # noqa: E402

KINDS = ("tree", "bytes", "set", "valid")
TURNS = ("tree", "bytes", "set", "tree", "bytes", "tree", "valid", "set", "bytes", "tree")
DRAWN = 50  # every fiftieth is drawn and printed too
COMMANDS = (
    ("check",), ("figures",), ("figures", "--rows"), ("words",), ("quote",), ("make", "-o", "OUT"),
    ("sheet", "-o", "OUT.pdf"), ("draw", "--view", "chart", "-o", "OUT.svg"),
    ("check", "--kits", "2"),
)  # fmt: skip


def case_of(index: int, seed: int, kind: str | None = None) -> tuple[str, Case]:
    """Return the kind of a case and the case, the same for the same numbers."""
    kind = kind or TURNS[index % len(TURNS)]
    rng = random.Random(f"{seed} {index} {kind}")
    drawn = index % DRAWN == 0
    if kind == "tree":
        return kind, Case(changed_tree(rng).encode("utf-8", "surrogatepass"), drawn=drawn)
    if kind == "bytes":
        return kind, Case(changed_bytes(rng), drawn=drawn)
    if kind == "valid":
        return kind, Case(valid(rng).encode(), drawn=drawn)
    text = rng.choice(bases())
    sizes = [*(parsed(text).get("sizes") or ()), "gone", "tal"]
    size = rng.choice(sizes) if rng.random() < 0.3 else None
    sets = tuple(assignments(rng, text)) if size is None or rng.random() < 0.5 else ()
    command = rng.choice(COMMANDS) if rng.random() < 0.15 else ()
    return kind, Case(text.encode(), size, sets, command, drawn)


def told(case: Case) -> str:
    """Return a case as it can be tried by hand."""
    words = [*case.command] if case.command else ["(library)"]
    words += [f"--size {case.size!r}"] if case.size is not None else []
    words += [f"--set {assignment!r}" for assignment in case.sets]
    try:
        text = case.data.decode()
    except UnicodeDecodeError:
        text = repr(case.data)
    return f"  {' '.join(words)}{', drawn' if case.drawn else ''}\n" + "".join(
        f"  | {line}\n" for line in text.splitlines()
    )


def run(first: int, cases: int, seed: int, kind: str | None, shrink: bool) -> int:
    """Run the cases and print what was found; return how many cases were wrong."""
    verdicts: Counter[str] = Counter()
    finds: Counter[str] = Counter()
    begin = time.process_time()
    for index in range(first, first + cases):
        made, case = case_of(index, seed, kind)
        outcome = examine(case)
        verdicts[f"{made} {outcome.verdict}"] += 1
        for what, details in outcome.finds:
            finds[what] += 1
            if finds[what] == 1:
                print(f"== {what}\n  --kind {made} --seed {seed} --from {index} --cases 1")
                print("".join(f"  {line}\n" for line in details[:2000].splitlines()), end="")
                print(told(shrunk(case, what) if shrink else case), flush=True)
    print(", ".join(f"{n} {verdict}" for verdict, n in sorted(verdicts.items())))
    for what, n in finds.most_common():
        print(f"found {n} times: {what}")
    print(f"{cases} cases, {finds.total()} finds, {time.process_time() - begin:.0f} s of CPU")
    return finds.total()


def main(argv: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--cases", type=int, default=2000, help="how many")
    parser.add_argument("--seed", type=int, default=1, help="which ones")
    parser.add_argument("--from", type=int, default=0, dest="first", help="number of the first")
    parser.add_argument("--kind", choices=KINDS, help="of one kind only")
    parser.add_argument(
        "--whole", action="store_true", help="print finds without making them small"
    )
    asked = parser.parse_args(argv)
    return 1 if run(asked.first, asked.cases, asked.seed, asked.kind, not asked.whole) else 0


if __name__ == "__main__":
    sys.exit(main())
