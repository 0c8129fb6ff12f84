"""Advice traced in text: every figure and source of it, and steps that add up."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from soilrota.documents.advice_explanation import Advised, advice_explanation
from soilrota.documents.advice_sentences import citation
from soilrota.model.advice import Cap, Input, Need, NoMix, NoNeed, Step
from soilrota.model.client import Client, Zone
from soilrota.model.judgement import Refused, WhyNot
from tests.agronomy.follow_ups import came_of
from tests.agronomy.follow_ups import client as made
from tests.documents.advised import CLIENTS, DAY, advised
from tests.documents.shouting import shout

STEP = re.compile(r"^ +\d+\. .*: ([+-]?[\d,.]+) (?:kg|t)/ha\.")
SUM = re.compile(r"^ +Together: ([+-]?[\d,.]+) (?:kg|t)/ha\.$")
ADVISED = re.compile(r"^ +Advised: ([\d,.]+) (?:kg|t)/ha;")
#: Half of the last digit that is printed, for each step and for the sum.
HALF = 0.005


def ground_of(client: Client, need: Need | NoNeed) -> Zone:
    """Return the zone of a need."""
    return next(zone for farm in client.farms for zone in farm.zones if (zone.farm, zone.id) == (need.farm, need.zone))


def explained(client_id: str) -> list[tuple[Need | NoNeed, tuple[str, ...]]]:
    """Return every need of an example client with its explanation."""
    client, advice = advised(client_id)
    return [
        (
            one,
            advice_explanation(
                client,
                ground_of(client, one),
                Advised(DAY, one, advice.mixes, advice.priorities, advice.closings),
            ),
        )
        for one in advice.needs
    ]


def figures(pattern: re.Pattern[str], lines: tuple[str, ...]) -> list[float]:
    """Return the numbers of lines of a form, written in English."""
    return [float(found[1].replace(",", "")) for line in lines if (found := pattern.match(line))]


@pytest.mark.parametrize("client_id", CLIENTS)
def test_printed_steps_add_up_to_the_need(client_id: str) -> None:
    """As many as the need has; their sum is the amount, unless a maximum or nought cuts it."""
    for need, lines in explained(client_id):
        if isinstance(need, NoNeed):
            continue
        steps, (total,), (amount,) = figures(STEP, lines), figures(SUM, lines), figures(ADVISED, lines)
        assert len(steps) == len(need.steps)
        assert abs(sum(steps) - total) <= HALF * (len(steps) + 1)
        most = min((cap.amount for cap in need.caps), default=total)
        assert abs(amount - max(0.0, min(total, most))) <= 2 * HALF


@pytest.mark.parametrize("client_id", CLIENTS)
def test_every_source_is_cited(client_id: str) -> None:
    """Of steps and maxima, with the word where a figure was not read."""
    for need, lines in explained(client_id):
        if isinstance(need, Need):
            sources = [citation(one.source, one.status) for one in (*need.steps, *need.caps) if one.source]
            assert [line.partition("source: ")[2] for line in lines if "source: " in line] == sources


def test_products_order_and_sampling_stand_beside_the_need() -> None:
    """What brings it, what it is worth, what it closes."""
    text = next(
        "\n".join(lines) for need, lines in explained("anvil-creek") if (need.zone, need.input) == ("ridge", "lime")
    )
    for words in ("Product: Ridge: ", "Supplied: Ridge gets ", "Order: ", "Sampling: Sample first, then spread."):
        assert words in text
    assert "Single superphosphate" not in text


def test_what_cannot_be_met_is_said_beside_the_need() -> None:
    """In place of a product."""
    client, advice = advised("anvil-creek")
    need = next(one for one in advice.needs if isinstance(one, Need) and one.amount > 0 and one.input is Input.LIME)
    blocked = NoMix(need.farm, ((need.zone, Input.LIME),), {"because": "no-product"})
    text = "\n".join(advice_explanation(client, ground_of(client, need), Advised(DAY, need, (blocked,))))
    assert "Product: No mix of the listed products meets the need of lime" in text


def test_splits_and_ranges_are_said() -> None:
    """Dressings; a need without any range says so; a maximum that binds stands before the amount."""
    client, advice = advised("anvil-creek")
    some = next(one for one in advice.needs if isinstance(one, Need) and one.input is Input.LIME)
    need = replace(
        some, amount=8.0, low=8.0, high=8.0, steps=(Step("lift-topsoil", 9.5),), split=(4.0, 4.0),
        caps=(Cap(8.0, "most-dressings", {"dressings": 2, "one_dressing": 4.0}),),
    )  # fmt: skip
    text = "\n".join(advice_explanation(client, ground_of(client, need), Advised(DAY, need)))
    assert "Together: 9.5 t/ha." in text
    assert "Never more than 8 t/ha" in text
    assert "Advised: 8 t/ha; no figure in it has a range." in text
    assert "In 2 dressings of 4 t/ha each." in text


def test_nothing_to_advise_is_one_sentence() -> None:
    """With its reason."""
    client, advice = advised("anvil-creek")
    zone = ground_of(client, advice.needs[0])
    why = NoNeed(zone.farm, zone.id, Input.SULPHUR, Refused(WhyNot.NO_SET))
    lines = advice_explanation(client, zone, Advised(DAY, why))
    assert lines[0] == "What is advised of sulphur on 15 February 2027"
    assert len(lines) == 2


def test_what_came_of_earlier_advice_stands_last() -> None:
    """One line a record, beside a need and beside none."""
    client, advice = advised("anvil-creek")
    need = next(one for one in advice.needs if isinstance(one, Need))
    none = next(one for one in advice.needs if isinstance(one, NoNeed))
    for one in (need, none):
        lines = advice_explanation(client, ground_of(client, one), Advised(DAY, one, came_of_it=(came_of(made()),)))
        assert lines[-2] == "  What came of earlier advice:"
        assert lines[-1].startswith("    - On 1 April 2027 ")
        assert lines[-1].endswith("None of it was spread since, by the applications log.")


def test_labels_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing around the figures is left in English."""
    client, advice = advised("anvil-creek")
    need = next(one for one in advice.needs if isinstance(one, Need) and (one.zone, one.input) == ("ridge", Input.LIME))
    none = next(one for one in advice.needs if isinstance(one, NoNeed))
    shout(monkeypatch)
    text = ""
    for one in (need, none):
        found = Advised(DAY, one, advice.mixes, advice.priorities, advice.closings, (came_of(made()),))
        text += "\n".join(advice_explanation(client, ground_of(client, one), found))
    for label in (
        "WHAT IS ADVISED OF LIME", "IT FOLLOWS FROM: ", "WORKING:", "TOGETHER: ", "MAXIMA:", "SOURCE: ", "ADVISED: ",
        "PRODUCT: ", "SUPPLIED: ", "ORDER: ", "SAMPLING: SAMPLE FIRST", "MIND:", "WHAT CAME OF EARLIER ADVICE:",
    ):  # fmt: skip
        assert label in text
