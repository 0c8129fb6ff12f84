"""What headings are compared by."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from soilrota.files import heading_key


def test_what_makes_no_difference() -> None:
    """Capitals, blanks of every kind and the way an accent is composed make no difference; letters do."""
    assert heading_key("Prove\u0301  No.\n") == heading_key("prov\u00e9\u00a0NO.")
    assert heading_key("P Colwell") != heading_key("K Colwell")


@given(st.text(max_size=20))
def test_a_key_is_its_own_key(text: str) -> None:
    """Reading a key again changes nothing."""
    assert heading_key(heading_key(text)) == heading_key(text)
