"""What all tests share: hypothesis draws the same examples on every run, and commands are run."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from cli_sample import GOOD
from hypothesis import HealthCheck, Phase, settings

from knotplot.cli import main

sys.path.insert(0, str(Path(__file__).parent))  # `strategies` for all folders of tests

settings.register_profile(
    "ci",
    derandomize=True,
    deadline=None,
    max_examples=30,
    # No shrinking: a failing run must not take minutes; shrink by hand with another profile.
    phases=(Phase.explicit, Phase.generate),
    database=None,
    suppress_health_check=[HealthCheck.too_slow],
)
# Before a release: pytest --hypothesis-profile=deep
settings.register_profile("deep", settings.get_profile("ci"), max_examples=300)
settings.register_profile("dev", settings.get_profile("ci"), phases=tuple(Phase))
settings.load_profile("ci")


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]):
    """Return a function that runs a command: exit code, stdout, lines of stderr."""

    def run(*argv: str) -> tuple[int, str, list[str]]:
        code = main(argv)
        said = capsys.readouterr()
        assert "Traceback" not in said.err
        return code, said.out, said.err.splitlines()

    return run


@pytest.fixture
def pattern(tmp_path: Path) -> str:
    """Return the place of a small pattern, for the tests of the commands."""
    file = tmp_path / "mat.yaml"
    file.write_text(GOOD)
    return str(file)
