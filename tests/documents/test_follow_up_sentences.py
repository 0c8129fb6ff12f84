"""What came of advice in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.documents.follow_up_sentences import follow_up_sentences
from soilrota.model.advice import Input
from soilrota.model.follow_up import Done, FollowUp, Moved
from tests.agronomy.follow_ups import NEED, RECORD, TEST, applied, came_of, client
from tests.documents.shouting import shout, unsaid


def said(one: FollowUp, language: str = "en-AU") -> str:
    """Return the sentences as a text."""
    return " ".join(follow_up_sentences(one, "River flat", language))


def test_what_was_advised_spread_and_measured() -> None:
    """In this order, with the least detectable change."""
    text = said(came_of(client(applied(14), after=25.0)))
    assert text.startswith(
        "On 1 April 2027 River flat was advised 14 kg/ha (8 to 20) of phosphorus; products for the zone: 140 kg/ha of "
        "Super. 14 kg/ha was spread since by 1 May 2027, which is within what was advised. Colwell P went from "
        "20 mg/kg on 10 February 2027 to 25 mg/kg on 10 February 2028; two such values must differ by "
    )
    assert text.endswith(
        "By 14 kg/ha spread and 1 harvest between the two samplings it was to be expected to move by between 3 mg/kg "
        "and 6 mg/kg: too little to be told from chance, and no more came."
    )


@pytest.mark.parametrize("done", list(Done))
def test_every_outcome_has_words(done: Done) -> None:
    """No bracket of a template is left."""
    text = said(replace(came_of(client()), done=done, spread=3.0))
    assert "{" not in text
    assert "spread since" in text


@pytest.mark.parametrize("moved", list(Moved))
def test_every_verdict_has_words(moved: Moved) -> None:
    """Whatever the next result says."""
    found = came_of(client(applied(14), after=25.0))
    assert found.next_result is not None
    text = said(replace(found, next_result=replace(found.next_result, verdict=moved)))
    assert "Colwell P" in text
    assert "{" not in text


def test_plans_cautions_and_uncounted_harvests_are_said() -> None:
    """What was planned stands beside the need; what is not counted is said."""
    need = replace(NEED, planned=5.0, test=replace(TEST, taken_off=None))
    record = replace(RECORD, needs=(need,), rates=())
    unknown = replace(applied(3), material="something")
    text = said(came_of(client(applied(14), unknown, after=25.0), record), "de")
    assert "on top of 5 kg/ha that were planned already." in text
    assert "it is not taken off" in text
    assert "What harvests took off is not counted in that" in text


def test_lime_takes_its_time() -> None:
    """The sentence stands beside every next result of lime."""
    found = came_of(client(after=25.0), replace(RECORD, needs=(replace(NEED, input=Input.LIME),)))
    assert "Lime acts over years" in said(found)


def test_nothing_is_left_in_english(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every outcome and verdict comes out of the catalogue, but for the name of the product and of the test."""
    shout(monkeypatch)
    found = came_of(client(applied(14), after=25.0))
    assert found.next_result is not None
    planned = replace(found, need=replace(found.need, planned=5.0, test=None), rates=())
    lime = replace(found, need=replace(found.need, input=Input.LIME))
    made = [found, planned, lime, *(replace(found, done=done) for done in Done)]
    made += [replace(found, done=done, spread_until=None) for done in Done]
    made += [replace(found, next_result=replace(found.next_result, verdict=verdict)) for verdict in Moved]
    made.append(replace(found, next_result=replace(found.next_result, expected_low=3.0, expected_high=3.0)))
    text = " ".join(" ".join(follow_up_sentences(one, "Z", "ja")) for one in made)
    assert set(unsaid(text)) <= {"Super", "Colwell"}
