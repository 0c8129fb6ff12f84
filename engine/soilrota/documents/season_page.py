"""`season.html`: the practice's season on one page that needs no network, no server and no other file.

Everything is inlined: fonts, styles, a script of our own, and the tasks as JSON that the script draws as far as
somebody reads. A policy in the page lets nothing else load or run. Without the script, a plain list of what needs
somebody stands there.

The as-of date stands in the page only inside `<time class="as-of" …>`, with how a day is written, so that a later night
in which nothing else changed can put in its own day without making the page anew. The page speaks the practice's
language; its script finds its words in the data.
"""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Iterable, Iterator
from datetime import date
from functools import cache
from hashlib import sha256
from itertools import islice
from typing import Any
from urllib.parse import quote

from markupsafe import Markup

from soilrota.documents.dates import long_day
from soilrota.documents.marks import state_mark
from soilrota.documents.season_view import PaperLink, SeasonTask, SeasonView
from soilrota.documents.season_wanted import MEANINGS, URGENCY, wanted_groups
from soilrota.documents.season_words import day_form, script_words
from soilrota.documents.templates import season_html
from soilrota.documents.words import STATES
from soilrota.files import shipped
from soilrota.language import say, speaking, spoken
from soilrota.model.windows import Span, State

_FONTS = ((400, "OpenSans-Regular.ttf"), (600, "OpenSans-Semibold.ttf"))
#: So many lines of a group are shown at once [-]; the rest unfolds.
MOST_LINES = 6
#: Without a script, so many tasks that need somebody are listed [-].
MOST_PLAIN = 200
#: What could end a script block, or begin a comment in it, is written as JSON escapes.
_HARMLESS = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}


def render_season_page(view: SeasonView, day: date) -> bytes:
    """Return the page as HTML, UTF-8; `day` is the as-of date."""
    with speaking(view.language):
        return _page(view, day).encode()


def _page(view: SeasonView, day: date) -> str:
    """Return the page in the language that is spoken."""
    style, script = _style(), _asset("season.js")
    wanted = wanted_groups(view)
    plain = [task for task in view.tasks if task.state in MEANINGS]
    names = {client.id: client.name for client in view.clients}
    form, months = day_form()
    return season_html(
        {
            "view": view,
            "language": spoken(),
            "day_iso": day.isoformat(),
            "day_words": long_day(day, spoken()),
            "day_form": form,
            "months": "|".join(months),
            "policy": _policy(style, script),
            "style": Markup(style),  # noqa: S704 - a file of our own
            "script": Markup(script),  # noqa: S704 - as above
            "data": Markup(_json(season_data(view))),  # noqa: S704 - escaped by `_json`
            "marks": [(state.value, state_mark(state)) for state in URGENCY],
            "wanted": wanted,
            "most_lines": MOST_LINES,
            "papers": [(paper.words, _address(paper)) for paper in view.papers],
            "plain": [
                (task, names[task.client], say(STATES[task.state]), _plain_day(task))
                for task in islice(plain, MOST_PLAIN)
            ],
            "plain_left": max(len(plain) - MOST_PLAIN, 0),
        }
    )


def season_data(view: SeasonView) -> dict[str, Any]:
    """Return what the script draws: words, texts once each, tasks as rows of places in `texts`, days in ISO form."""
    with speaking(view.language):
        return _data(view)


def _data(view: SeasonView) -> dict[str, Any]:
    """Return the data with the words of the language that is spoken."""
    texts = _Texts()
    places = {client.id: number for number, client in enumerate(view.clients)}
    states = {state: number for number, state in enumerate(URGENCY)}
    rows = [
        [
            places[task.client],
            *map(texts.place, (task.farm, task.zone, task.protocol)),
            states[task.state],
            texts.place(task.season_name),
            _span(task.season),
            _spans(task.open),
            _spans(task.closed),
            _spans(task.spreading),
            _day(task.best),
            int(task.best_passed),
            _day(task.planned),
            texts.place(task.person),
            texts.place(task.adviser),
            _day(task.last_sampled),
            task.months_overdue,
            _links(task.papers),
            int(task.is_current),
        ]
        for task in view.tasks
    ]
    return {
        "words": script_words(),
        "states": [[state.value, say(STATES[state])] for state in URGENCY],
        "clients": [[client.id, client.name, _links(client.papers)] for client in view.clients],
        "texts": texts.all,
        "tasks": rows,
    }


class _Texts:
    """Texts by the place at which they were first met."""

    def __init__(self) -> None:
        self._places: dict[str, int] = {}

    def place(self, text: str) -> int:
        """Return the place of a text."""
        return self._places.setdefault(text, len(self._places))

    @property
    def all(self) -> list[str]:
        """Every text, by its place."""
        return list(self._places)


def _json(value: Any) -> str:
    """Return a value as JSON that cannot leave its script block."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).translate(_HARMLESS)


def _links(papers: Iterable[PaperLink]) -> list[list[str]]:
    """Return papers as words and address."""
    return [[paper.words, _address(paper)] for paper in papers]


def _address(paper: PaperLink) -> str:
    """Return a path as a relative address; a colon in its first part cannot be taken for a scheme."""
    return quote(paper.path, safe="/")


def _span(span: Span | None) -> str:
    """Return a span as an ISO 8601 interval; empty for none."""
    return f"{span.first.isoformat()}/{span.last.isoformat()}" if span else ""


def _spans(spans: Iterable[Span]) -> str:
    """Return spans with blanks between."""
    return " ".join(map(_span, spans))


def _day(day: date | None) -> str:
    """Return a day in ISO form; empty for none."""
    return day.isoformat() if day else ""


def _plain_day(task: SeasonTask) -> str:
    """Return when a task is to be done, in words, for the plain list."""
    if task.planned:
        return f"{long_day(task.planned, spoken())}, {task.person}"
    if task.best:
        return say("best on {day}", day=long_day(task.best, spoken()))
    return say("as soon as possible") if task.best_passed or task.state is State.OVERDUE else ""


def _policy(style: str, script: str) -> str:
    """Return the policy of the page: our own style and script by their digests, our own fonts, nothing else."""
    return "; ".join(
        (
            "default-src 'none'",
            f"style-src 'sha256-{_digest(style)}'",
            f"script-src 'sha256-{_digest(script)}'",
            "font-src data:",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )


def _digest(text: str) -> str:
    """Return the digest of an inlined text as a policy writes it."""
    return b64encode(sha256(text.encode()).digest()).decode()


@cache
def _asset(name: str) -> str:
    """Return a file that is inlined."""
    return (shipped("report_templates") / name).read_text(encoding="utf-8")


@cache
def _style() -> str:
    """Return the style with its fonts."""
    return "\n".join((*_font_faces(), _asset("season.css")))


def _font_faces() -> Iterator[str]:
    """Yield the fonts as rules of the style."""
    for weight, name in _FONTS:
        content = b64encode((shipped("report_templates") / "fonts" / name).read_bytes()).decode()
        yield (
            f'@font-face{{font-family:"Open Sans";font-weight:{weight};font-display:swap;'
            f'src:url("data:font/ttf;base64,{content}") format("truetype")}}'
        )
