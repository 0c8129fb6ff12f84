"""Bag ids: the published check characters, counting without gaps, and every slip that people make."""

from __future__ import annotations

import random
import string
from itertools import islice, pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_2

from soilrota.bag_ids import bag_id, is_bag_id, nearest_issued, normalised, serial_of, spoken, with_check

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
#: What can be put in the place of a character: all of ISO/IEC 7064's alphabet.
CHARACTERS = string.digits + string.ascii_uppercase + "*"
#: Ids with four digits that exist.
WITH_FOUR = 24 * 10_000 - sum(
    mod_37_2.calc_check_digit(f"{letter}{number:04}") in "*IO" for letter in LETTERS for number in range(10_000)
)


@pytest.mark.parametrize(
    ("number", "check", "source"),
    [
        ("G123417654321", "A", "ICCBBA, Use of the Donation Identification Number, 3.3 (read second hand)"),
        ("A999917123456", "9", "ICCBBA, Use of the Donation Identification Number, figure 1 (read second hand)"),
        ("A999916123456", "Q", "ICCBBA, An Introduction to ISBT 128, 2018, section 4 (read second hand)"),
        ("G123498654321", "H", "JPAC, Guidelines for the Blood Transfusion Services, annex 2, worked step by step"),
        ("G123489654321", "Y", "python-stdnum, stdnum.iso7064.mod_37_2, its documented example"),
    ],
)
def test_published_check_characters(number: str, check: str, source: str) -> None:
    """The library that is used gives the check characters printed for blood donations under ISO/IEC 7064 MOD 37-2."""
    assert mod_37_2.calc_check_digit(number) == check, source


def _counted() -> list[str]:
    """Return the ids of four digits by plain counting, those with a bad check character left out."""
    bodies = (f"{letter}{number:04}" for letter, number in product(LETTERS, range(10_000)))
    checked = ((body, mod_37_2.calc_check_digit(body)) for body in bodies)
    return [f"{body}-{check}" for body, check in checked if check not in "*IO"]


def test_serials_count_the_ids_that_exist() -> None:
    """All ids of four digits, in order, without gap; then five digits; there and back."""
    ids = _counted()
    assert len(ids) == WITH_FOUR
    for serial in (*range(1, 3000), *range(3000, WITH_FOUR, 97), WITH_FOUR):
        assert bag_id(serial) == ids[serial - 1]
        assert serial_of(ids[serial - 1]) == serial
    assert bag_id(WITH_FOUR)[:5] == "Z9999"
    assert bag_id(WITH_FOUR + 1)[:6] == "A00000"
    assert all(before < after for before, after in pairwise(ids))


@given(st.integers(1, 10**9))
def test_there_and_back(serial: int) -> None:
    """Any serial is told by its id, which is a bag id, and the next one follows it."""
    made, following = bag_id(serial), bag_id(serial + 1)
    assert is_bag_id(made)
    assert serial_of(made) == serial
    assert (len(made), made) < (len(following), following)


def _ids_to_spoil() -> list[str]:
    """Return 400 ids of four digits and 100 of five."""
    drawn = random.Random(37)
    return [bag_id(drawn.randint(1, WITH_FOUR)) for _ in range(400)] + [
        bag_id(drawn.randint(WITH_FOUR + 1, 5 * WITH_FOUR)) for _ in range(100)
    ]


def test_every_wrong_character_is_found() -> None:
    """Every place of 500 ids, every character of the alphabet: never another bag id, however it is tidied."""
    spoilt = 0
    for made in _ids_to_spoil():
        for place, right in enumerate(made):
            for wrong in CHARACTERS.replace(right, ""):
                text = f"{made[:place]}{wrong}{made[place + 1 :]}"
                assert not is_bag_id(text)
                spoilt += right != "-" and not is_bag_id(normalised(text))
    assert spoilt == sum((len(made) - 1) * 36 for made in _ids_to_spoil())


def test_every_swap_of_neighbours_is_found() -> None:
    """Every pair of unlike neighbours, those across the hyphen too."""
    for made in _ids_to_spoil():
        bare = made.replace("-", "")
        for place, (one, other) in enumerate(pairwise(bare)):
            text = f"{bare[:place]}{other}{one}{bare[place + 2 :]}"
            assert one == other or not is_bag_id(normalised(text))
            assert one == other or not is_bag_id(f"{text[:-1]}-{text[-1]}")


def test_all_ids_of_a_letter_and_their_neighbours_in_number() -> None:
    """Exhaustive: all ids of one letter, every wrong character in every place of the number and the check."""
    existing = {made.replace("-", "") for made in islice(_counted(), 9_200)}
    for bare in existing:
        for place in range(1, len(bare)):
            head, tail = bare[:place], bare[place + 1 :]
            assert not any(f"{head}{wrong}{tail}" in existing for wrong in "0123456789" if wrong != bare[place])
        assert not any(
            one != other and f"{bare[:place]}{other}{one}{bare[place + 2 :]}" in existing
            for place, (one, other) in enumerate(pairwise(bare))
        )


@pytest.mark.parametrize(
    "text", ["b0412-g", " B0412-G ", "B0412G", "b 0412 g", "B0412\u2013G", "B0412\u2212g", "B0412\uff0dG", "B0412 - G"]
)
def test_what_people_write_is_set_right(text: str) -> None:
    """Case, blanks, a missing or odd hyphen."""
    assert normalised(text) == "B0412-G"


@pytest.mark.parametrize(
    "text", ["BO412-G", "B04I2-G", "B0412-6", "8O412-G", "B04-12G", "", "*", "\u0392\u0660412-G", "ß0412-g"]
)
def test_nothing_else_is(text: str) -> None:
    """No character is taken for another, nor moved: these stay wrong."""
    assert not is_bag_id(normalised(text))


def test_hyphen_of_more_digits() -> None:
    """Without its hyphen an id of five digits is told from one of four by its length alone."""
    made = bag_id(WITH_FOUR + 5)
    assert normalised(made.replace("-", "").lower()) == made


@pytest.mark.parametrize("text", ["", "B0412", "B0412-H", "I0412-3", "B412-G", "B0412--G", "b0412-g", "B0412-G\n"])
def test_what_is_no_bag_id(text: str) -> None:
    """It has no serial."""
    assert not is_bag_id(text)
    with pytest.raises(ValueError, match="no bag id"):
        serial_of(text)


@pytest.mark.parametrize("serial", [0, -3])
def test_serials_begin_at_one(serial: int) -> None:
    """There is no bag before the first."""
    with pytest.raises(ValueError, match="count from 1"):
        bag_id(serial)


def test_read_aloud() -> None:
    """Letters by the spelling alphabet, digits as words; every id has its own words."""
    assert spoken("J9067-X") == "Juliett nine zero six seven dash X-ray"
    said = {spoken(bag_id(serial)) for serial in range(1, 2000)}
    assert len(said) == 1999
    assert all(set(words) <= set(string.ascii_letters + " -") for words in said)


def test_the_ids_that_may_be_meant() -> None:
    """Every spoilt id leads back to the one that it was made of."""
    issued = [bag_id(serial) for serial in range(1, 300)]
    for made in issued[::7]:
        bare = made.replace("-", "")
        assert made in nearest_issued(f"{bare[:2]}{'0' if bare[2] != '0' else '1'}{bare[3:]}", issued)
        if bare[-1] != bare[-2]:
            assert made in nearest_issued(f"{bare[:-2]}{bare[-1]}{bare[-2]}".lower(), issued)
        assert made not in nearest_issued(made, issued)
    assert nearest_issued("nonsense", issued) == ()
    assert nearest_issued("A00-15C", ["A0001-C", "A0001-C"]) == ()


@given(st.integers(1, 500_000), st.sampled_from(CHARACTERS))
def test_a_wrong_check_character_is_mended(serial: int, wrong: str) -> None:
    """Whatever stands in its place, or nothing, the id comes back; a number that is passed over gives none."""
    right = bag_id(serial)
    assert with_check(f"{right[:-1]}{wrong}") == with_check(right[:-1]) == with_check(right.lower()) == right
    assert with_check("Z9000") == "Z9000-W"
    assert with_check("Z90000") == with_check("") == with_check("CHECK") == with_check("Z9004-O") == ""
