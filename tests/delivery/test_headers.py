"""Names, subjects and addresses: sent as they are meant, or refused; never another header, never another recipient."""

from __future__ import annotations

from email.header import decode_header, make_header

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.delivery.headers import can_be_unsubscribed_at, clean, mailbox, text_line

#: Any text, lone surrogates, controls and encoded words included.
NASTY = st.lists(
    st.one_of(
        st.text(st.characters(), max_size=30),
        st.sampled_from(["=?UTF-8?Q?=0A?=", "\r\nBcc: x@y.example", "=\u200b?", "==??", '"', "\\", ",", "<", "؛ سلام"]),
    ),
    max_size=12,
).map("".join)


@given(NASTY)
def test_a_clean_text_is_one_line_without_encoded_words(text: str) -> None:
    """No control, no line end, no `=?`; cleaning again changes nothing; it can be encoded."""
    done = clean(text)
    assert clean(done) == done
    assert "=?" not in done
    assert all(ord(letter) >= 32 and letter != "\x7f" for letter in done)
    assert len(done.splitlines()) <= 1
    done.encode()


@given(NASTY)
def test_a_text_comes_back_as_it_was_meant(text: str) -> None:
    """Whatever its letters and length; each line stays short and is ASCII."""
    meant = clean(text)
    lines = text_line(meant).split("\r\n ")
    assert all(line.isascii() and len(line) <= 75 for line in lines)
    assert all("\r" not in line and "\n" not in line for line in lines)
    assert str(make_header(decode_header("\r\n ".join(lines)))) == meant


@given(NASTY)
def test_a_name_comes_back_and_the_address_stays_alone(name: str) -> None:
    """The display name is quoted or encoded; what follows is the one address."""
    box, wrong = mailbox(name, "jo@farms.example")
    assert (wrong, box is not None) == ("", True)
    assert box is not None
    head, _, address = box.line().rpartition("<")
    assert address == ("jo@farms.example>" if box.name else "") or not box.name
    words = head.strip()
    if words.startswith('"'):
        assert words.endswith('"')
        read = words[1:-1].replace('\\"', '"').replace("\\\\", "\\")
    else:
        read = str(make_header(decode_header(words)))
    assert read == (box.name or "")


def test_right_to_left_and_long_names_are_kept() -> None:
    """Marks that letters need stay; what forces a direction on others goes."""
    assert clean("مزرعة\u200c النخيل\u200f") == "مزرعة\u200c النخيل\u200f"
    assert clean("safe\u202eexe.fdp") == "safe exe.fdp"
    long = "Ångström, " * 30
    box, _ = mailbox(long, "jo@farms.example")
    assert box is not None
    assert str(make_header(decode_header(box.line().rpartition("\r\n <")[0]))) == long.strip()


@pytest.mark.parametrize(
    "address",
    [
        "jo@a.example, al@b.example",
        "jo@a.example\r\nBcc: al@b.example",
        "Jo <jo@a.example>",
        "@",
        "jo",
        "jo@-a.example",
        "=?utf-8?q?jo?=@a.example",
        "jo@" + "a" * 250 + ".example",
        "jo al@a.example",
        ", ".join(f"p{number}@a.example" for number in range(500)),
        "jo@stra\u00dfe.example",
    ],
)
def test_what_is_not_one_plain_address_is_refused(address: str) -> None:
    """With the reason in words, and without a line end in them."""
    box, wrong = mailbox("Jo", address)
    assert box is None
    assert wrong
    assert wrong == clean(wrong)
    assert len(wrong) < 300


@pytest.mark.parametrize(
    ("address", "written", "needs_utf8"),
    [
        ("jo@farms.example", "jo@farms.example", False),
        ("jo@müller.example", "jo@xn--mller-kva.example", False),
        ("jörg@farms.example", "jörg@farms.example", True),
        ("jörg@MÜLLER.example", "jörg@xn--mller-kva.example", True),
    ],
)
def test_international_addresses(address: str, written: str, *, needs_utf8: bool) -> None:
    """A domain is written as the network has it; letters before the `@` need a server that takes them."""
    box, _ = mailbox("", address)
    assert box is not None
    assert (box.address, box.needs_utf8, box.line()) == (written, needs_utf8, written)


@pytest.mark.parametrize(
    ("address", "can"),
    [
        ("mailto:no-more@small.example", True),
        ("mailto:no-more@small.example?subject=no-more", True),
        ("mailto:a@b.example>\r\nBcc: x", False),
        ("mailto:a@b.example, mailto:c@d.example", False),
        ("mailto:=?utf-8?q?a?=@b.example", False),
        ("javascript:alert(1)", False),
        ("mailto:" + "a" * 400, False),
    ],
)
def test_where_one_is_unsubscribed(address: str, *, can: bool) -> None:
    """A plain mailto address."""
    assert can_be_unsubscribed_at(address) is can
