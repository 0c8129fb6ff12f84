"""`soilrota sign`: the named adviser signs a client's report, or the signatures are listed."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from typing import Any

from soilrota.batch.signing_off import SignRequest, list_signatures, propose_signature, write_signature
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.speech import complain, say
from soilrota.cli.today import today


def sign(chosen: Any) -> int:
    """Sign or list what the arguments ask for, and return the exit code."""
    return _list(chosen) if chosen.list else _sign(chosen)


def _sign(chosen: Any) -> int:
    """Show what is to be signed, ask where somebody sits at a terminal, and sign it."""
    request = SignRequest(
        root=chosen.book,
        client=chosen.client,
        person=chosen.person,
        as_of=chosen.as_of,
        started=datetime.now(UTC).isoformat(timespec="seconds"),
    )
    proposal = propose_signature(request, today)
    for line in proposal.lines:
        say(line)
    if proposal.state.is_signed:
        say("Nothing was written: this is signed already")
        return ExitCode.GOOD
    if sys.stdin.isatty() and not chosen.yes and not _agreed(proposal.signature.name):
        complain("nothing was signed")
        return ExitCode.NOTHING_DONE
    say(write_signature(request, proposal))
    return ExitCode.GOOD


def _agreed(name: str) -> bool:
    """Ask the person at the terminal whether to sign."""
    sys.stderr.write(f"Sign this as {name}? Type yes: ")
    sys.stderr.flush()
    return sys.stdin.readline().strip().casefold() in {"y", "yes"}


def _list(chosen: Any) -> int:
    """Print the signatures of a client's report, the latest first, and whether the last one stands."""
    listing = list_signatures(chosen.book, chosen.client)
    for line in listing.lines:
        say(line)
    return ExitCode.GOOD if listing.is_signed else ExitCode.SOME_PROBLEMS
