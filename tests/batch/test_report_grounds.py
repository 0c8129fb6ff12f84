"""What reports rest on, and how long a first one waits."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from soilrota.batch.reading import read_sound_client
from soilrota.batch.report_grounds import report_grounds, waits_until
from soilrota.model.intake import MissingBag
from tests.documents.made import AS_OF, BOOK

CLIENT = read_sound_client(BOOK, "anvil-creek")
LAST = date(2027, 2, 4)


def bag(farm: str, since: date) -> MissingBag:
    """Return a bag that has not come back."""
    return MissingBag("anvil-creek", farm, "lane", "topsoil-pasture", "", 0, 10, since, None, "north-bench")


def test_everything_is_gathered() -> None:
    """Judgements, findings, windows, bags that are out, guidelines by name, the signature."""
    grounds, until = report_grounds(BOOK, CLIENT, AS_OF)
    assert {one.farm for one in grounds.judged} == {"home", "hill"}
    assert {(one.farm, one.zone) for one in grounds.missing} == {("home", "creek-flat"), ("home", "lane")}
    assert len(grounds.windows) == 9
    assert grounds.set_names["southern-australia-pasture"] == "Grazed pasture, southern Australia"
    assert not grounds.sign.is_signed
    assert until >= AS_OF


def test_a_first_report_waits_for_the_last_visit_alone() -> None:
    """Bags of that visit, on that farm, until the waiting time is over."""
    assert waits_until(CLIENT, "home", (bag("home", LAST),), 30) == LAST + timedelta(days=30)
    assert waits_until(CLIENT, "hill", (bag("home", LAST),), 30) is None
    assert waits_until(CLIENT, "home", (), 30) is None
    last = max(one.sampled for one in CLIENT.results if one.farm == "home")
    assert waits_until(CLIENT, "home", (bag("home", last - timedelta(days=15)),), 30) is None
    assert waits_until(CLIENT, "home", (bag("home", last - timedelta(days=14)),), 30) == last + timedelta(days=30)


def test_a_farm_without_results_waits_from_its_bags_on() -> None:
    """Nothing came back yet."""
    bare = replace(CLIENT, results=())
    assert waits_until(bare, "home", (bag("home", LAST),), 0) == LAST
    assert waits_until(bare, "home", (), 0) is None
