"""Which acceptance stands at which finding."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.model.result_findings import Acceptance, Grade, ResultFinding, ResultKey, ResultRule
from soilrota.problems import Place
from soilrota.results.acceptances import fits, idle_acceptances, with_acceptances

DAY = date(2027, 2, 10)
KEY = ResultKey("north-bench", "r-1", "A0001-C", "home", "river-flat", "topsoil", 0, 10, DAY)
FINDING = ResultFinding(KEY, ResultRule.PH_PAIR, Grade.SET_ASIDE, ("ph.water", "ph.cacl2"))
PLACE = Place("client.yaml", 40)
WORD = Acceptance("r-1", "A0001-C", "", None, ResultRule.PH_PAIR, ("ph.water",), "Known.", "mara-ellis", PLACE)


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, True),
        ({"report": ""}, True),
        ({"report": "r-2"}, False),
        ({"bag": "a0001–c"}, True),
        ({"bag": "A0002-A"}, False),
        ({"bag": "", "zone": "home/river-flat", "sampled": DAY}, True),
        ({"bag": "", "zone": "home/bank", "sampled": DAY}, False),
        ({"bag": "", "zone": "home/river-flat", "sampled": date(2026, 2, 10)}, False),
        ({"analyses": ()}, True),
        ({"analyses": ("ph.cacl2", "phosphorus.olsen")}, True),
        ({"analyses": ("phosphorus.olsen",)}, False),
        ({"rule": ResultRule.HISTORY}, False),
    ],
)
def test_every_name_must_be_the_findings(changes: dict[str, object], expected: bool) -> None:
    """An acceptance lifts what it names, and nothing else."""
    acceptance = replace(WORD, **changes)
    assert fits(acceptance, FINDING) is expected
    (finding,) = with_acceptances([FINDING], [acceptance])
    assert finding.accepted == (acceptance if expected else None)
    assert finding.bars is not expected
    assert idle_acceptances([finding], [acceptance]) == (() if expected else (acceptance,))


def test_a_value_that_no_soil_has_is_never_accepted() -> None:
    """It cannot enter the records, so nobody's word lifts it."""
    finding = replace(FINDING, rule=ResultRule.HARD_LIMIT)
    assert with_acceptances([finding], [replace(WORD, rule=ResultRule.HARD_LIMIT)]) == (finding,)


def test_the_first_that_fits_stands() -> None:
    """Two people said it; the first is printed."""
    again = replace(WORD, by="jo-finch")
    (finding,) = with_acceptances([FINDING], [WORD, again])
    assert finding.accepted is WORD
    assert idle_acceptances([finding], [WORD, again]) == (again,)
