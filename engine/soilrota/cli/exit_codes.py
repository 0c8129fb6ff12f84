"""How a command ended, for scripts; and how those who mend the program ask for more."""

from __future__ import annotations

from enum import IntEnum


class ExitCode(IntEnum):
    """Exit codes; a command that a signal ended early returns 128 and the number of the signal."""

    GOOD = 0
    SOME_PROBLEMS = 1
    NOTHING_DONE = 2
    ANOTHER_RUN = 3


#: Added to the number of the signal that ended a command (POSIX shells).
SIGNALLED = 128

#: Set to anything but an empty text, this variable of the environment asks for tracebacks.
TRACEBACK = "SOILROTA_TRACEBACK"
