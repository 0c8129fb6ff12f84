"""Words that the script of the season page says, and how a day is written: all in the language that is spoken.

The script fills facts in braces by name and takes the form of a count that the language asks for.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from soilrota.documents.dates import locale_of, long_day, span_words
from soilrota.language import say, say_as, say_count, spoken
from soilrota.model.windows import Span

#: A span of one year.
_SPAN = Span(date(2027, 1, 20), date(2027, 3, 31))
#: Counts up to this one show every form that a language has for counts [-].
_FORMS_SHOWN = 100
_COUNT = "{count}"


def script_words() -> dict[str, Any]:
    """Return what the script says: texts by name, texts with a count by the forms of the count."""
    return {
        "span": say_as("days", "{first} to {last}", first="{first}", last="{last}"),
        "year_once": span_words(_SPAN, spoken()).count("2027") == 1,
        "strip": _strip_words(),
        "key": _key_words(),
        "by_months": count_forms("by {count} month", "by {count} months"),
        "by_less": say("by less than a month"),
        "as_known": say("as last known"),
        "in_calendar": say("field calendar"),
        "person_in_calendar": say("{person}, field calendar", person="{person}"),
        "best": say("best {day}", day="{day}"),
        "soon": say("as soon as possible"),
        "any_day": say("any open day"),
        "no_day": say("no day"),
        "more": count_forms("Show more tasks ({count} task left)", "Show more tasks ({count} tasks left)"),
        "all": count_forms("{count} task.", "{count} tasks."),
        "some": count_forms("{some} of {count} task.", "{some} of {count} tasks.", some="{some}"),
        "none": say("Show all, or ask for less."),
        "all_clients": say("All clients"),
        "everybody": say("Everybody"),
        "all_states": say("All states"),
        "all_weeks": say("All weeks"),
        "week": say("Week of {day}", day="{day}"),
        "without_day": say("Without a day"),
    }


def _strip_words() -> dict[str, str]:
    """Return what is said of a year strip to those who listen."""
    days = "{days}"
    return {
        "none": say("No season is known."),
        "open": say_as("strip", "open {days}", days=days),
        "shut": say_as("strip", "no open day"),
        "closed": say_as("strip", "closed {days}", days=days),
        "spreading": say_as("strip", "spreading planned {days}", days=days),
        "best": say_as("strip", "best day {day}", day="{day}"),
        "planned": say_as("strip", "planned for {day}", day="{day}"),
        "from": say_as("strip", "from {day}", day="{day}"),
    }


def _key_words() -> dict[str, str]:
    """Return the words of the key of year strips."""
    return {
        "season": say_as("key", "season"),
        "open": say_as("key", "open"),
        "closed": say_as("key", "closed"),
        "spreading": say_as("key", "spreading planned"),
        "best": say_as("key", "best day"),
        "planned": say_as("key", "day in the field calendar"),
        "today": say_as("key", "as-of day"),
    }


def count_forms(one: str, many: str, **facts: object) -> dict[str, str]:
    """Return a text in each form that the language has for counts, by the names of the forms (CLDR)."""
    form_of = locale_of(spoken()).plural_form
    counts = {str(form_of(count)): count for count in range(_FORMS_SHOWN, -1, -1)}
    return {form: say_count(one, many, count, **{"count": _COUNT, **facts}) for form, count in sorted(counts.items())}


def day_form() -> tuple[str, tuple[str, ...]]:
    """Return how a day is written in full, with `{day}`, `{month}` and `{year}`, and the names of the months.

    >>> day_form()[0], day_form()[1][:2]
    ('{day} {month} {year}', ('January', 'February'))
    """
    months = locale_of(spoken()).months["format"]["wide"]
    sample = long_day(date(2027, 11, 23), spoken())
    form = sample.replace("2027", "{year}").replace("23", "{day}").replace(months[11], "{month}")
    return form, tuple(str(months[number]) for number in range(1, 13))
