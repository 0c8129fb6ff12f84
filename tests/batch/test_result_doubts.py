"""What is odd about results on a day."""

from __future__ import annotations

from datetime import date

from soilrota.batch.reading import read_sound_client
from soilrota.batch.result_doubts import findings_on_results
from soilrota.model.result_findings import ResultRule
from tests.documents.made import BOOK


def test_a_check_sample_counts_from_the_day_on_which_it_was_reported() -> None:
    """Before it, nothing is known of it, and the answer says until when that holds."""
    client = read_sound_client(BOOK, "brolga-plains")
    late, until = findings_on_results(BOOK, client, date(2027, 2, 15))
    assert until == date.max
    assert any(one.rule is ResultRule.CHECK_SAMPLE for one in late)
    early, known_until = findings_on_results(BOOK, client, date(2020, 1, 1))
    assert not any(one.rule is ResultRule.CHECK_SAMPLE for one in early)
    assert date(2020, 1, 1) <= known_until < date.max
