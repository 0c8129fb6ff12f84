"""Jobs that a worker runs in tests: quick ones, and ones that go wrong in the ways that jobs can."""

from __future__ import annotations

import os
import signal
import time
from datetime import timedelta
from hashlib import sha256
from pathlib import Path

from soilrota.batch.fingerprints import client_digest, same_file, shared_digest
from soilrota.batch.outputs import PROGRAMME, document_file
from soilrota.batch.values import Answer, DocumentAnswer, KnownDocument, Order
from soilrota.model.issued import IssuedPoint

QUICK = f"{__name__}:quick"
POISON = f"{__name__}:poison"
RECOVERS = f"{__name__}:recovers"
SLOW = f"{__name__}:slow"
PAPERS = f"{__name__}:papers"


class UnpicklableError(Exception):
    """An exception that cannot travel between processes."""

    def __init__(self) -> None:
        super().__init__("carries a function")
        self.carried = lambda: None


def quick(order: Order) -> Answer:
    """Answer with a document that holds the client's file and its date; nothing is set in type."""
    text = (order.root / "clients" / order.client / "client.yaml").read_bytes()
    view = sha256(text).hexdigest()
    known = order.known.get(PROGRAMME)
    day = known.day if known and known.view == view else order.as_of
    content = b"%s %s" % (str(day).encode(), text)
    made = KnownDocument(view, day, sha256(content).hexdigest())
    in_place = same_file(document_file(order.out, order.client, PROGRAMME), made.output)
    return Answer(
        client=order.client,
        inputs=client_digest(order.root, order.client, shared_digest(order.root, "")),
        holds_until=order.as_of + timedelta(days=10),
        rows=({"client": order.client, "zone": "flat"},),
        documents=(DocumentAnswer(PROGRAMME, made, None if in_place else content),),
        problems=(),
        took_s=0.0,
    )


def slow(order: Order) -> Answer:
    """Take half a second for a client."""
    time.sleep(0.5)
    return quick(order)


def poison(order: Order) -> Answer:
    """Go wrong as the client's id says, and be quick for any other client."""
    match order.client:
        case "exits":
            os._exit(7)
        case "is-killed":
            os.kill(os.getpid(), signal.SIGKILL)
        case "kills-the-others":
            time.sleep(0.3)  # let the neighbours finish what they have
            _kill_every_worker()
        case "loops":
            while True:
                pass
        case "is-hungry":
            _ = bytearray(1 << 40)
        case "is-unpicklable":
            raise UnpicklableError
        case "answers-nonsense":
            return lambda: None  # type: ignore[return-value]
        case "leaves":
            raise SystemExit(0)
    return quick(order)


def _kill_every_worker() -> None:
    """Kill all children of the fork server, oneself last."""
    server = os.getppid()
    workers = [int(word) for word in Path(f"/proc/{server}/task/{server}/children").read_text().split()]
    for worker in sorted(workers, key=lambda worker: worker == os.getpid()):
        os.kill(worker, signal.SIGKILL)


def recovers(order: Order) -> Answer:
    """Lose the first worker of every client, and answer at the second try."""
    mark = order.root / "tried" / order.client
    if not mark.exists():
        mark.parent.mkdir(exist_ok=True)
        mark.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return quick(order)


def papers(order: Order) -> Answer:
    """Answer with one paper that names day, visits and bags, and with one point a bag."""
    lines = [str(order.as_of), *(row["visit"] for row in order.visits), *(row["person"] for row in order.placed)]
    content = "\n".join([*lines, *(bag.id for bag in order.bags)]).encode()
    points = tuple(
        IssuedPoint(
            bag.farm, bag.zone, bag.protocol, bag.season, 1, (143.5, -37.25), in_row=False, issued_on=order.as_of
        )
        for bag in order.bags
        if bag.top_cm == 0
    )
    names = [f"paper-{row['visit'].rpartition('/')[2]}.pdf" for row in order.visits]
    made = KnownDocument("", order.as_of, sha256(content).hexdigest())
    documents = tuple(DocumentAnswer(name, made, content) for name in names)
    return Answer(order.client, "", None, (), documents, (), 0.0, points=points)
