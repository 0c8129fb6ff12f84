"""What templates say: words in the language that is spoken, as markup, so that a fact may carry an emphasis.

Words and facts are escaped; a fact that is markup already, such as `strong(…)`, stays what it is.
"""

from __future__ import annotations

from markupsafe import Markup, escape

from soilrota.language.figures import counted
from soilrota.language.speech import found, found_as, found_count


def strong(text: str) -> Markup:
    """Return a text that a reader is to see first.

    >>> strong("5 < 6")
    Markup('<strong>5 &lt; 6</strong>')
    """
    return Markup("<strong>{}</strong>").format(text)


def say(words: str, /, **facts: object) -> Markup:
    """Return words with their facts, as `soilrota.language.say` does, for a template.

    >>> say("Open: {days}.", days=strong("<June>"))
    Markup('Open: <strong>&lt;June&gt;</strong>.')
    """
    return _filled(found(words), facts)


def say_as(use: str, words: str, /, **facts: object) -> Markup:
    """Return words that another language says differently by their use, as `soilrota.language.say_as` does.

    >>> say_as("column", "Zone")
    Markup('Zone')
    """
    return _filled(found_as(use, words), facts)


def say_count(one: str, many: str, count: int, /, **facts: object) -> Markup:
    """Return words in the form that a count asks for, as `soilrota.language.say_count` does.

    >>> say_count("{count} bag", "{count} bags", 2)
    Markup('2 bags')
    """
    return _filled(found_count(one, many, count), {"count": count, **facts})


def _filled(words: str, facts: dict[str, object]) -> Markup:
    """Return escaped words with their facts, each escaped unless it is markup."""
    escaped = escape(words)
    return escaped.format(**facts) if facts else escaped


#: What every template knows by name.
SPOKEN = {"say": say, "say_as": say_as, "say_count": say_count, "counted": counted, "strong": strong}
