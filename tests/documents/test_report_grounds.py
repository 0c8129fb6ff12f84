"""The grounds of one farm: letters, numbered sources, what speaks against a result."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.report_grounds import FarmGrounds, all_judged
from soilrota.model.result_findings import Grade, ResultFinding, ResultKey, ResultRule
from tests.documents.reports import advised, farm_grounds, grounds


def test_a_farm_has_its_own_and_letters_by_order() -> None:
    """Zones of another farm are not there; letters follow the file."""
    home = farm_grounds("anvil-creek")
    assert {one.farm for one in home.judged} == {"home"}
    assert home.named("north-flat") == "A North flat"
    assert [home.letters[zone] for zone in home.zones] == ["A", "B", "C", "D", "E"]
    assert {one.protocol for one in home.of_zone("ridge")} == {"topsoil-pasture", "acidity-profile"}


def test_a_source_is_numbered_once() -> None:
    """The second mention has the number of the first."""
    home = farm_grounds("anvil-creek")
    assert [home.cite(one) for one in ("a", "b", "a")] == [1, 2, 1]
    assert home.sources == ["a", "b"]


def test_what_speaks_against_a_result_until_somebody_accepts_it() -> None:
    """A finding of another analysis, or a note, says nothing of it."""
    of_client = grounds("hazel-rigg")
    farm = of_client.client.farms[0]
    result = all_judged(of_client.judged[0])[0].result
    key, code = ResultKey.of(result), f"{result.analyte}.{result.method}"

    def doubted(grade: Grade, *codes: str) -> bool:
        finding = ResultFinding(key, ResultRule.HISTORY, grade, codes)
        return FarmGrounds(replace(of_client, results=(finding,), samples=()), farm).is_doubted(result)

    assert doubted(Grade.DOUBT, code)
    assert doubted(Grade.SET_ASIDE)
    assert not doubted(Grade.NOTE, code)
    assert not doubted(Grade.DOUBT, "ph.other")


def test_needs_go_to_their_zone() -> None:
    """And to no other."""
    of_client = advised()
    home = FarmGrounds(of_client, of_client.client.farms[0])
    assert [len(home.needs_of(zone)) for zone in home.farm.zones] == [0, 1, 1, 0, 1]
