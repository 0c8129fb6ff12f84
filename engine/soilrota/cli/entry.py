"""From arguments to a command, and from what it met to words and an exit code. No traceback reaches a user."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

from soilrota.batch.faults import AnotherRunError, CannotStartError
from soilrota.cli.arguments import parser
from soilrota.cli.exit_codes import SIGNALLED, TRACEBACK, ExitCode
from soilrota.cli.speech import complain, say_problems

_SIGINT = 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command and return its exit code.

    Args:
        arguments: the words after `soilrota`; None for those of the process.
    """
    chosen = parser().parse_args(arguments)
    try:
        code = _run(chosen.command, chosen)
        sys.stdout.flush()
    except CannotStartError as fault:
        say_problems(fault.problems, sys.stderr)
        complain(str(fault))
        return ExitCode.NOTHING_DONE
    except AnotherRunError as fault:
        complain(str(fault))
        return ExitCode.ANOTHER_RUN
    except KeyboardInterrupt:
        complain("interrupted")
        return SIGNALLED + _SIGINT
    except BrokenPipeError:
        # Whoever read our output went away; what is left in the buffer must not complain at exit (Python's own advice).
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return ExitCode.SOME_PROBLEMS
    except Exception as fault:  # noqa: BLE001 - the last place before the user
        return _unexpected(fault)
    return code


def _run(command: str, chosen: object) -> int:
    """Run the chosen command; each is loaded only when it is."""
    if command == "overnight":
        from soilrota.cli.still import still  # noqa: PLC0415 - as said above

        ended = still(chosen)
        if ended is not None:
            return ended
        from soilrota.cli.overnight import overnight  # noqa: PLC0415 - as said above

        return overnight(chosen)
    if command == "intake":
        from soilrota.cli.intake import intake  # noqa: PLC0415 - as said above

        return intake(chosen)
    if command == "check":
        from soilrota.cli.check import check  # noqa: PLC0415 - as said above

        return check(chosen)
    if command == "explain":
        from soilrota.cli.explain import explain  # noqa: PLC0415 - as said above

        return explain(chosen)
    if command == "sign":
        from soilrota.cli.sign import sign  # noqa: PLC0415 - as said above

        return sign(chosen)
    if command == "send":
        from soilrota.cli.send import send  # noqa: PLC0415 - as said above

        return send(chosen)
    if command == "report":
        from soilrota.cli.report import report  # noqa: PLC0415 - as said above

        return report(chosen)
    if command == "learn-laboratory":
        from soilrota.cli.learn_laboratory import learn_laboratory  # noqa: PLC0415 - as said above

        return learn_laboratory(chosen)
    from soilrota.cli.new import new  # noqa: PLC0415 - as said above

    return new(chosen)


def _unexpected(fault: Exception) -> int:
    """Say a fault of the program on one line, or whole where the environment asks for it."""
    import traceback  # noqa: PLC0415 - loaded where there is a fault

    if os.environ.get(TRACEBACK):
        traceback.print_exception(fault)
    words = " ".join(traceback.format_exception_only(fault)[-1].split())
    complain(f"a fault of the program or the machine: {words}\nSet {TRACEBACK}=1 to see where.")
    return ExitCode.NOTHING_DONE
