"""What a bag id stands for."""

from __future__ import annotations

from soilrota.bag_ids import bag_id
from soilrota.results.bag_directory import BagDirectory, bag_key
from tests.results.intake_worlds import A, B, C, bag, check, client, note


def test_keys() -> None:
    """Ids of ours are alike however they are written; older ones as they stand, capitals and outer blanks apart."""
    assert bag_key(A.lower().replace("-", " ")) == A
    assert bag_key(" K6-0311 ") == bag_key("k6-0311")
    assert bag_key("K6 0311") != bag_key("K6-0311")


def test_who_claims_a_bag() -> None:
    """Label and notes of one client are one claim; another client's note is another; check samples stand apart."""
    held = BagDirectory.of([client(bag(A), note(A), note("K6-0311")), client(note(A), name="cobb")], [check(C)])
    assert [(one.client, one.bag is None, len(one.notes)) for one in held.claims[A]] == [
        ("anvil", False, 1), ("cobb", True, 1),
    ]  # fmt: skip
    assert list(held.checks) == [C]
    assert held.issued == (A, C)
    assert "anvil: home/flat, 0-10 cm of 2027-02-10" in str(held.claims[A][0])
    assert "the label" in str(BagDirectory.of([client(bag(B))], []).claims[B][0])


def test_an_id_with_a_wrong_check_character() -> None:
    """Near an issued id it is a misread one; near none, where a field note has it, it is an older id."""
    wrong = f"{A[:-1]}{'3' if A[-1] != '3' else '4'}"
    assert BagDirectory.of([client(bag(A), note(wrong))], []).misread(wrong)
    far = bag_id(200_000)
    assert not BagDirectory.of([client(bag(far), note(wrong))], []).misread(wrong)
    assert not BagDirectory.of([client(bag(A))], []).misread(A)


def test_proposals() -> None:
    """Issued ids one slip away, and older ids that look alike; after many odd ids of one file none any more."""
    held = BagDirectory.of([client(bag(A), bag(B), note("K6-0311"), note("K6-0312"))], [])
    assert held.near(f"{A[:4]}{A[5:]}".lower()) == ()
    assert set(held.near("k6-0313")) == {"K6-0311", "K6-0312"}
    for number in range(50):
        held.near(f"q-{number}")
    assert held.near("k6-0314") == ()
    assert set(held.near("k6-0313")) == {"K6-0311", "K6-0312"}
