"""The record of signatures: written, read back, added to, and never written over."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.faults import DamagedRecordsError
from soilrota.batch.signatures import add_signature, read_signatures, sign_state_of, standing_signature
from soilrota.batch.signing import digest_of, parts_of
from soilrota.model.advice import Signature
from soilrota.model.signing import SignState
from tests.batch.signed import CHANGES, DAY, everything, moved

CLIENT = "anvil-creek"
PARTS = parts_of(everything())
SIGNED = Signature(CLIENT, "mara-ellis", "Mara Ellis", "Agronomist – soils", DAY, digest_of(PARTS), PARTS)


def _file(root: Path) -> Path:
    """Return where the record lies."""
    return root / "records" / "signatures" / f"{CLIENT}.jsonl"


def _other(signature: Signature = SIGNED, name: str = "zones/a/b") -> Signature:
    """Return a signature under something else."""
    parts = {**signature.parts, name: "0" * 64}
    return replace(signature, parts=parts, digest=digest_of(parts), day=date(2027, 4, 1))


def test_nobody_signed(tmp_path: Path) -> None:
    """No file: no signatures, a draft."""
    assert read_signatures(tmp_path, CLIENT) == ((), ())
    assert sign_state_of(tmp_path, everything()) == SignState(None)


def test_what_is_written_is_read(tmp_path: Path) -> None:
    """Signatures come back as they were, one a line; lines that stand are kept byte for byte."""
    assert add_signature(tmp_path, SIGNED)
    first = _file(tmp_path).read_bytes()
    assert add_signature(tmp_path, _other())
    assert _file(tmp_path).read_bytes().startswith(first)
    assert read_signatures(tmp_path, CLIENT) == ((SIGNED, _other()), ())
    assert [path.name for path in _file(tmp_path).parent.iterdir()] == [_file(tmp_path).name]


def test_the_same_again_changes_nothing(tmp_path: Path) -> None:
    """The last digest is not signed twice, on whatever day; an earlier one is, once the last is another."""
    add_signature(tmp_path, SIGNED)
    before = _file(tmp_path).read_bytes()
    assert not add_signature(tmp_path, replace(SIGNED, day=date(2027, 5, 1)))
    assert _file(tmp_path).read_bytes() == before
    assert add_signature(tmp_path, _other())
    assert add_signature(tmp_path, SIGNED)


def test_a_line_without_its_end_is_completed(tmp_path: Path) -> None:
    """Some editors take the last line end away."""
    add_signature(tmp_path, SIGNED)
    _file(tmp_path).write_bytes(_file(tmp_path).read_bytes().rstrip())
    add_signature(tmp_path, _other())
    assert read_signatures(tmp_path, CLIENT) == ((SIGNED, _other()), ())


@pytest.mark.parametrize("name", CHANGES)
def test_any_change_unsigns_and_undoing_it_signs_again(tmp_path: Path, name: str) -> None:
    """Signed, one input of each part changed, a draft with the change named; put back, it stands."""
    add_signature(tmp_path, SIGNED)
    assert sign_state_of(tmp_path, everything()).is_signed
    state = sign_state_of(tmp_path, CHANGES[name](everything()))
    assert not state.is_signed
    assert state.signature == SIGNED
    assert len(state.changed) == 1
    assert sign_state_of(tmp_path, moved(everything())).is_signed


def test_only_the_last_signature_counts(tmp_path: Path) -> None:
    """What an earlier one was for is a draft once something else was signed."""
    add_signature(tmp_path, SIGNED)
    add_signature(tmp_path, _other())
    client = everything().client
    assert standing_signature(tmp_path, client, PARTS).changed == ("the zone a/b is gone",)
    assert standing_signature(tmp_path, client, _other().parts).is_signed


def _changed(**fields: object) -> Callable[[str], str]:
    """Return how a line is damaged by other values."""
    return lambda line: json.dumps({**json.loads(line), **fields})


DAMAGES: dict[str, tuple[Callable[[str], str], int, str]] = {
    "cut off": (lambda line: line[:50], 51, "no JSON"),
    "empty line": (lambda _: "", 1, "no JSON"),
    "no object": (lambda _: "[1]", 1, "does not hold client"),
    "key twice": (lambda line: line.replace('"name"', '"person"'), 1, "twice"),
    "key missing": (lambda line: line.replace('"name"', '"names"'), 1, "does not hold client"),
    "number": (_changed(name=7), 1, "name is no text"),
    "empty": (_changed(qualification=""), 1, "qualification is no text"),
    "other client": (_changed(client="brolga-plains"), 1, "the signature is for brolga-plains"),
    "parts": (_changed(parts=["a"]), 1, "parts does not hold"),
    "part": (_changed(parts={"client": "short"}), 1, "parts does not hold"),
    "digest": (_changed(digest="0" * 64), 1, "not that of the parts"),
    "part changed": (_changed(parts={**PARTS, "client": "0" * 64}), 1, "not that of the parts"),
    "day": (_changed(day="15/03/2027"), 1, "is no day"),
    "deep": (lambda _: "[" * 100_000, 1, ""),
}


@pytest.mark.parametrize("name", DAMAGES)
def test_damage_is_located_and_never_written_over(tmp_path: Path, name: str) -> None:
    """File, line and column, a mend; a draft; and the file stays as it is."""
    damage, column, words = DAMAGES[name]
    add_signature(tmp_path, SIGNED)
    add_signature(tmp_path, _other())
    first, second = _file(tmp_path).read_text(encoding="utf-8").splitlines()
    _file(tmp_path).write_text(f"{first}\n{damage(second)}\n", encoding="utf-8")
    before = _file(tmp_path).read_bytes()
    signatures, problems = read_signatures(tmp_path, CLIENT)
    assert signatures is None
    (problem,) = problems
    assert problem.code == "damaged-signature"
    assert (problem.place.file, problem.place.line) == (f"records/signatures/{CLIENT}.jsonl", 2)
    assert problem.place.column == column
    assert words in problem.found
    assert "backup" in problem.mend
    state = sign_state_of(tmp_path, everything())
    assert (state.is_signed, state.signature, state.problems) == (False, None, problems)
    with pytest.raises(DamagedRecordsError) as refused:
        add_signature(tmp_path, SIGNED)
    assert refused.value.problems == problems
    assert _file(tmp_path).read_bytes() == before


def test_what_is_no_text_is_located(tmp_path: Path) -> None:
    """Bytes that are not UTF-8, and a folder in its place."""
    _file(tmp_path).parent.mkdir(parents=True)
    _file(tmp_path).write_bytes(b"{\xff}")
    assert read_signatures(tmp_path, CLIENT)[1][0].code == "not-utf-8"
    _file(tmp_path).unlink()
    _file(tmp_path).mkdir()
    assert read_signatures(tmp_path, CLIENT)[0] is None
