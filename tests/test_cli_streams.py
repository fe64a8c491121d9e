"""Faults of our own, interruptions, standard streams, and the command as a module."""

from __future__ import annotations

import io
import os
import subprocess
import sys

from cli_sample import changed

from knotplot.cli import main


def test_an_error_of_our_own_is_one_line_that_asks_for_a_report(run, pattern, monkeypatch):
    def broken(_: object) -> None:
        raise KeyError("lane\n7")

    monkeypatch.setattr("knotplot.cli._made", broken)
    code, printed, errors = run("figures", pattern)
    assert (code, printed, len(errors)) == (1, "", 1)
    assert "KeyError" in errors[0]
    assert "test_cli_streams.py, line " in errors[0]
    assert errors[0].endswith("please report it, with the pattern")


def test_an_interruption_is_quiet(run, pattern, monkeypatch):
    def stopped(_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("knotplot.cli._made", stopped)
    assert run("figures", pattern) == (130, "", [])


def test_a_full_stdout_is_told(capsys, pattern, monkeypatch):
    class Full(io.StringIO):
        def write(self, _: str) -> int:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(sys, "stdout", Full())
    assert main(["figures", pattern]) == 1
    assert capsys.readouterr().err == (
        "standard output: no space left on device; send it elsewhere\n"
    )


def module(*argv: str, **more: object) -> subprocess.Popen[bytes]:
    """Start `python -m knotplot` with those arguments."""
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    return subprocess.Popen([sys.executable, "-m", "knotplot", *argv], **{**pipes, **more})


def test_a_reader_that_goes_away_is_no_fault():
    reading, writing = os.pipe()
    os.close(reading)
    running = module("schema", stdout=writing)
    os.close(writing)
    assert (running.communicate()[1], running.returncode) == (b"", 0)


def test_what_is_printed_is_utf_8_wherever_it_runs(tmp_path):
    file = tmp_path / "café.yaml"
    file.write_text(changed("Harbour", "Café ◆ Harbour"), "utf-8")
    plain = {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0"}
    running = module("check", str(file), env={**os.environ, **plain})
    said, errors = running.communicate()
    assert (running.returncode, errors) == (0, b"")
    assert "title: Café ◆ Harbour" in said.decode("utf-8")


def test_python_dash_m_answers_with_the_exit_code(tmp_path):
    running = module("check", str(tmp_path / "none.yaml"))
    said, errors = running.communicate()
    assert (running.returncode, said) == (1, b"")
    assert errors.decode().count("\n") == 1
    assert b"can't be read: no such file or directory; give a pattern's file" in errors
