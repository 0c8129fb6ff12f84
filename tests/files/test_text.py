"""From bytes to safe text."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from soilrota.files.text import decode, place_at, read_text


@given(st.binary(max_size=200))
def test_any_bytes_give_text_or_a_problem(raw: bytes) -> None:
    """No bytes raise; what is accepted is UTF-8."""
    text, problems = decode(raw, "x")
    assert (text is None) == bool(problems)
    if text is not None:
        assert text.encode() == raw.removeprefix(b"\xef\xbb\xbf")


def test_a_file_over_the_limit_is_not_read(tmp_path: Path) -> None:
    """Size is looked at first."""
    file = tmp_path / "big"
    file.write_bytes(b"x" * 11)
    assert read_text(file, "big", 10)[1][0].code == "too-large"
    assert read_text(file, "big", 11)[0] == "x" * 11


def test_places_of_an_index() -> None:
    """Lines and columns from one."""
    assert str(place_at("ab\ncd", 4, "x")) == "x:2:2"
    assert str(place_at("ab", 0, "x")) == "x:1:1"
