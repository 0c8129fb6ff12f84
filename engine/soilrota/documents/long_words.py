"""Whether a document holds a word in a table that would make its column grow, or the table leave the page."""

from __future__ import annotations

import re

#: A table whose columns follow their content has six at most, two of them with names that others chose: those can
#: have so many of the widest letter.
_LONGEST = 18
_CELL = re.compile(r"<t([dh])\b[^>]*>(.*?)</t\1>", re.DOTALL)
_PICTURE = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
#: What begins or ends a line; a note has lines of its own, see `programme.css`.
_BREAK = re.compile(r"<br\b[^>]*>|<span class=\"note\">|</?(?:p|div|li|ul|table|tr|td|th)\b[^>]*>")
_TAG = re.compile(r"<[^>]*>")
_LONG_WORD = re.compile(rf"[^\s\u200b]{{{_LONGEST + 1},}}")


def has_long_words(html: str) -> bool:
    """Return whether a cell of a table holds a long word; signs written as `&amp;` count as they are written.

    >>> has_long_words("<table><tr><td>North flat<td>Rindfleischetikettierung</td></table>")
    True
    >>> has_long_words('<p>Rindfleischetikettierung</p><table><tr><td class="of-no-interest-here">flat</td></table>')
    False
    """
    html = _PICTURE.sub(" ", html)
    return any(_LONG_WORD.search(_TAG.sub("", _BREAK.sub(" ", cell[2]))) for cell in _CELL.finditer(html))
