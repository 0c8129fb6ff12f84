"""The list of rules is complete."""

from __future__ import annotations

import importlib
import inspect
import pkgutil

import soilrota.book.rules as package
from soilrota.book.rules.catalogue import CLIENT_RULES, SHARED_RULES
from soilrota.problems import has_errors
from tests.book.small_book import Book


def test_no_rule_is_forgotten() -> None:
    """Every public function of the rules that takes the parts alone stands in the list once."""
    listed = [*SHARED_RULES, *CLIENT_RULES]
    assert len(set(listed)) == len(listed)
    rules = set()
    for info in pkgutil.iter_modules(package.__path__):
        module = importlib.import_module(f"{package.__name__}.{info.name}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            own = function.__module__ == module.__name__ and not name.startswith("_")
            if own and list(inspect.signature(function).parameters) == ["parts"] and name != "map_rules":
                rules.add(function)
    assert rules == set(listed)


def test_a_sound_book_breaks_no_rule(book: Book) -> None:
    """The small book breaks none."""
    assert not has_errors(book.shared_problems())
    assert book.problems() == ()
