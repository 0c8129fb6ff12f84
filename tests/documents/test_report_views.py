"""The view of a report: frozen, comparable, and digested whole."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, replace

import pytest

from soilrota.documents import report_view, view_digest
from tests.documents.made import BOOK
from tests.documents.reports import grounds


def test_the_same_view_has_the_same_digest() -> None:
    """And another word has another."""
    of_client = grounds("hazel-rigg")
    view = report_view(of_client, of_client.client.farms[0])
    assert view == report_view(of_client, of_client.client.farms[0])
    assert view_digest(view, BOOK) != view_digest(replace(view, sampled="otherwise"), BOOK)
    with pytest.raises(FrozenInstanceError):
        view.title = "otherwise"  # type: ignore[misc]
