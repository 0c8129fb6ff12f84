"""Findings about results in words: every rule and case, plurals, bounds, acceptances, no code words."""

from __future__ import annotations

import re
from datetime import date

import pytest

from soilrota.documents.result_finding_sentences import Names, odds_words, result_finding_sentence
from soilrota.model.findings import Fact
from soilrota.model.result_findings import Acceptance, Grade, ResultFinding, ResultKey, ResultRule
from soilrota.problems import Place
from soilrota.quantities import all_codes
from tests.documents.made import example

KEY = ResultKey("north-bench", "r-1", "A0001-C", "home", "river-flat", "topsoil", 0, 10, date(2027, 2, 10))
NAMES = Names(
    {"home/river-flat": "River flat", "home/bank": "Bank"}, {"mara-ellis": "Mara Ellis"}, {"loam": "Red loam"}
)
SAMPLE = "About the sample of River flat, 0–10 cm, of 10 February 2027, bag A0001-C: "
WAITS = " The results wait until somebody accepts them with a reason."
BASES = ("calcium.exchangeable", "magnesium.exchangeable", "potassium.exchangeable", "sodium.exchangeable")
ECEC, CEC = "exchange-capacity.effective", "exchange-capacity.ammonium-acetate"
EC, CL = "conductivity.ec-1-5", "chloride.water-1-5"
OC, OM, N = "organic-carbon.walkley-black", "organic-matter.loss-on-ignition", "nitrogen.dry-combustion"
OLSEN, NITRATE, AMMONIUM = "phosphorus.olsen", "nitrate-nitrogen.kcl", "ammonium-nitrogen.kcl"
PH_BOTH = ("ph.water", "ph.cacl2")

CASES: list[tuple[str, str, tuple[str, ...], dict[str, Fact], str]] = [
    (
        "hard-limit", "set-aside", ("ph.cacl2",), {"analysis": "ph.cacl2", "value": 55.0, "low": 2.0, "high": 11.0},
        ("pH (CaCl2) of 55.0 is outside 2.0 to 11.0, so no soil has it. "
        "It cannot be accepted: the value, its unit or its method must be corrected."),
    ),
    (
        "hard-limit", "set-aside", (CL,), {"analysis": CL, "value": 75000.0, "low": 0.0, "high": 60000.0},
        ("Chloride (1:5 in water) of 75,000 mg/kg is outside 0 mg/kg to 60,000 mg/kg, so no soil has it. "
        "It cannot be accepted: the value, its unit or its method must be corrected."),
    ),
    (
        "ph-pair", "set-aside", PH_BOTH, {"water": 5.0, "cacl2": 5.8, "difference": -0.8},
        "pH is 5.0 in water and 5.8 in CaCl2; the two columns look mistaken for each other." + WAITS,
    ),
    (
        "ph-pair", "doubt", PH_BOTH, {"water": 4.95, "cacl2": 5.0, "difference": -0.05},
        "pH is 4.95 in water and 5.0 in CaCl2; mostly that in water is the higher one.",
    ),
    (
        "ph-pair", "doubt", PH_BOTH, {"water": 5.4, "cacl2": "<4", "difference": 1.4, "bound": "least"},
        "pH is 5.4 in water and less than 4.0 in CaCl2, at least 1.4 apart; they seldom lie so far from each other.",
    ),
    (
        "ph-pair", "note", (*PH_BOTH, EC), {"water": 5.5, "cacl2": 5.3, "difference": 0.2, "conductivity": 0.05},
        ("pH is 5.5 in water and 5.3 in CaCl2, 0.2 apart; that is usual in salty soil, "
        "and at 0.05 dS/m this soil is not salty."),
    ),
    (
        "cation-sum", "doubt", (*BASES, ECEC), {"sum": 8.05, "capacity": 8.9},
        ("the 4 cations that were reported add up to 8.1 cmol(+)/kg, and the exchange capacity is given as "
        "8.9 cmol(+)/kg; it should be the sum of all of them."),
    ),
    (
        "cation-sum", "doubt", ("calcium.exchangeable", ECEC), {"sum": 8.0, "capacity": "<7", "bound": "least"},
        ("Exchangeable Ca is at least 8.0 cmol(+)/kg, and the exchange capacity is given as less than 7.0 cmol(+)/kg; "
        "it should be the sum of all of them."),
    ),
    (
        "cation-sum", "note", (*BASES[:2], CEC), {"sum": 32.0, "capacity": 20.0},
        ("the 2 cations that were reported add up to 32.0 cmol(+)/kg, more than the exchange capacity of "
        "20.0 cmol(+)/kg; soluble salts or carbonate count with them."),
    ),
    (
        "sodium-share", "set-aside", (BASES[3], CEC), {"share": 105.0, "sodium": 21.0, "capacity": 20.0},
        "sodium comes to 105% of the exchange capacity; a part cannot be larger than the whole." + WAITS,
    ),
    (
        "sodium-share", "note", (BASES[3], CEC), {"share": 25.0, "sodium": ">5", "capacity": 20.0, "bound": "least"},
        ("sodium comes to at least 25% of the exchange capacity: the soil is strongly sodic, or salt was not washed "
        "out before it was measured."),
    ),
    (
        "chloride-conductivity", "doubt", (EC, CL), {"conductivity": 0.23, "chloride": 600.0, "least": 0.2944},
        "the conductivity is 0.23 dS/m, and the chloride of 600 mg/kg alone would give about 0.29 dS/m.",
    ),
    (
        "above-total", "set-aside", (OLSEN, "phosphorus.total"),
        {"analysis": OLSEN, "extractable": 60.0, "total": 55.0},
        "Olsen P comes to 60 mg/kg, more than Total P, 55 mg/kg, which holds it." + WAITS,
    ),
    (
        "above-total", "set-aside", (NITRATE, AMMONIUM, N), {"analysis": NITRATE, "extractable": 510.0, "total": 500.0},
        "Nitrate N (KCl) and Ammonium N (KCl) come to 510 mg/kg, more than Total N (dry combustion), 500 mg/kg, "
        "which holds it." + WAITS,
    ),
    (
        "carbon-nitrogen", "doubt", (OC, N), {"ratio": 6.0, "side": "low"},
        "there is 6 times as much carbon as nitrogen; soil mostly has more carbon for its nitrogen.",
    ),
    (
        "carbon-nitrogen", "doubt", (OC, N), {"ratio": 48.0, "side": "high", "bound": "least"},
        "there is at least 48 times as much carbon as nitrogen; soil mostly has more nitrogen for its carbon.",
    ),
    (
        "aluminium-ph", "doubt", ("aluminium.exchangeable", "ph.cacl2"), {"aluminium": 0.4, "ph": 5.6},
        "exchangeable aluminium is 0.40 cmol(+)/kg at pH (CaCl2) 5.6; soil that is not acid has next to none.",
    ),
    (
        "carbon-range", "note", (OC,), {"analysis": OC, "value": "<0.05", "side": "low"},
        "Organic carbon (Walkley-Black) is less than 0.05%; only desert soil and deep subsoil hold so little.",
    ),
    (
        "carbon-range", "doubt", (OC,), {"analysis": OC, "value": 12.5, "side": "high"},
        "Organic carbon (Walkley-Black) is 12.50%; only peat and alpine soil hold so much.",
    ),
    (
        "carbon-matter", "set-aside", (OM, OC), {"ratio": 0.97, "side": "low", "bound": "most"},
        "organic matter is at most 0.97 times organic carbon; carbon is a part of it, so it should be more than that."
        + WAITS,
    ),
    (
        "carbon-matter", "note", (OM, OC), {"ratio": 3.5, "side": "high"},
        "organic matter is 3.5 times organic carbon; water from clay may have been counted with it.",
    ),
    (
        "history", "doubt", (OLSEN,), {"analysis": OLSEN, "value": 62.5, "usual": 21.5, "spread": 5.3, "years": 1},
        "Olsen P of 62.5 mg/kg is far from what 1 earlier sampling gave: 22 mg/kg, give or take 5 mg/kg.",
    ),
    (
        "history", "set-aside", (OLSEN,),
        {"analysis": OLSEN, "value": ">400", "usual": 22.0, "spread": 5.3, "years": 4},
        "Olsen P of more than 400 mg/kg is far from what 4 earlier samplings gave: 22 mg/kg, give or take 5 mg/kg."
        + WAITS,
    ),
    (
        "swapped", "set-aside", ("ph.cacl2", OLSEN, N),
        {"other": "home/bank", "odds": 40.0, "analyses": ("ph.cacl2", OLSEN, N)},
        "its bag looks swapped with that of Bank; the odds are about 40 to 1, judged by pH (CaCl2), Olsen P and "
        "Total N (dry combustion)." + WAITS,
    ),
    (
        "check-sample", "doubt", (OLSEN,), {"analysis": OLSEN, "material": "loam", "day": date(2027, 2, 3), "z": 2.6},
        ("the laboratory measured the check sample Red loam, reported on 3 February 2027, too high in Olsen P, "
        "so this value may be too high as well."),
    ),
    (
        "check-sample", "doubt", (OLSEN,), {"analysis": OLSEN, "material": "loam", "day": date(2027, 2, 3), "z": -3.1},
        ("the laboratory measured the check sample Red loam, reported on 3 February 2027, too low in Olsen P, "
        "so this value may be too low as well."),
    ),
]  # fmt: skip


def made(rule: str, grade: str, analyses: tuple[str, ...], facts: dict[str, Fact]) -> ResultFinding:
    """Return a finding about the topsoil of the river flat."""
    return ResultFinding(KEY, ResultRule(rule), Grade(grade), analyses, facts)


@pytest.mark.parametrize(("rule", "grade", "analyses", "facts", "words"), CASES)
def test_each_case_is_a_sentence(
    rule: str, grade: str, analyses: tuple[str, ...], facts: dict[str, Fact], words: str
) -> None:
    """The sample stands before what was found; whether it waits behind it."""
    assert result_finding_sentence(made(rule, grade, analyses, facts), "en-AU", NAMES) == SAMPLE + words


def test_no_rule_is_without_words_and_no_word_is_a_code() -> None:
    """Every rule has a case above; no code of an analysis, no id of a rule, and no dotted word comes through."""
    assert {rule for rule, *_ in CASES} == {str(rule) for rule in ResultRule}
    codes = set(all_codes())
    for rule, grade, analyses, facts, _ in CASES:
        sentence = result_finding_sentence(made(rule, grade, analyses, facts), "en-GB")
        assert not codes & set(re.findall(r"[a-z0-9.-]+", sentence))
        assert rule == "swapped" or rule not in sentence
        assert "river-flat" not in sentence
        assert sentence.endswith(".")


@pytest.mark.parametrize(("reason", "end"), [("Old sheep yard", "Old sheep yard."), ("Known!", "Known!")])
def test_an_accepted_finding(reason: str, end: str) -> None:
    """Who accepted it and why stands behind it, and nothing waits."""
    word = Acceptance("", "A0001-C", "", None, ResultRule.PH_PAIR, (), reason, "mara-ellis", Place("client.yaml"))
    facts: dict[str, Fact] = {"water": 5.0, "cacl2": 5.8, "difference": -0.8}
    finding = ResultFinding(KEY, ResultRule.PH_PAIR, Grade.SET_ASIDE, PH_BOTH, facts, None, word)
    for names in (NAMES, Names()):
        sentence = result_finding_sentence(finding, "en-AU", names)
        assert sentence.endswith(f"look mistaken for each other. Accepted by Mara Ellis: {end}")
        assert WAITS not in sentence


def test_the_clients_own_form() -> None:
    """Days as the client's country writes them; ids without a name become words; a bag without an id is not named."""
    key = ResultKey("north-bench", "r-1", "", "home", "river-flat", "topsoil", 0, 7.5, date(2027, 2, 10))
    finding = ResultFinding(
        key, ResultRule.CARBON_RANGE, Grade.DOUBT, (OC,), {"analysis": OC, "value": 13.0, "side": "high"}
    )
    sentence = result_finding_sentence(finding, "en-US")
    assert sentence.startswith("About the sample of river flat (home), 0–7.5 cm, of February 10, 2027: Organic carbon")


def test_names_of_a_client() -> None:
    """The farm stands beside the zone where there are several; people and materials come from the practice."""
    names = Names.of(example("anvil-creek"))
    assert names.zones["home/north-flat"] == "North flat, Home block"
    assert names.people["mara-ellis"]
    one_farm = example("dune-end-sheep")
    assert len(one_farm.farms) == 1
    zone = one_farm.farms[0].zones[0]
    assert Names.of(one_farm).zones[f"{one_farm.farms[0].id}/{zone.id}"] == zone.name


@pytest.mark.parametrize(
    ("odds", "words"),
    [
        (1.04, "about 1 to 1"),
        (5.04, "about 5 to 1"),
        (44.4, "about 44 to 1"),
        (1234, "about 1,200 to 1"),
        (1e6, "more than a million to 1"),
    ],
)
def test_odds(odds: float, words: str) -> None:
    """Two digits, no more: the prior is a guess."""
    assert odds_words(odds, "en-AU") == words
