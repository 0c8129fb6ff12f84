"""Which pictures a zone has beside its charts: cation shares that were reckoned, profiles where there are layers."""

from __future__ import annotations

from collections import defaultdict

from soilrota.documents.judgement_sentences import began, name_of, result_words, value_words
from soilrota.documents.protocols import depth_words
from soilrota.documents.report_grounds import all_judged
from soilrota.documents.report_profile import ProfileLayer, depth_profile
from soilrota.documents.report_shares import share_bar
from soilrota.language import marked, say
from soilrota.model.judgement import Quantity, ZoneJudgement
from soilrota.model.results import Result

#: Shares in the order of the bar, and what each is called in it.
_SHARES = {
    "calcium-share": marked("Calcium"),
    "magnesium-share": marked("Magnesium"),
    "potassium-share": marked("Potassium"),
    "sodium-share": marked("Sodium"),
    "aluminium-share": marked("Aluminium"),
}


def share_bars(judged: ZoneJudgement, language: str) -> tuple[str, ...]:
    """Return a bar of cation shares for each layer in which any were reckoned."""
    layers: defaultdict[tuple[float, float], dict[str, Quantity]] = defaultdict(dict)
    for one in judged.quantities:
        if one.code in _SHARES:
            layers[one.top_cm, one.bottom_cm][one.code] = one
    return tuple(
        share_bar(
            [
                (say(words), found[code].value, value_words(code, "derived", found[code].value, found[code].unit))
                for code, words in _SHARES.items()
                if code in found
            ],
            say("Shares of the exchange capacity, {depth}", depth=depth_words(*layer, language)),
        )
        for layer, found in sorted(layers.items())
    )


def profiles(judged: ZoneJudgement, language: str) -> tuple[str, ...]:
    """Return a depth profile for each analysis of which the last results have several layers."""
    found: defaultdict[str, dict[tuple[float, float], Result]] = defaultdict(dict)
    for one in all_judged(judged):
        result = one.result
        if result.method != "derived":
            found[f"{result.analyte}.{result.method}"][result.top_cm, result.bottom_cm] = result
    return tuple(
        depth_profile(
            [
                ProfileLayer(
                    depth_words(*layer, language),
                    result.value,
                    result_words(result),
                    is_censored=bool(result.qualifier),
                )
                for layer, result in sorted(layers.items())
            ],
            began(name_of(code)),
        )
        for code, layers in found.items()
        if len(layers) > 1
    )
