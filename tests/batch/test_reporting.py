"""Reports of one client at once."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.faults import CannotStartError
from soilrota.batch.reporting import ReportsRequest, write_reports
from soilrota.batch.signing_off import SignRequest, propose_signature, write_signature
from tests.acceptance.signed_book import CLIENT, DAY, make_signable

EXAMPLE = Path(__file__).resolve().parents[2] / "example_clients"
AS_OF = date.fromisoformat(DAY)


def ask(book: Path, out: Path, client: str = CLIENT, farm: str = "") -> tuple[str, ...]:
    """Make the reports; the clock is not asked."""
    return write_reports(ReportsRequest(book, client, out, farm, AS_OF), lambda _: date.min)


def test_a_draft_gives_way_to_what_is_signed(book: Path, out: Path) -> None:
    """Each lies where a night would put it, and never both."""
    make_signable(book)
    draft, signed = (out / folder / CLIENT / "farm_report-home.pdf" for folder in ("drafts", "clients"))
    assert ask(book, out) == (f"{draft}: a draft, Ann Lee must sign",)
    assert (draft.is_file(), signed.exists()) == (True, False)
    request = SignRequest(book, CLIENT, "", AS_OF, "2027-03-15T00:00:00")
    write_signature(request, propose_signature(request, lambda _: AS_OF))
    assert ask(book, out, farm="home") == (f"{signed}: signed",)
    assert (draft.exists(), signed.is_file()) == (False, True)


def test_what_cannot_be_made_is_said(book: Path, out: Path) -> None:
    """No such client, no such farm, no results, an output folder in the book."""
    make_signable(book)
    with pytest.raises(CannotStartError, match="no farm hmoe; did you mean home"):
        ask(book, out, farm="hmoe")
    with pytest.raises(CannotStartError, match="birch-farm has no results yet"):
        ask(book, out, client="birch-farm")
    with pytest.raises(CannotStartError, match="alder"):
        ask(book, out, client="aldr-farm")
    with pytest.raises(CannotStartError, match="output folder"):
        ask(book, book)


def test_the_day_is_today_where_none_is_named(book: Path, out: Path) -> None:
    """In the practice's time zone."""
    make_signable(book)
    asked: list[str] = []

    def today(zone: str) -> date:
        asked.append(zone)
        return AS_OF

    write_reports(ReportsRequest(book, CLIENT, out, "", None), today)
    assert asked == ["Australia/Melbourne"]


def test_rates_stand_beside_the_report_and_old_ones_go(out: Path) -> None:
    """A table a farm, a map a product, drafts like the report; what stands no more is taken away, of that farm only."""
    drafts = out / "drafts" / "anvil-creek"
    drafts.mkdir(parents=True)
    (drafts / "rate_map-home-nothing.geojson").write_text("{}")
    (drafts / "rate_map-hill-nothing.geojson").write_text("{}")
    lines = write_reports(ReportsRequest(EXAMPLE, "anvil-creek", out, "home", date(2027, 2, 15)), lambda _: date.min)
    names = {path.name for path in drafts.iterdir()}
    assert {"farm_report-home.pdf", "rates-home.csv", "rate_map-hill-nothing.geojson"} <= names
    assert any(name.startswith("rate_map-home-") for name in names)
    assert "rate_map-home-nothing.geojson" not in names
    assert len(lines) == len(names) - 1
    assert all("a draft" in line for line in lines)
