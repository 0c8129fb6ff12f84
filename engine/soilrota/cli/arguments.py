"""What may be asked on the command line, and the help for it."""

from __future__ import annotations

import argparse
from datetime import date
from pathlib import Path
from typing import NoReturn

from soilrota import __version__

_EXITS = """\
Exit codes: 0 all is well, 1 some clients have problems or failed, 2 nothing could be begun,
3 another night is at work on the same book, 130 or 143 ended by a signal.
"""
_OVERNIGHT = """\
Work through every client of a book: read and check its files, find each zone's next sampling
window, and write its documents where their content changed. A client with problems or a fault
keeps its earlier documents and stops no other. OUT also gets season.csv, with every task of
every client, and run.json, with how the night went. OUT may be deleted at any time: the next
night makes the same files again.
"""
_INTAKE = """\
Take in the laboratory files of the book's inbox alone, without making documents: each row becomes
accepted results of the right zone, or is set aside with a reason. A file leaves the inbox when its
results are safely on disk; the same file again changes nothing. Rows that wait are tried again
whenever the book changes; mended in the table under records/set_aside/, they can be dropped into
the inbox. The report is printed and written to OUT/intake.txt.
"""
_CHECK = """\
Print every problem of a book, one a line as file:line:column, and make nothing. Each PATH is a
book's folder, or a file of a book: then only its client is checked, or every client where the
file belongs to all. This is what the pre-commit hook runs.
"""
_EXPLAIN = """\
Print why each window of a zone is what it is: the reasons in the order in which they decided, each
with the file and line that it comes from, and what would change the answer. With SUBJECT, print
what its last results mean and why: the result, how sure it is, the row of the guideline and its
source, what was reckoned from it, and how it moved over the years. Where SUBJECT is an input that
advice is of, print what is advised as well: every step with its figures and source, maxima, range,
products, and what spreading them does to sampling. Nothing is written.
"""
_SIGN = """\
Sign the report for a client: its adviser, whose qualification stands in practice.yaml, puts a name
under the digest of inputs, guideline and results, and from then on the report is no draft. Any
change afterwards makes it a draft again; --list says what changed. The record under
records/signatures/ says who signed what on which day, and is no proof of identity.
"""
_SEND = """\
Send the messages that wait in the book's outbox, each once. Where practice.yaml names no mail server,
nothing leaves this machine: messages lie as files under records/outbox. A message of which nobody knows
whether it went (the machine or the line failed at its last byte) is listed, and sent again only if
you say so; the copy carries the same Message-ID, by which most mail programs show one of the two.
"""
_REPORT = """\
Make the farm reports of a client at once, one PDF a farm, whether or not results are still awaited:
what is missing is said in them. A report that the client's adviser has not signed is a draft and is
written below OUT/drafts/CLIENT, a signed one below OUT/clients/CLIENT. A night makes the same files
by itself when the results of a visit are complete.
"""
_NEW = """\
Write the first file of a client, with marked blanks to fill in; where BOOK does not exist or is
empty, the files of a new practice as well. Nothing that exists is ever touched. `soilrota check`
lists the blanks that are left.
"""
_LEARN = """\
Print a first draft of a laboratory's file for the book, made from one of its files of results (CSV or
XLSX): what is certain is written, what is not is a marked blank. Nothing is written to any file.
"""


class _Parser(argparse.ArgumentParser):
    """A parser that names the nearest command when a word is none."""

    commands: tuple[str, ...] = ()

    def error(self, message: str) -> NoReturn:
        """Say what is wrong with the arguments, and what was probably meant; exit with 2."""
        if message.startswith("argument COMMAND: invalid choice: "):
            word = message.split("'")[1]
            from difflib import get_close_matches  # noqa: PLC0415 - loaded where a word is no command

            nearest = get_close_matches(word, self.commands, n=1)
            hint = f"did you mean {nearest[0]}?" if nearest else f"choose one of {', '.join(self.commands)}"
            message = f"there is no command {word}; {hint}"
        self.exit(2, f"soilrota: {message}\nTry: {self.prog} --help\n")


def parser() -> argparse.ArgumentParser:
    """Return the parser of the whole command line; the chosen command is `command`."""
    top = _Parser(
        prog="soilrota",
        description="Plan the soil sampling of many client farms from a book of plain files.",
        epilog=_EXITS,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"soilrota {__version__}", help="print the version")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", required=True)
    _add_overnight(_command(commands, "overnight", "work through every client and write their documents", _OVERNIGHT))
    _add_intake(_command(commands, "intake", "take in laboratory results from the inbox", _INTAKE))
    _add_check(_command(commands, "check", "print every problem of a book", _CHECK))
    _add_explain(_command(commands, "explain", "say why a window, judgement or advice is what it is", _EXPLAIN))
    _add_sign(_command(commands, "sign", "sign the report for a client, or list its signatures", _SIGN))
    _add_send(_command(commands, "send", "send the messages that wait, or show them", _SEND))
    _add_report(_command(commands, "report", "make the farm reports of a client at once", _REPORT))
    _add_new(_command(commands, "new", "begin the files of a client, or of a book", _NEW))
    learn = "draft a laboratory's file from a file of its results"
    _add_learn(_command(commands, "learn-laboratory", learn, _LEARN))
    top.commands = tuple(commands.choices)
    return top


def _command(commands: argparse._SubParsersAction[_Parser], name: str, brief: str, text: str) -> _Parser:
    """Add a command with its help."""
    return commands.add_parser(name, help=brief, description=text, formatter_class=argparse.RawDescriptionHelpFormatter)


def _add_overnight(command: _Parser) -> None:
    """Add the arguments of `overnight`; the usage shows BOOK first, because `--only` takes all words that follow it."""
    command.usage = "soilrota overnight BOOK --out DIR [--as-of DATE] [--only CLIENT ...] [--jobs N] [--log FILE]"
    command.add_argument("book", metavar="BOOK", type=Path, help="the book's folder")
    command.add_argument("--out", metavar="DIR", type=Path, required=True, help="folder for what is made")
    _add_as_of(command, "work")
    command.add_argument(
        "--only", metavar="CLIENT", nargs="+", action="extend", default=[], help="work on these clients alone"
    )
    command.add_argument("--jobs", metavar="N", type=_count, help="clients at once (default: the cores of the machine)")
    command.add_argument("--log", metavar="FILE", type=Path, help="add a line of JSON to this file for every event")
    command.epilog = f"Example: soilrota overnight example_clients --out out --as-of 2027-02-15\n\n{_EXITS}"


def _add_intake(command: _Parser) -> None:
    """Add the arguments of `intake`."""
    command.usage = "soilrota intake BOOK --out DIR [--as-of DATE] [--jobs N]"
    command.add_argument("book", metavar="BOOK", type=Path, help="the book's folder")
    command.add_argument("--out", metavar="DIR", type=Path, required=True, help="folder for the report")
    _add_as_of(command, "take in")
    command.add_argument("--jobs", metavar="N", type=_count, help="files at once (default: the cores of the machine)")
    command.epilog = (
        "Example: soilrota intake example_clients --out out --as-of 2027-02-15\n\n"
        "Exit codes: 0 all taken in, 1 rows or files wait for somebody, 2 nothing could be begun,\n"
        "3 another night is at work on the same book, 130 or 143 ended by a signal.\n"
    )


def _add_as_of(command: _Parser, what: str) -> None:
    """Add the argument of the as-of date."""
    command.add_argument(
        "--as-of",
        metavar="DATE",
        type=_day,
        help=f"{what} as on this day, ISO (default: today in the practice's time zone)",
    )


def _add_check(command: _Parser) -> None:
    """Add the arguments of `check`."""
    command.usage = "soilrota check PATH [PATH ...] [--only CLIENT ...] [--json]"
    command.add_argument("paths", metavar="PATH", type=Path, nargs="+", help="a book's folder, or a file of a book")
    command.add_argument("--only", metavar="CLIENT", nargs="+", action="extend", default=[], help="check these alone")
    command.add_argument("--json", action="store_true", help="print the problems as one JSON list")
    command.epilog = (
        "Example: soilrota check example_clients --only anvil-creek\n\n"
        "Exit codes: 0 no errors, 1 errors, 2 nothing to check.\n"
    )


def _add_explain(command: _Parser) -> None:
    """Add the arguments of `explain`."""
    command.add_argument("book", metavar="BOOK", type=Path, help="the book's folder")
    command.add_argument("client", metavar="CLIENT", help="id of the client")
    command.add_argument("zone", metavar="ZONE", help="id of the zone, or farm/zone")
    command.add_argument(
        "subject",
        metavar="SUBJECT",
        nargs="?",
        default="",
        help="an analysis or quantity, for instance ph.cacl2 or sodium-share, or an input that advice is of: nitrogen, "
        "phosphorus, potassium, sulphur, magnesium, lime or gypsum",
    )
    _add_as_of(command, "explain")
    command.epilog = (
        "Examples: soilrota explain example_clients anvil-creek barn --as-of 2027-02-15\n"
        "          soilrota explain example_clients anvil-creek barn phosphorus\n"
        "          soilrota explain example_clients anvil-creek ridge lime --as-of 2027-02-15\n"
    )


def _add_sign(command: _Parser) -> None:
    """Add the arguments of `sign`."""
    command.add_argument("book", metavar="BOOK", type=Path, help="the book's folder")
    command.add_argument("client", metavar="CLIENT", help="id of the client")
    command.add_argument(
        "--as", metavar="ADVISER", dest="person", default="", help="id of who signs (default: the client's adviser)"
    )
    _add_as_of(command, "sign")
    command.add_argument("--yes", action="store_true", help="sign without being asked at a terminal")
    command.add_argument("--list", action="store_true", help="list the signatures, and say whether the last one stands")
    command.epilog = (
        "Example: soilrota sign example_clients anvil-creek --as mara-ellis --as-of 2027-03-15\n\n"
        "Exit codes: 0 signed, 1 with --list: a draft, 2 nothing was signed,\n"
        "3 another night is at work on the same book.\n"
    )


def _add_send(command: _Parser) -> None:
    """Add the arguments of `send`."""
    command.usage = "soilrota send BOOK [--dry-run] [--again ID] [--arrived ID]"
    command.add_argument("book", metavar="BOOK", type=Path, help="the book's folder")
    command.add_argument("--dry-run", action="store_true", help="print what would be sent, and send nothing")
    again = "send this message again, although it went or may have gone; may be repeated"
    command.add_argument("--again", metavar="ID", action="append", default=[], help=again)
    arrived = "this unsure message has arrived; may be repeated"
    command.add_argument("--arrived", metavar="ID", action="append", default=[], help=arrived)
    command.epilog = (
        "Example: soilrota send example_clients --dry-run\n\n"
        "Exit codes: 0 all sent, or waiting because the book wants it, 1 messages were refused, put off,\n"
        "given up, held back or are unsure, 2 nothing could be begun, 3 another night is at work on the\n"
        "same book, 130 or 143 ended by a signal.\n"
    )


def _add_report(command: _Parser) -> None:
    """Add the arguments of `report`."""
    command.add_argument("book", metavar="BOOK", type=Path, help="the book's folder")
    command.add_argument("client", metavar="CLIENT", help="id of the client")
    command.add_argument("--out", metavar="DIR", type=Path, required=True, help="folder for what is made")
    command.add_argument("--farm", metavar="FARM", default="", help="id of one farm (default: all that have results)")
    _add_as_of(command, "report")
    command.epilog = (
        "Example: soilrota report example_clients anvil-creek --out out --farm home --as-of 2027-02-15\n\n"
        "Exit codes: 0 the reports were written, 2 nothing was written.\n"
    )


def _add_new(command: _Parser) -> None:
    """Add the arguments of `new`."""
    command.add_argument("book", metavar="BOOK", type=Path, help="the book's folder; made where it does not exist")
    command.add_argument("client", metavar="CLIENT", help="id of the client: lower-case words joined by hyphens")
    command.epilog = "Example: soilrota new my-book anvil-creek && soilrota check my-book\n"


def _add_learn(command: _Parser) -> None:
    """Add the arguments of `learn-laboratory`."""
    command.add_argument("file", metavar="FILE", type=Path, help="a file of results as the laboratory sends it")
    command.epilog = (
        "Example: soilrota learn-laboratory results.csv > my-book/laboratories/north-bench.yaml\n\n"
        "Exit codes: 0 a draft was printed, 1 the file cannot be read as a table.\n"
    )


def _day(text: str) -> date:
    """Return a day from ISO text."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text} is not a day; write it as in 2027-02-15") from None


def _count(text: str) -> int:
    """Return a number of at least 1."""
    if not text.isascii() or not text.isdecimal() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"{text} is not a number of at least 1")
    return int(text)
