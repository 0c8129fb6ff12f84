"""How a night is told while it runs: a bar on a terminal, a line a client elsewhere; and the signals that end it."""

from __future__ import annotations

import signal
import sys
from types import FrameType, TracebackType
from typing import TYPE_CHECKING, Any, Self

from soilrota.batch.values import Entry, Outcome
from soilrota.cli.log_lines import LogLines
from soilrota.cli.speech import say
from soilrota.problems import Severity

if TYPE_CHECKING:
    from tqdm import tqdm


class Teller:
    """Tells a night on standard error; as a context it also listens to SIGINT and SIGTERM.

    The first signal asks the night to end; the second ends the process as if nobody listened.
    """

    def __init__(self, log: LogLines | None = None) -> None:
        """Take a log to which every client is added as well; None for none."""
        self._log = log or LogLines(None)
        self._bar: tqdm[Any] | None = None
        self._signal: int | None = None
        self._before: dict[int, Any] = {}

    def __enter__(self) -> Self:
        """Listen to the signals."""
        self._before = {number: signal.signal(number, self._hear) for number in (signal.SIGINT, signal.SIGTERM)}
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the bar, and leave the signals as they were."""
        if self._bar is not None:
            self._bar.close()
        for number, handler in self._before.items():
            signal.signal(number, handler)

    def begin(self, clients: int) -> None:
        """Begin to tell of so many clients [-]."""
        self._log.add("begin", clients=clients)
        if sys.stderr.isatty():
            from tqdm import tqdm  # noqa: PLC0415 - loaded where there is a terminal

            self._bar = tqdm(total=clients, unit=" clients", file=sys.stderr, leave=False, dynamic_ncols=True)

    def done(self, entry: Entry) -> None:
        """Tell what became of a client."""
        errors = sum(problem.severity is Severity.ERROR for problem in entry.problems)
        self._log.add(
            "client",
            client=entry.client,
            outcome=entry.outcome,
            reason=entry.reason,
            errors=errors,
            took_s=round(entry.took_s, 3),
        )
        if self._bar is not None:
            self._bar.set_postfix_str(entry.client, refresh=False)
            self._bar.update()
        else:
            say(line_of(entry), sys.stderr)

    def asked_to_end(self) -> int | None:
        """Return the number of the signal that asks the night to end; None while there is none."""
        return self._signal

    def _hear(self, number: int, _frame: FrameType | None) -> None:
        """Note a signal, and let the next of its kind do what it does by default."""
        self._signal = number
        signal.signal(number, signal.SIG_DFL)


def line_of(entry: Entry) -> str:
    """Return what became of a client on one line."""
    took = f" ({entry.took_s:.1f} s)" if entry.outcome is Outcome.MADE else ""
    return f"{entry.client}: {entry.outcome}{took}" + (f", {entry.reason}" if entry.reason else "")
