"""What a later issue of a report changed, in words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.documents.correction_sentences import correction_sentence
from soilrota.model.results import Correction, Result
from soilrota.problems import Place
from tests.documents.made import example

EARLIER = Result(
    "NB-1", date(2027, 2, 1), date(2027, 2, 12), "home", "north-flat", "topsoil-pasture", "A1", 0, 10,
    "phosphorus", "colwell", "", 1300.5, "mg/kg", "north-bench", Place("r.csv", 2),
)  # fmt: skip
LATER = replace(EARLIER, value=2.0, qualifier="<", issue=2)
PH = replace(EARLIER, analyte="ph", method="cacl2", value=5.25, unit="pH")


@pytest.mark.parametrize(
    ("earlier", "later", "words"),
    [
        (EARLIER, LATER, "Colwell P of North flat, 0–10 cm, is <2 mg/kg and no longer 1,300.5 mg/kg"),
        (None, LATER, "Colwell P of North flat, 0–10 cm, is new: <2 mg/kg"),
        (EARLIER, None, "Colwell P of North flat, 0–10 cm, is not repeated; 1,300.5 mg/kg of the earlier issue stands"),
        (PH, replace(PH, value=5.2), "pH (CaCl2) of North flat, 0–10 cm, is 5.2 and no longer 5.25"),
        (None, replace(LATER, zone="gone"), "Colwell P of gone, 0–10 cm, is new: <2 mg/kg"),
    ],
)
def test_what_was_changed(earlier: Result | None, later: Result | None, words: str) -> None:
    """Changed, added, not repeated; a zone that is no longer there by its id; no unit behind a pH."""
    correction = Correction(earlier, later, 2, date(2027, 2, 20))
    assert correction_sentence(correction, example("anvil-creek")) == f"Report NB-1, issue 2: {words}"
