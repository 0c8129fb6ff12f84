"""A document of the practice, and the one from before where a new one cannot be made."""

from __future__ import annotations

from datetime import date
from hashlib import sha256
from pathlib import Path

from soilrota.batch.shared_pdf import shared_pdf
from soilrota.batch.values import Order
from soilrota.documents.faults import TemplateFaultError
from soilrota.problems import Place, error

PROBLEM = error("template-name", Place("templates/field_calendar.html.jinja", 3), "no such name", "", "mend it")


def refuse() -> bytes:
    """Fail as a broken template does."""
    raise TemplateFaultError(PROBLEM)


def test_made_or_nothing_to_show(tmp_path: Path) -> None:
    """The bytes with the date of the order; none where there is nothing to show."""
    order = Order(tmp_path, tmp_path, "field calendar", date(2027, 2, 15))
    (made,), problems = shared_pdf(order, "a.pdf", lambda: b"x")
    assert (made.name, made.content, made.known.day, problems) == ("a.pdf", b"x", order.as_of, ())
    assert shared_pdf(order, "a.pdf", lambda: None) == ((), ())


def test_a_broken_template_leaves_what_lies_there(tmp_path: Path) -> None:
    """With its problem; nothing is claimed where nothing lies there."""
    order = Order(tmp_path, tmp_path, "field calendar", date(2027, 2, 15))
    assert shared_pdf(order, "a.pdf", refuse) == ((), (PROBLEM,))
    (tmp_path / "a.pdf").write_bytes(b"before")
    (kept,), problems = shared_pdf(order, "a.pdf", refuse)
    assert (kept.content, kept.is_stale, kept.known.output) == (None, True, sha256(b"before").hexdigest())
    assert problems == (PROBLEM,)
