"""What templates say."""

from __future__ import annotations

from soilrota.documents.said_markup import say, say_as, say_count, strong
from soilrota.language import speaking


def test_words_and_facts_are_escaped_but_for_markup() -> None:
    """What a client wrote stays text; an emphasis of ours stays an emphasis."""
    assert say("{a} & {b}", a="<i>", b=strong("<b>")) == "&lt;i&gt; &amp; <strong>&lt;b&gt;</strong>"
    assert say_count("{count} bag of {who}", "{count} bags of {who}", 1, who="<i>") == "1 bag of &lt;i&gt;"
    assert say("braces {stay} where there are no facts") == "braces {stay} where there are no facts"


def test_it_speaks_the_language_that_is_spoken() -> None:
    """A text of the catalogue comes out in its words, and one that is not in it as it is."""
    with speaking("es"):
        assert say_as("list", "{before} and {last}", before="<a>", last="b") == "&lt;a&gt; y b"
        assert say("no catalogue has this") == "no catalogue has this"
