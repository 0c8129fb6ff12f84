"""`soilrota learn-laboratory`: a first draft of a laboratory's file, on standard output."""

from __future__ import annotations

import sys
from typing import Any

from soilrota.batch.learning import learn
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.speech import complain, say, say_problems


def learn_laboratory(chosen: Any) -> int:
    """Print the draft that the arguments ask for, what is wrong on standard error, and return the exit code."""
    draft, problems = learn(chosen.file)
    say_problems(problems, sys.stderr)
    if draft is None:
        return ExitCode.SOME_PROBLEMS
    say(draft.rstrip("\n"))
    complain("fill in the blanks, marked __FILL__, and put the file into the book's folder laboratories")
    return ExitCode.GOOD
