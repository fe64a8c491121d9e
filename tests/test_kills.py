"""Runs that are killed at many instants: old files or new ones, whole, and nothing left behind.

A child writes sets of files without end, as `make` does, and is stopped at an instant that differs
from round to round; the seconds are bounded, the rounds are as many as fit.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from cli_sample import FILES, GOOD

from knotplot.renderers.files import write_folder

SECONDS = 3.0  # for each signal
LEAST_ROUNDS = 30
LETTERS = "abcd"

# Writes the sets 1, 2, … into a folder, and says when it begins. Half of the children don't wait
# for the disk, which takes nearly all of the time, so that more of them are met between two names.
CHILD = """
import os, sys
from knotplot.interrupts import end_at_once
from knotplot.renderers.files import write_folder
end_at_once()
for line in sys.stdin:
    child = os.fork()
    if child == 0:
        folder, quick, begin = line.split()
        if quick == "1":
            os.fsync = lambda file: None
        print(os.getpid(), flush=True)
        number = int(begin)
        while True:
            write_folder(folder, {name: (name + str(number)).encode() * 3000 for name in "abcd"})
            number += 1
    print(os.waitpid(child, 0)[1], flush=True)
"""


def names(folder: Path) -> list[str]:
    return sorted(place.name for place in folder.iterdir())


def sets_of(folder: Path) -> list[str]:
    """Return of which set each file is; a file that isn't whole, or not there, is a failure."""
    found = []
    for name in LETTERS:
        text = (folder / name).read_text()
        number = text[1 : len(text) // 3000]
        assert text == f"{name}{number}" * 3000
        found.append(number)
    return found


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGKILL])
def test_a_run_killed_at_any_instant_leaves_whole_files(tmp_path, number):
    draw = random.Random(int(number))
    write_folder(tmp_path, {name: (name + "0").encode() * 3000 for name in LETTERS})
    rounds = mixed = begin = 0
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "text": True}
    with subprocess.Popen([sys.executable, "-c", CHILD], **pipes) as host:
        until = time.monotonic() + SECONDS
        while time.monotonic() < until or rounds < LEAST_ROUNDS:
            begin += 1000
            host.stdin.write(f"{tmp_path} {rounds % 2} {begin}\n")
            host.stdin.flush()
            child = int(host.stdout.readline())
            time.sleep(draw.uniform(0.0, 0.02))
            os.kill(child, number)
            assert int(host.stdout.readline()) == number  # ended by the signal
            rounds += 1
            if len(set(sets_of(tmp_path))) > 1:
                assert number == signal.SIGKILL
                mixed += 1
                write_folder(tmp_path, {name: (name + "0").encode() * 3000 for name in LETTERS})
            if number != signal.SIGKILL:
                assert names(tmp_path) == [*LETTERS]
        host.stdin.close()
    assert mixed <= rounds // 3  # names change quickly, also on a busy machine
    write_folder(tmp_path, {"a": b"a"})
    assert names(tmp_path) == [*LETTERS]  # what the killed ones left is gone


def test_make_stopped_at_any_instant_is_quiet_and_leaves_one_set(tmp_path):
    pattern, out = tmp_path / "mat.yaml", tmp_path / "out"
    make = [sys.executable, "-m", "knotplot", "make", str(pattern), "-o", str(out)]
    sets = []
    for rows in (5, 4):
        pattern.write_text(GOOD.replace("rows: 4}", f"rows: {rows}}}"))
        began = time.monotonic()
        subprocess.run(make, check=True, capture_output=True)
        took = time.monotonic() - began
        sets.append({name: (out / name).read_bytes() for name in FILES})
    new, old = sets
    pattern.write_text(GOOD.replace("rows: 4}", "rows: 5}"))
    draw = random.Random(1)
    rounds, until = 0, time.monotonic() + SECONDS
    while time.monotonic() < until or rounds < 4:
        number = (signal.SIGINT, signal.SIGTERM)[rounds % 2]
        with subprocess.Popen(make, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
            time.sleep(draw.uniform(0.2, 1.1) * took)
            running.send_signal(number)
            _, said = running.communicate()
        assert running.returncode in (0, -number)
        assert said == b""
        assert names(out) == FILES
        assert {name: (out / name).read_bytes() for name in FILES} in (old, new)
        for name, data in old.items():
            (out / name).write_bytes(data)
        rounds += 1
