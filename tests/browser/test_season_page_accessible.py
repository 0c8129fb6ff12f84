"""The season page under the rules of axe-core (WCAG 2 and its best practices), at a desk and on a telephone.

Runs where the rules are installed (`pip install --no-deps axe-playwright-python`, which carries them); this needs
nothing of a browser driver beyond ours.
"""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest

from soilrota.documents import render_season_page
from tests.browser.driving import Page
from tests.documents.seasons import DAY, a_season

_FOUND = """axe.run(document, {resultTypes: ['violations']}).then((found) => found.violations.map(
(one) => [one.impact, one.id, one.nodes.map((node) => node.html.slice(0, 120)).slice(0, 3)]))"""


def rules() -> str:
    """Return the script of axe-core; empty where it is not installed."""
    spec = find_spec("axe_playwright_python")
    if spec is None or spec.origin is None:
        return ""
    return Path(spec.origin).with_name("axe.min.js").read_text(encoding="utf-8")


AXE = rules()


def faults(page: Page) -> list[Any]:
    """Return what axe-core finds wrong on the page that is open."""
    page.ask(f"{AXE};0")
    found: list[Any] = page.ask(_FOUND)
    return found


if AXE:

    @pytest.mark.parametrize(("width", "tasks"), [(1280, 120), (390, 24), (1280, 0)])
    def test_no_rule_is_broken(browser_page: Page, tmp_path: Path, width: int, tasks: int) -> None:
        """Serious or not: none at all."""
        file = tmp_path / "season.html"
        file.write_bytes(render_season_page(a_season(tasks), DAY))
        browser_page.size(width)
        browser_page.open(file.as_uri())
        assert faults(browser_page) == []

    def test_a_fault_is_found(browser_page: Page, tmp_path: Path) -> None:
        """A picture without words and a field without a label break rules."""
        file = tmp_path / "faulty.html"
        file.write_text("<html><body><img src='data:,'><input></body></html>", encoding="utf-8")
        browser_page.open(file.as_uri())
        assert {"image-alt", "label"} <= {one[1] for one in faults(browser_page)}
