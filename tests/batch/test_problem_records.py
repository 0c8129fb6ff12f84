"""Problems travel through JSON unharmed."""

from __future__ import annotations

import json

from hypothesis import given
from hypothesis import strategies as st

from soilrota.batch.problem_records import from_records, to_records
from soilrota.problems import Place, Problem, Severity

WORDS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
PROBLEMS = st.builds(
    Problem,
    st.sampled_from(Severity),
    WORDS,
    st.builds(Place, WORDS, st.integers(0, 999), st.integers(0, 99), WORDS),
    WORDS,
    WORDS,
    WORDS,
)


@given(st.lists(PROBLEMS, max_size=4))
def test_there_and_back(problems: list[Problem]) -> None:
    """Problems to JSON text and back are the same problems."""
    assert from_records(json.loads(json.dumps(to_records(problems)))) == tuple(problems)
