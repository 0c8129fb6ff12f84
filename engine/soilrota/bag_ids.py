"""Bag ids: short, unique for the practice, readable aloud, with a check character (ISO/IEC 7064, MOD 37-2).

An id is a letter without I and O, four digits, a hyphen and the check character, for instance `B0412-G`. Ids follow one
another as one counts: A0000 to A9999, B0000 and so on to Z9999; then five digits from A00000. A number whose check
character would be `*`, `I` or `O` is passed over, so that serials number the ids that exist, from 1, without a gap.

MOD 37-2 finds every wrong character and every swap of two neighbours.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from itertools import count

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
_MODULUS = len(_ALPHABET)
_LEAST_DIGITS = 4
_FORM = re.compile(r"[A-HJ-NP-Z][0-9]{4,9}-[0-9A-HJ-NP-Z]")
#: The same with its hyphen missing.
_JOINED = re.compile(r"([A-HJ-NP-Z][0-9]{4,9})([0-9A-HJ-NP-Z])")
#: Letter and digits of an id with whatever stands for its check character; or four digits without one.
_NUMBERED = re.compile(r"([A-HJ-NP-Z][0-9]{4,9})(?:-[0-9]?|-?[A-Z*])|([A-HJ-NP-Z][0-9]{4})")
#: What keyboards, editors and phones write for a hyphen: hyphens, dashes, the minus sign, wide and small forms.
_HYPHENS = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63\uff0d"
_TIDY = str.maketrans(dict.fromkeys(_HYPHENS, "-") | {one: one.upper() for one in "abcdefghijklmnopqrstuvwxyz"})
#: Sums of a number whose check character would be one that nobody reads rightly.
_PASSED_OVER = frozenset(sum_ for sum_ in range(_MODULUS) if _ALPHABET[(1 - 2 * sum_) % _MODULUS] in "*IO")
#: Spelling alphabet of the ITU Radio Regulations, appendix 14, and of ICAO annex 10; digits as plain words.
_WORDS = (
    "zero one two three four five six seven eight nine Alfa Bravo Charlie Delta Echo Foxtrot Golf Hotel India Juliett "
    "Kilo Lima Mike November Oscar Papa Quebec Romeo Sierra Tango Uniform Victor Whiskey X-ray Yankee Zulu dash"
)
_SPOKEN = dict(zip("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-", _WORDS.split(), strict=True))


def bag_id(serial: int) -> str:
    """Return the id of a serial number, which counts from 1.

    >>> bag_id(1), bag_id(2), bag_id(220_000)
    ('A0000-E', 'A0001-C', 'Z9399-S')

    Raises:
        ValueError: the serial number is below 1.
    """
    if serial < 1:
        raise ValueError(f"serial numbers of bags count from 1, not {serial}")
    left = serial - 1
    for digits in count(_LEAST_DIGITS):
        for letter in _LETTERS:
            ids = _ids(digits, _ALPHABET.index(letter))
            if left < ids:
                return _numbered(letter, digits, left)
            left -= ids
    raise AssertionError  # the count above has no end


def _numbered(letter: str, digits: int, left: int) -> str:
    """Return the id with so many ids of its letter and number of digits before it."""
    body, total = letter, _ALPHABET.index(letter)
    for after in reversed(range(digits)):
        for digit in range(10):
            ids = _ids(after, _next(total, digit))
            if left < ids:
                body, total = f"{body}{digit}", _next(total, digit)
                break
            left -= ids
    return f"{body}-{_check_character(body)}"


def _check_character(body: str) -> str:
    """Return the check character of letter and digits."""
    from stdnum.iso7064 import mod_37_2  # noqa: PLC0415 - loads what speaks to the network; most nights check no id

    return str(mod_37_2.calc_check_digit(body))


def serial_of(bag: str) -> int:
    """Return the serial number of an id.

    >>> serial_of("A0001-C"), serial_of(bag_id(123_456))
    (2, 123456)

    Raises:
        ValueError: the text is no bag id.
    """
    if not is_bag_id(bag):
        raise ValueError(f"no bag id: {bag!r}")
    letter, numbers = bag[0], bag[1:-2]
    before = sum(
        _ids(digits, _ALPHABET.index(one)) for digits in range(_LEAST_DIGITS, len(numbers)) for one in _LETTERS
    )
    before += sum(_ids(len(numbers), _ALPHABET.index(one)) for one in _LETTERS[: _LETTERS.index(letter)])
    total = _ALPHABET.index(letter)
    for place, digit in enumerate(int(one) for one in numbers):
        before += sum(_ids(len(numbers) - place - 1, _next(total, lower)) for lower in range(digit))
        total = _next(total, digit)
    return before + 1


def normalised(text: str) -> str:
    """Return a text with what people write differently in an id set right: case, blanks, and its hyphen.

    A missing hyphen is put before the last character, an odd one becomes a plain one. Nothing else is changed: no
    character is taken for another, so a wrong id stays wrong.

    >>> normalised(" b0412 g "), normalised("b0412–g"), normalised("BO412-G")
    ('B0412-G', 'B0412-G', 'BO412-G')
    """
    tidied = "".join(text.split()).translate(_TIDY)
    joined = _JOINED.fullmatch(tidied)
    return f"{joined[1]}-{joined[2]}" if joined else tidied


def is_bag_id(text: str) -> bool:
    """Return whether a text is a bag id as it is printed, with the right check character.

    >>> is_bag_id("A0001-C"), is_bag_id("A0010-C"), is_bag_id("a0001-c")
    (True, False, False)
    """
    return _FORM.fullmatch(text) is not None and _check_character(text[:-2]) == text[-1]


def has_the_form(text: str) -> bool:
    """Return whether a text is built like a bag id, its check character right or wrong.

    >>> has_the_form("A0001-C"), has_the_form("A0010-C"), has_the_form("A26-003")
    (True, True, False)
    """
    return _FORM.fullmatch(text) is not None


def with_check(text: str) -> str:
    """Return the id that a text is once its check character is right; empty where no id has its letter and digits.

    Only the check character is set, whether it is wrong or missing; letter and digits are taken as they are written.
    Five digits without a hyphen may be either four and a check character, or five without one: nothing is taken for
    granted then.

    >>> with_check("a0001-e"), with_check("A0001"), with_check("A0001-C"), with_check("A001"), with_check("Z9004")
    ('A0001-C', 'A0001-C', 'A0001-C', '', '')
    """
    found = _NUMBERED.fullmatch("".join(text.split()).translate(_TIDY))
    if found is None:
        return ""
    number = found[1] or found[2]
    whole = f"{number}-{_check_character(number)}"
    return whole if is_bag_id(whole) else ""


def spoken(bag: str) -> str:
    """Return an id as it is read aloud; a character that no id has is left as it stands.

    >>> spoken("B0412-G")
    'Bravo zero four one two dash Golf'
    """
    return " ".join(_SPOKEN.get(one, one) for one in bag)


def nearest_issued(bad: str, issued: Iterable[str]) -> tuple[str, ...]:
    """Return the ids of bags that exist and are one wrong character or one swap of neighbours away, in their order.

    Args:
        bad: what was written; case, blanks and its hyphen do not count.
        issued: ids of bags that exist.

    >>> nearest_issued("a0010-c", ["A0000-E", "A0001-C", "A0019-C"])
    ('A0001-C', 'A0019-C')
    """
    wrong = normalised(bad).replace("-", "")
    return tuple(dict.fromkeys(one for one in issued if _one_slip(wrong, one.replace("-", ""))))


def _one_slip(wrong: str, right: str) -> bool:
    """Return whether two texts differ by one character, or by two neighbours that changed places."""
    if len(wrong) != len(right):
        return False
    places = [place for place, (one, other) in enumerate(zip(wrong, right, strict=True)) if one != other]
    if len(places) == 1:
        return True
    if not places or places[1:] != [places[0] + 1]:
        return False
    first, second = places
    return (wrong[first], wrong[second]) == (right[second], right[first])


def _next(total: int, digit: int) -> int:
    """Return the running sum of ISO/IEC 7064 (pure system, radix 2) after one more digit [-]."""
    return (2 * total + digit) % _MODULUS


@cache
def _ids(digits: int, total: int) -> int:
    """Return how many ids begin with a running sum and go on with so many digits [-]."""
    if not digits:
        return int(total not in _PASSED_OVER)
    return sum(_ids(digits - 1, _next(total, digit)) for digit in range(10))
