"""Long words in tables: found where they matter, and broken so that no column leaves the page."""

from __future__ import annotations

from datetime import date

import pypdfium2
import pytest

from soilrota.documents.long_words import has_long_words
from soilrota.documents.pdf import write_pdf
from soilrota.documents.templates import programme_html
from tests.documents.made import AS_OF, CLIENTS, example, view

LONG = "Rindfleischetikettierung"


@pytest.mark.parametrize(
    ("html", "is_long"),
    [
        (f"<td>{LONG}</td>", True),
        (f'<th scope="col">{LONG}</th>', True),
        ("<td>Rindfleisch<b>etikettierung</b></td>", True),
        (f"<td>a<br>b {LONG}</td>", True),
        (f"<td><table><tr><td>{LONG}</td></tr></table></td>", True),
        ("<td>Rindfleisch<br>etikettierung</td>", False),
        ('<td>Rindfleisch<span class="note">etikettierung</span></td>', False),
        ("<td><p>Rindfleisch</p><p>etikettierung</p></td>", False),
        (f"<p>{LONG}</p>", False),
        (f'<td class="{LONG}">x</td>', False),
        (f"<td><svg><text>{LONG}</text></svg></td>", False),
        ("<td>eighteen-letters-x</td>", False),
        ("<thead><tr><th>flat</th></tr></thead>", False),
    ],
)
def test_a_long_word_counts_in_a_table_alone(html: str, *, is_long: bool) -> None:
    """Attributes, pictures and running text break by themselves."""
    assert has_long_words(html) is is_long


@pytest.mark.parametrize("letters", [18, 19, 400])
def test_no_word_leaves_the_page(letters: int) -> None:
    """Two names of the widest letter, and four columns of our own: all of it stands between the margins."""
    cells = f"<td>{'W' * letters}</td>" * 2 + "<td>September</td><td>0-10 cm</td><td>25 cores</td><td>B27012-X</td>"
    html = f'<html lang=en><title>t</title><body><table class="list"><tr>{cells}</tr></table>'
    page = pypdfium2.PdfDocument(write_pdf(html, date(2027, 2, 15), {}))[0]
    words = page.get_textpage()
    right = max(words.get_charbox(number)[2] for number in range(words.count_chars()))
    assert right < page.get_width() - 17 / 25.4 * 72 + 1


def test_an_ordinary_programme_holds_none() -> None:
    """Breaking everywhere is for the odd document: what this saves would be lost if our own words were too long."""
    found = [name for name in CLIENTS if has_long_words(programme_html(view(example(name)), AS_OF))]
    assert found == []
