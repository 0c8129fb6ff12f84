"""Findings about results as sentences: one a finding, numbers in the client's form, odds in words."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable

from soilrota.documents.dates import counted, joined, long_day, number
from soilrota.documents.result_finding_facts import FindingFacts, Names, as_words
from soilrota.language import marked, say, say_count
from soilrota.model.client import Client
from soilrota.model.result_findings import Grade, ResultFinding, ResultRule
from soilrota.model.results import Result
from soilrota.quantities import analysis_name

__all__ = ["Names", "odds_words", "result_finding_sentence", "sentences_of_results"]

_WAITS = marked("The results wait until somebody accepts them with a reason.")
_STANDS = marked("The results are in doubt until somebody accepts them with a reason.")
_REFUSED = marked("It cannot be accepted: the value, its unit or its method must be corrected.")
_MANY = 1_000_000


_NO_NAMES = Names()


def result_finding_sentence(
    finding: ResultFinding, language: str, names: Names = _NO_NAMES, *, is_recorded: bool = False
) -> str:
    """Return one finding as sentences: which sample, what was found, whether it waits, and what a person said of it.

    Args:
        finding: the finding.
        language: language tag of the client, for instance `en-AU`.
        names: what people call zones, people and check materials; an id that is not there is written as words.
        is_recorded: whether the results stand in the records already, so that they are in doubt rather than wait.
    """
    said = FindingFacts(finding, language, names)
    unless_accepted = _STANDS if is_recorded else _WAITS
    waits = _REFUSED if finding.rule is ResultRule.HARD_LIMIT else unless_accepted if finding.bars else ""
    about = said.about(_SENTENCES[finding.rule](said))
    return " ".join(filter(None, (about, say(waits) if waits else "", said.accepted)))


def sentences_of_results(
    findings: Iterable[ResultFinding], client: Client, results: Collection[Result]
) -> tuple[str, ...]:
    """Return the findings about some recorded results, the latest sample first, each sentence once."""
    chosen = [finding for finding in findings if any(finding.speaks_of(result) for result in results)]
    chosen.sort(key=lambda finding: finding.key.sampled, reverse=True)
    names = Names.of(client)
    said = (result_finding_sentence(finding, client.language, names, is_recorded=True) for finding in chosen)
    return tuple(dict.fromkeys(said))


def odds_words(odds: float, language: str) -> str:
    """Return odds in words, rounded to two digits.

    >>> odds_words(40, "en-GB"), odds_words(1.4, "en-GB"), odds_words(23456, "en-GB"), odds_words(2e6, "en-GB")
    ('about 40 to 1', 'about 1.4 to 1', 'about 23,000 to 1', 'more than a million to 1')
    """
    if odds >= _MANY:
        return say("more than a million to 1")
    rounded = float(f"{odds:.2g}")
    return say("about {odds} to 1", odds=number(rounded, language))


def _hard_limit(said: FindingFacts) -> str:
    code = str(said.facts["analysis"])
    return say(
        "{analysis} of {value} is outside {low} to {high}, so no soil has it.",
        analysis=analysis_name(code),
        value=said.value("value", code),
        low=said.amount(float(said.facts["low"]), code),
        high=said.amount(float(said.facts["high"]), code),
    )


def _ph_pair(said: FindingFacts) -> str:
    facts = {"water": said.value("water", "ph.water"), "cacl2": said.value("cacl2", "ph.cacl2")}
    if said.finding.grade is Grade.SET_ASIDE:
        return say(
            "pH is {water} in water and {cacl2} in CaCl2; the two columns look mistaken for each other.", **facts
        )
    if float(said.facts["difference"]) < 0:
        return say("pH is {water} in water and {cacl2} in CaCl2; mostly that in water is the higher one.", **facts)
    facts["gap"] = said.bounded(number(float(said.facts["difference"]), said.language))
    if "conductivity" in said.facts:
        return say(
            "pH is {water} in water and {cacl2} in CaCl2, {gap} apart; that is usual in salty soil, and at {salt} this "
            "soil is not salty.",
            salt=said.value("conductivity", "conductivity.ec-1-5"),
            **facts,
        )
    return say(
        "pH is {water} in water and {cacl2} in CaCl2, {gap} apart; they seldom lie so far from each other.", **facts
    )


def _cation_sum(said: FindingFacts) -> str:
    *cations, capacity = said.finding.analyses
    facts = {
        "sum": said.bounded(
            said.amount(float(said.facts["sum"]), cations[0] if len(cations) == 1 else capacity),
        ),
        "capacity": said.value("capacity", capacity),
    }
    is_sum = capacity == "exchange-capacity.effective"
    if len(cations) > 1:
        counts = counted(len(cations), "cation", "cations")
        if is_sum:
            return say(
                "the {cations} that were reported add up to {sum}, and the exchange capacity is given as {capacity}; "
                "it should be the sum of all of them.",
                cations=counts,
                **facts,
            )
        return say(
            "the {cations} that were reported add up to {sum}, more than the exchange capacity of {capacity}; soluble "
            "salts or carbonate count with them.",
            cations=counts,
            **facts,
        )
    name = analysis_name(cations[0])
    if is_sum:
        return say(
            "{analysis} is {sum}, and the exchange capacity is given as {capacity}; it should be the sum of all of "
            "them.",
            analysis=name,
            **facts,
        )
    return say(
        "{analysis} is {sum}, more than the exchange capacity of {capacity}; soluble salts or carbonate count with "
        "them.",
        analysis=name,
        **facts,
    )


def _sodium_share(said: FindingFacts) -> str:
    share = said.bounded(said.plain("share", 0))
    if said.finding.grade is Grade.SET_ASIDE:
        return say(
            "sodium comes to {share}% of the exchange capacity; a part cannot be larger than the whole.", share=share
        )
    return say(
        "sodium comes to {share}% of the exchange capacity: the soil is strongly sodic, or salt was not washed out "
        "before it was measured.",
        share=share,
    )


def _chloride_conductivity(said: FindingFacts) -> str:
    return say(
        "the conductivity is {salt}, and the chloride of {chloride} alone would give about {least}.",
        salt=said.value("conductivity", "conductivity.ec-1-5"),
        chloride=said.value("chloride", "chloride.water-1-5"),
        least=said.amount(float(said.facts["least"]), "conductivity.ec-1-5"),
    )


def _above_total(said: FindingFacts) -> str:
    code, total = str(said.facts["analysis"]), said.finding.analyses[-1]
    parts = [analysis_name(one) for one in said.finding.analyses[:-1]]
    return say_count(
        "{parts} comes to {part}, more than {total}, {whole}, which holds it.",
        "{parts} come to {part}, more than {total}, {whole}, which holds it.",
        len(parts),
        parts=joined(parts),
        part=said.bounded(said.amount(float(said.facts["extractable"]), code)),
        total=analysis_name(total),
        whole=said.amount(float(said.facts["total"]), code),
    )


def _carbon_nitrogen(said: FindingFacts) -> str:
    ratio = said.bounded(said.plain("ratio", 1))
    if said.facts["side"] == "low":
        return say(
            "there is {ratio} times as much carbon as nitrogen; soil mostly has more carbon for its nitrogen.",
            ratio=ratio,
        )
    return say(
        "there is {ratio} times as much carbon as nitrogen; soil mostly has more nitrogen for its carbon.", ratio=ratio
    )


def _aluminium_ph(said: FindingFacts) -> str:
    return say(
        "exchangeable aluminium is {aluminium} at pH (CaCl2) {ph}; soil that is not acid has next to none.",
        aluminium=said.value("aluminium", "aluminium.exchangeable"),
        ph=said.value("ph", "ph.cacl2"),
    )


def _carbon_range(said: FindingFacts) -> str:
    code = str(said.facts["analysis"])
    facts = {"analysis": analysis_name(code), "value": said.value("value", code)}
    if said.facts["side"] == "low":
        return say("{analysis} is {value}; only desert soil and deep subsoil hold so little.", **facts)
    return say("{analysis} is {value}; only peat and alpine soil hold so much.", **facts)


def _carbon_matter(said: FindingFacts) -> str:
    ratio = said.bounded(said.plain("ratio", 2))
    if said.facts["side"] == "low":
        return say(
            "organic matter is {ratio} times organic carbon; carbon is a part of it, so it should be more than that.",
            ratio=ratio,
        )
    return say(
        "organic matter is {ratio} times organic carbon; water from clay may have been counted with it.", ratio=ratio
    )


def _history(said: FindingFacts) -> str:
    code = str(said.facts["analysis"])
    return say(
        "{analysis} of {value} is far from what {samplings} gave: {usual}, give or take {spread}.",
        analysis=analysis_name(code),
        value=said.value("value", code),
        samplings=counted(int(said.facts["years"]), "earlier sampling", "earlier samplings"),
        usual=said.amount(float(said.facts["usual"]), code),
        spread=said.amount(float(said.facts["spread"]), code),
    )


def _swapped(said: FindingFacts) -> str:
    return say(
        "its bag looks swapped with that of {zone}; the odds are {odds}, judged by {analyses}.",
        zone=said.zone(str(said.facts["other"])),
        odds=odds_words(float(said.facts["odds"]), said.language),
        analyses=joined([analysis_name(code) for code in said.finding.analyses]),
    )


def _check_sample(said: FindingFacts) -> str:
    material = str(said.facts["material"])
    facts = {
        "material": said.names.materials.get(material) or as_words(material),
        "day": long_day(said.facts["day"], said.language),
        "analysis": analysis_name(str(said.facts["analysis"])),
    }
    if float(said.facts["z"]) > 0:
        return say(
            "the laboratory measured the check sample {material}, reported on {day}, too high in {analysis}, so this "
            "value may be too high as well.",
            **facts,
        )
    return say(
        "the laboratory measured the check sample {material}, reported on {day}, too low in {analysis}, so this value "
        "may be too low as well.",
        **facts,
    )


_SENTENCES: dict[ResultRule, Callable[[FindingFacts], str]] = {
    ResultRule.HARD_LIMIT: _hard_limit,
    ResultRule.PH_PAIR: _ph_pair,
    ResultRule.CATION_SUM: _cation_sum,
    ResultRule.SODIUM_SHARE: _sodium_share,
    ResultRule.CHLORIDE_CONDUCTIVITY: _chloride_conductivity,
    ResultRule.ABOVE_TOTAL: _above_total,
    ResultRule.CARBON_NITROGEN: _carbon_nitrogen,
    ResultRule.ALUMINIUM_PH: _aluminium_ph,
    ResultRule.CARBON_RANGE: _carbon_range,
    ResultRule.CARBON_MATTER: _carbon_matter,
    ResultRule.HISTORY: _history,
    ResultRule.SWAPPED: _swapped,
    ResultRule.CHECK_SAMPLE: _check_sample,
}
