"""Cited tables: every figure has a source, and what nobody read says so."""

from __future__ import annotations

from collections.abc import Iterator
from gettext import NullTranslations
from typing import Any

import pytest

from soilrota.guidelines.cited import cited, said_source, shipped_table, sources_of
from soilrota.model.guideline import Source, Status

TABLES = (
    "acid_balance",
    "advice_regions",
    "build_up",
    "gypsum",
    "lime_quality",
    "lime_rules",
    "nitrogen",
    "phosphate_limits",
    "rates",
    "removal",
)


def named_sources(node: Any) -> Iterator[str]:
    """Yield every source that a table refers to, wherever it stands."""
    if isinstance(node, dict):
        if "source" in node:
            yield node["source"]
        for one in node.values():
            yield from named_sources(one)
    elif isinstance(node, list):
        for one in node:
            yield from named_sources(one)


@pytest.mark.parametrize("name", TABLES)
def test_every_source_is_declared_and_used(name: str) -> None:
    """No reference leads nowhere, no source stands idle, none is an address."""
    sources = sources_of(name)
    assert set(named_sources(shipped_table(name))) == set(sources)
    assert len(sources) == len(shipped_table(name)["sources"])
    for source in sources.values():
        assert source.author
        assert source.title
        assert not any(part in f"{source.title} {source.where}" for part in ("http", "www.", ".com", ".org"))


@pytest.mark.parametrize("name", TABLES)
def test_statuses_are_known(name: str) -> None:
    """`unverified` is the only status that is ever written; what says nothing was read."""
    text = yaml_statuses(shipped_table(name))
    assert set(text) <= {"unverified"}


def yaml_statuses(node: Any) -> list[str]:
    """Return every status that a table writes."""
    if isinstance(node, dict):
        own = [node[key] for key in ("status", "leached_status") if key in node]
        return own + [status for one in node.values() for status in yaml_statuses(one)]
    return [status for one in node for status in yaml_statuses(one)] if isinstance(node, list) else []


def test_what_a_row_leaves_out_stands_above_it() -> None:
    """Source, status and note come from the row, then from what it lies in; a source that nobody gives is a fault."""
    above = {"source": "iowa-2013", "status": "unverified", "note": "from above"}
    assert cited("removal", {}, above).status is Status.UNVERIFIED
    own = cited("removal", {"source": "pda-2020", "note": "its own"}, above)
    assert (own.source.id, own.status, own.note) == ("pda-2020", Status.UNVERIFIED, "its own")
    assert cited("removal", {"source": "pda-2020"}).status is Status.VERIFIED
    nearest = cited("removal", {}, {"note": "near"}, above)
    assert (nearest.source.year, nearest.note) == (2013, "near")
    with pytest.raises(KeyError):
        cited("removal", {})
    with pytest.raises(KeyError):
        cited("removal", {"source": "nowhere"})


def test_words_in_place_of_a_publication_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """That a figure has no source is told in the reader's language; a publication is cited as it is."""
    monkeypatch.setattr("soilrota.language.speech.catalogue_of", lambda _: _Spanish())
    unread = Source("memory", "source not read", 0, "Lime equivalents", "from memory")
    assert said_source(unread) == Source("memory", "fuente no leída", 0, "Lime equivalents", "de memoria")
    assert said_source(Source("x", "source not read", 0, "Barley grain")).author == "fuente no leída"
    published = Source("county", "Example County", 2019, "from memory", "from memory")
    assert said_source(published) == published


class _Spanish(NullTranslations):
    """A catalogue of two texts."""

    def gettext(self, message: str) -> str:
        """Return a text in Spanish where it is one of the two."""
        return {"source not read": "fuente no leída", "from memory": "de memoria"}.get(message, message)
