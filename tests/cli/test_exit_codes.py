"""Exit codes are a promise to scripts."""

from __future__ import annotations

from soilrota.cli.exit_codes import SIGNALLED, ExitCode


def test_the_codes_stay_as_they_are_documented() -> None:
    """0 good, 1 some problems, 2 nothing done, 3 another run; signals above 128."""
    assert [int(code) for code in ExitCode] == [0, 1, 2, 3]
    assert (SIGNALLED + 2, SIGNALLED + 15) == (130, 143)
