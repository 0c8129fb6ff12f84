"""Documents: values, places, and nothing said twice."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.files import read_yaml

LABORATORY = """# yaml-language-server: $schema=../schemas/laboratory.schema.json
name: North Bench
country: AU
turnaround_working_days: 8
courier_days: 2
receiving_weekdays: [monday, tuesday]
"""


def test_values_and_places(tmp_path: Path) -> None:
    """Values come typed; places are those of values and of keys, or of the nearest thing written."""
    file = tmp_path / "north-bench.yaml"
    file.write_text(LABORATORY, encoding="utf-8")
    document, problems = read_yaml(file, "laboratories/north-bench.yaml", "laboratory")
    assert problems == ()
    assert document is not None
    assert document.data["turnaround_working_days"] == 8
    assert str(document.place("receiving_weekdays", 1)) == "laboratories/north-bench.yaml:6:30"
    assert str(document.key_place("country")) == "laboratories/north-bench.yaml:3:1"
    assert str(document.place("nothing")) == "laboratories/north-bench.yaml:2:1"
    assert document.place("receiving_weekdays", 1).path == "receiving_weekdays[1]"


def test_a_refused_word_is_said_once(tmp_path: Path) -> None:
    """A word that was refused on its own is not held against the schema again."""
    file = tmp_path / "x.yaml"
    file.write_text(LABORATORY.replace("courier_days: 2", "courier_days: 1_0"), encoding="utf-8")
    _, problems = read_yaml(file, "x.yaml", "laboratory")
    assert [problem.code for problem in problems] == ["surprising-value"]


def test_all_problems_come_at_once_in_order(tmp_path: Path) -> None:
    """Faults of form, words and schema are gathered, sorted by line."""
    file = tmp_path / "x.yaml"
    file.write_text("country: au\ncourier_days: -1\nreceiving_weekdays: [munday]\nturnaround: 3\n", encoding="utf-8")
    _, problems = read_yaml(file, "x.yaml", "laboratory")
    assert [(problem.place.line, problem.code) for problem in problems] == [
        (1, "missing-key"),
        (1, "missing-key"),
        (1, "wrong-form"),
        (2, "out-of-range"),
        (3, "unknown-word"),
        (4, "unknown-key"),
    ]


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_a_mutated_file_never_raises(data: st.DataObject) -> None:
    """Any line deleted, doubled or replaced gives a document or located problems."""
    lines = LABORATORY.splitlines()
    index = data.draw(st.integers(0, len(lines) - 1))
    lines[index : index + 1] = data.draw(
        st.sampled_from([[], [lines[index]] * 2, ["- x"], ["  deeper: 1"], [": :"], ["a: [1, {b: c}]"]])
    )
    from soilrota.files.reading import check
    from soilrota.files.schemas import shipped_schemas
    from soilrota.files.strict_yaml import parse_text

    root, problems = parse_text("\n".join(lines), "x.yaml")
    if root is None:
        assert problems
    else:
        _, found = check(root, "x.yaml", "laboratory.schema.json", shipped_schemas())
        assert all(problem.place.line >= 1 for problem in found)
