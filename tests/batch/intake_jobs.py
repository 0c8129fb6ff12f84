"""Jobs that look at a laboratory file in tests: quick ones that do what the file's own text says."""

from __future__ import annotations

from dataclasses import replace

from soilrota.batch.intake_values import IntakeAnswer, IntakeOrder, ResultsFile
from soilrota.batch.received import received_file
from soilrota.model.intake import SetAsideRow
from soilrota.problems import Place, error

SIMPLE = f"{__name__}:simple"
REASON = error("bag-unknown", Place("inbox/file", 1), "an unknown bag", "", "mend it")


def simple(order: IntakeOrder) -> IntakeAnswer:
    """Answer line by line: `wait` waits, `mends <name>` is accepted for a row, another word is added to a client.

    What is added to a client is its word behind everything that its file of results holds already.
    """
    lines = received_file(order.root, order.client).read_text(encoding="utf-8").splitlines()
    if "fault" in lines:
        raise RuntimeError("a line says so")
    if "refuse" in lines:
        return IntakeAnswer(order.client, refused=(replace(REASON, code="not-a-table"),))
    wanted = [number for number in range(1, len(lines) + 1) if order.only is None or number in order.only]
    said = {number: lines[number - 1] for number in wanted}
    waiting = tuple(SetAsideRow(number, "", (word,), (REASON,)) for number, word in said.items() if word == "wait")
    origins = {number: word.removeprefix("mends ") for number, word in said.items() if word.startswith("mends ")}
    clients = sorted({word for word in said.values() if word.endswith("-farm")})
    return IntakeAnswer(
        client=order.client,
        laboratory="bench",
        rows=len(said),
        accepted=tuple(number for number, word in said.items() if word != "wait"),
        origins=origins,
        waiting=waiting,
        files=tuple(ResultsFile(client, "all.csv", _added(order, client)) for client in clients),
        table=_table(order, waiting),
    )


def _added(order: IntakeOrder, client: str) -> bytes:
    """Return what a client's file of results holds, and the name of this file."""
    path = order.root / "records" / "results" / client / "all.csv"
    return (path.read_bytes() if path.exists() else b"") + f"{order.name}\n".encode()


def _table(order: IntakeOrder, waiting: tuple[SetAsideRow, ...]) -> bytes | None:
    """Return the table of the rows that wait."""
    rows = [f"{order.client[:12]}:{row.number},because,x" for row in waiting]
    return "\n".join(["set aside as,because,Bag", *rows, ""]).encode() if rows else None
