"""Findings in words: plurals, dates in the client's form, and what is not used for advice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.documents.finding_sentences import finding_sentence, sentences_about, stray_sentences
from soilrota.model.client import Client
from soilrota.model.findings import Fact, SampleFinding, SampleKey, SampleRule, Weight
from tests.documents.made import example

DAY = date(2027, 1, 21)
CLIENT = example("brolga-plains")
KEY = SampleKey("plains", "house", "deep-nitrogen", 0, 10, DAY)
GAP = {"class": "lime", "material": "", "months": 3, "standing": "done"}
BEFORE = {"first_day": date(2026, 12, 1), "last_day": date(2026, 12, 3)}


def said(rule: SampleRule, facts: dict[str, Fact], weight: Weight = Weight.NOTE, client: Client = CLIENT) -> str:
    """Return the words of a finding about the topsoil of the house paddock."""
    return finding_sentence(SampleFinding(KEY, rule, weight, facts), client)


@pytest.mark.parametrize(
    ("rule", "facts", "words"),
    [
        ("too-few-cores", {"cores": 1, "least": 25}, "1 core was taken; the protocol asks for at least 25."),
        ("too-few-cores", {"cores": 18, "least": 25}, "18 cores were taken; the protocol asks for at least 25."),
        (
            "cores-not-written",
            {"least": 8},
            "the number of cores was not written down; the protocol asks for at least 8 cores.",
        ),
        (
            "other-depth",
            {"top_cm": 0, "bottom_cm": 7.5, "layers": ("0-10", "10-30")},
            "it was taken from 0–7.5 cm; the protocol asks for 0–10 cm and 10–30 cm, and other depths do not compare.",
        ),
        (
            "other-depth",
            {"top_cm": 0, "bottom_cm": 7.5, "layers": ()},
            "it was taken from 0–7.5 cm; the protocol has no layers, and other depths do not compare.",
        ),
        ("layer-missing", {"top_cm": 10, "bottom_cm": 30}, "the layer of 10–30 cm was not taken on that day."),
        (
            "outside-season",
            {"days": 1, "first": date(2027, 1, 22), "last": date(2027, 3, 31)},
            (
                "it was taken 1 day before the season began (22 January to 31 March 2027), "
                "so a trend with it mixes seasons."
            ),
        ),
        (
            "outside-season",
            {"days": 12, "first": date(2026, 11, 1), "last": date(2027, 1, 9)},
            (
                "it was taken 12 days after the season had ended (1 November 2026 to 9 January 2027), "
                "so a trend with it mixes seasons."
            ),
        ),
        (
            "closed-day",
            {"reason": "Lambing."},
            "the day was one on which nobody should be on the land. Reason given: Lambing.",
        ),
        (
            "other-moisture",
            {"state": "wet", "wanted": "moist"},
            (
                "the soil was wet; the protocol wants it moist, and cores of wet soil are pressed together and smear "
                "from one to the next."
            ),
        ),
        (
            "other-moisture",
            {"state": "dry", "wanted": "moist"},
            "the soil was dry; the protocol wants it moist, and in dry soil the probe stops short of the depth.",
        ),
        (
            "bag-check",
            {"bag": "A0001-D", "nearest": ("A0001-C", "A0002-A")},
            (
                "its bag id A0001-D was misread or miswritten, because its check character does not fit; "
                "A0001-C or A0002-A may be meant."
            ),
        ),
        (
            "bag-check",
            {"bag": "A0001-D"},
            "its bag id A0001-D was misread or miswritten, because its check character does not fit.",
        ),
        ("bag-unknown", {"bag": "A0001-C"}, f"its bag id A0001-C was never issued for {CLIENT.name}."),
    ],
)
def test_each_finding_is_a_sentence(rule: str, facts: dict[str, Fact], words: str) -> None:
    """The sample's day and layer stand before what was found, the layer only where it is not said anyway."""
    sentence = said(SampleRule(rule), facts)
    names_layer = rule in {"too-few-cores", "cores-not-written", "other-moisture", "bag-check", "bag-unknown"}
    assert sentence == f"About the sample of 21 January 2027{', 0–10 cm' * names_layer}: {words}"


@pytest.mark.parametrize(
    ("facts", "weight", "words"),
    [
        (
            {**BEFORE, "free": date(2027, 3, 3)},
            "unusable",
            (
                "lime was spread from 1 December 2026 to 3 December 2026, and the waiting time of "
                "3 months had not passed; the land was free from 3 March 2027."
            ),
        ),
        (
            {
                "first_day": date(2026, 12, 1),
                "last_day": date(2026, 12, 1),
                "free": date(2027, 3, 1),
                "standing": "planned",
            },
            "unusable",
            (
                "lime was to be spread on 1 December 2026 and was never recorded as done, so it counts, "
                "and the waiting time of 3 months had not passed; the land was free from 1 March 2027."
            ),
        ),
        (
            {**BEFORE, "months": 0},
            "unusable",
            ("lime was spread from 1 December 2026 to 3 December 2026; on such a day there is no sampling."),
        ),
        (
            {},
            "doubt",
            (
                "the date of a spreading of lime is not known, so nobody can say that the waiting time "
                "of 3 months had passed."
            ),
        ),
        (
            {"last_day": date(2027, 2, 1), "free": date(2027, 5, 1)},
            "doubt",
            ("lime was spread at the latest on 1 February 2027; nobody can say whether that was before the sampling."),
        ),
        (
            {"last_day": date(2027, 1, 1), "free": date(2027, 4, 1)},
            "unusable",
            (
                "lime was spread at the latest on 1 January 2027, and the waiting time of 3 months had "
                "not passed; the land was free from 1 April 2027."
            ),
        ),
        (
            {"first_day": date(2026, 12, 1)},
            "unusable",
            ("lime was spread from 1 December 2026 on, and the waiting time of 3 months had not passed."),
        ),
        (
            {"first_day": date(2025, 12, 1), "months": 1},
            "doubt",
            (
                "lime was spread from 1 December 2025 on, until a day not known, so nobody can say that "
                "the waiting time of 1 month had passed."
            ),
        ),
    ],
)
def test_waiting_times(facts: dict[str, Fact], weight: str, words: str) -> None:
    """What is known of the spreading is said, and what is not."""
    sentence = said(SampleRule.INSIDE_GAP, {**GAP, **facts}, Weight(weight))
    words = words.replace("from 1 December 2026 to 3", "from 1 December to 3")
    unused = " The result is not used for advice." * (weight == "unusable")
    assert sentence == f"About the sample of 21 January 2027: {words}{unused}"


def test_bags_name_the_other_sample() -> None:
    """Zones and protocols as people call them."""
    one = next(zone.name for zone in CLIENT.farms[0].zones if zone.id == "one")
    other: dict[str, Fact] = {"bag": "B1", "other": "plains/one", "other_top_cm": 10, "other_bottom_cm": 30}
    twice = said(SampleRule.BAG_TWICE, {**other, "other_day": DAY}, Weight.UNUSABLE)
    assert f"its bag B1 stands at the sample of {one}, 10–30 cm, of 21 January 2027 too" in twice
    assert twice.endswith("The result is not used for advice.")
    same = {"bag": "B1", "other": "plains/house", "other_top_cm": 0, "other_bottom_cm": 10, "other_day": DAY}
    assert said(SampleRule.BAG_TWICE, same).endswith("the field notes name its bag B1 in another row too.")
    issued: dict[str, Fact] = {"bag": "B1", "issued": "plains/one", "issued_protocol": "deep-nitrogen"}
    words = said(SampleRule.BAG_OTHER, {**issued, "issued_top_cm": 0, "issued_bottom_cm": 10})
    assert words.endswith(f"its bag B1 was issued for {one}, 0–10 cm ({CLIENT.protocols['deep-nitrogen'].name}).")
    gone = {**issued, "issued": "plains/gone", "issued_protocol": "gone", "issued_top_cm": 0, "issued_bottom_cm": 10}
    assert said(SampleRule.BAG_OTHER, gone).endswith("its bag B1 was issued for plains/gone, 0–10 cm (gone).")


def test_dates_in_the_clients_form() -> None:
    """An American client reads the month first."""
    american = replace(CLIENT, language="en-US")
    assert said(SampleRule.CLOSED_DAY, {"reason": "Harvest"}, client=american).startswith(
        "About the sample of January 21, 2027: "
    )


def test_every_rule_has_its_words() -> None:
    """Nothing can be found that nobody can read."""
    facts: dict[str, Fact] = {
        **GAP, **BEFORE, "free": DAY, "cores": 3, "least": 8, "top_cm": 0, "bottom_cm": 10, "layers": ("0-10",),
        "days": 3, "first": DAY, "last": DAY, "reason": "Lambing", "state": "wet", "wanted": "dry", "bag": "B1",
        "other": "plains/one", "other_top_cm": 0, "other_bottom_cm": 10, "other_day": DAY, "issued": "plains/one",
        "issued_protocol": "deep-nitrogen", "issued_top_cm": 0, "issued_bottom_cm": 10,
    }  # fmt: skip
    for rule in SampleRule:
        sentence = said(rule, facts)
        assert sentence.endswith(".")
        assert not any(code in sentence for code in ("_", "None", "  ", "..", "plains/", "deep-nitrogen"))


def test_sentences_of_some_days() -> None:
    """Only of those days, the latest first, each once: what holds for every layer is said for the day."""
    deep = replace(KEY, top_cm=10, bottom_cm=30)
    earlier = replace(KEY, day=date(2026, 1, 21))
    facts = {"reason": "Lambing"}
    findings = [SampleFinding(key, SampleRule.CLOSED_DAY, Weight.NOTE, facts) for key in (earlier, KEY, deep)]
    found = sentences_about(findings, CLIENT, {DAY, earlier.day})
    assert [words[:36] for words in found] == [
        "About the sample of 21 January 2027:",
        "About the sample of 21 January 2026:",
    ]
    assert len(sentences_about(findings, CLIENT, {DAY})) == 1


def test_samples_that_no_task_asked_for() -> None:
    """The latest of a zone is said, with the zone; several farms are told apart."""
    keys = (KEY, replace(KEY, day=date(2026, 1, 1)), replace(KEY, zone="one"))
    findings = [SampleFinding(key, SampleRule.NOT_PLANNED, Weight.NOTE) for key in keys]
    findings.append(SampleFinding(KEY, SampleRule.CLOSED_DAY, Weight.NOTE, {"reason": "Lambing"}))
    first, second = stray_sentences(findings, CLIENT)
    house = next(zone.name for zone in CLIENT.farms[0].zones if zone.id == "house")
    assert first.startswith(f"{house}. About the sample of 21 January 2027: the zone is not sampled under the protocol")
    assert second != first
    twin = replace(CLIENT, farms=(CLIENT.farms[0], replace(CLIENT.farms[0], id="other")))
    assert stray_sentences(findings, twin)[0].startswith(f"{house}, {CLIENT.farms[0].name}. ")
