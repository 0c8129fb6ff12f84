"""What headings of foreign tables are compared by."""

from __future__ import annotations

import unicodedata


def heading_key(text: str) -> str:
    r"""Return a heading without what makes no difference: capitals, line breaks, blanks at its ends or in a row.

    >>> heading_key(" P  Colwell\n(mg/kg)") == heading_key("p colwell (mg/kg)")
    True
    """
    return unicodedata.normalize("NFC", " ".join(unicodedata.normalize("NFC", text).split()).casefold())
