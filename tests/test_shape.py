"""The shape that the project keeps: sizes, docstrings, hints, mirrored tests, no clock in the core."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
ENGINE = ROOT / "engine" / "soilrota"
MODULES = sorted(ENGINE.rglob("*.py"))
CORE = ("model", "book", "timing", "layout", "results", "agronomy", "guidelines", "geometry", "documents", "delivery")
LONGEST_MODULE = 350
LONGEST_FUNCTION = 50
#: Modules that only declare values, or that whole-command tests cover.
NEEDS_NO_TEST_MODULE = re.compile(r"^(__init__|__main__|faults|problems|views)$")


def _functions(tree: ast.Module) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Yield every function and method of a module."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def _offered(tree: ast.Module) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Yield the functions that others can call: those of the module and the methods of its classes."""
    classes = [node for node in tree.body if isinstance(node, ast.ClassDef)]
    for body in (tree.body, *(found.body for found in classes)):
        yield from (node for node in body if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef))


def _length(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Return the lines of a function, its docstring apart."""
    first = function.body[0]
    lines = (function.end_lineno or function.lineno) - function.lineno + 1
    if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str):
        lines -= (first.end_lineno or first.lineno) - first.lineno + 1
    return lines


def _public(function: ast.FunctionDef | ast.AsyncFunctionDef) -> bool:
    """Return whether a function is for others to call."""
    return not function.name.startswith("_")


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.relative_to(ENGINE)))
def test_a_module_reads_in_one_sitting(module: Path) -> None:
    """No module is longer than 350 lines, no function longer than 50, and each has its docstring."""
    text = module.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= LONGEST_MODULE
    tree = ast.parse(text)
    assert ast.get_docstring(tree), "the module says nothing of itself"
    long = {node.name: _length(node) for node in _functions(tree) if _length(node) > LONGEST_FUNCTION}
    assert long == {}
    silent = [node.name for node in _offered(tree) if _public(node) and not ast.get_docstring(node)]
    assert silent == []


def test_the_core_reads_no_clock_and_no_environment() -> None:
    """The as-of date, paths and settings are arguments everywhere in the core."""
    clock = re.compile(r"date\.today\(|datetime\.now\(|utcnow\(|time\.time\(|os\.environ|os\.getenv|getenv\(")
    allowed = {ENGINE / "documents" / "pdf.py"}  # sets SOURCE_DATE_EPOCH, which the PDF writer reads
    found = [
        str(path.relative_to(ENGINE))
        for package in CORE
        for path in sorted((ENGINE / package).rglob("*.py"))
        if path not in allowed and clock.search(path.read_text(encoding="utf-8"))
    ]
    assert found == []


def test_every_module_has_its_test_module() -> None:
    """A module `engine/soilrota/<package>/<name>.py` is tested in `tests/<package>/test_<name>.py`."""
    missing = []
    for path in MODULES:
        relative = path.relative_to(ENGINE)
        if NEEDS_NO_TEST_MODULE.match(path.stem) or relative.parts[0] == "model":
            continue
        if not (ROOT / "tests" / relative.parent / f"test_{path.stem.lstrip('_')}.py").is_file():
            missing.append(str(relative))
    assert missing == []


def test_nothing_names_a_machine_or_a_registry() -> None:
    """No text file of the project carries a path of somebody's machine or the host of a package registry."""
    words = ["/wo" + "rk/", "/ro" + "ot/", "pypi" + r"\.org", "python" + "hosted", "np" + "mjs"]
    forbidden = re.compile("|".join(words))
    found = []
    for folder in ("engine", "schemas", "report_templates", "tests", "example_clients", ".ci"):
        for path in sorted((ROOT / folder).rglob("*")):
            if path.suffix in {".py", ".md", ".yaml", ".json", ".jinja", ".css", ".txt", ".csv", ""} and path.is_file():
                text = path.read_bytes().decode("utf-8", errors="ignore")
                found += [f"{path.relative_to(ROOT)}: {match.group()}" for match in forbidden.finditer(text)]
    assert found == []
