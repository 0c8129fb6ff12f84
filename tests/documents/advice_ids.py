"""Ids that advice may say, read off the source of agronomy: what `part`, `Cap` and void rules are made with."""

from __future__ import annotations

import ast
import importlib
import pkgutil
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import soilrota.agronomy.advice as package


def modules() -> Iterator[tuple[ModuleType, ast.Module]]:
    """Yield every module of advice, with its source."""
    for info in pkgutil.iter_modules(package.__path__):
        module = importlib.import_module(f"{package.__name__}.{info.name}")
        assert module.__file__
        yield module, ast.parse(Path(module.__file__).read_text(encoding="utf-8"))


def step_ids() -> frozenset[str]:
    """Return the rules of all steps."""
    found: set[str] = set()
    for module, tree in modules():
        inside = {id(call) for total in _calls(tree, "total") for call in ast.walk(total) if call is not total}
        for call in _calls(tree, "part"):
            # What is only added up is no step.
            if id(call) not in inside:
                found |= _ids(call.args[0], module, tree)
        for call in _calls(tree, "Rate"):
            step = call.args[0] if call.args else next((one.value for one in call.keywords if one.arg == "step"), None)
            found |= _ids(step, module, tree) if step is not None else set()
    return frozenset(found)


def cap_ids() -> frozenset[str]:
    """Return the rules of all maxima."""
    calls = [(call.args[1], module, tree) for module, tree in modules() for call in _calls(tree, "Cap")]
    return frozenset(one for rule, module, tree in calls for one in _ids(rule, module, tree))


def void_reasons() -> frozenset[str]:
    """Return the reasons of all rules that do not hold."""
    found: set[str] = set()
    for module, tree in modules():
        for node in ast.walk(tree):
            if isinstance(node, ast.Dict):
                for key, value in zip(node.keys, node.values, strict=True):
                    if isinstance(key, ast.Constant) and key.value == "reason":
                        found |= _ids(value, module, tree)
    return frozenset(found)


def _calls(tree: ast.AST, name: str) -> Iterator[ast.Call]:
    """Yield the calls of a function."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == name:
            yield node


def _ids(node: ast.expr, module: ModuleType, tree: ast.Module) -> set[str]:
    """Return the texts that an expression may be; a failure where that cannot be told."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return {node.value}
    if isinstance(node, ast.IfExp):
        return _ids(node.body, module, tree) | _ids(node.orelse, module, tree)
    if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name):
        return {str(one) for one in getattr(module, node.value.id).values()}
    if isinstance(node, ast.Attribute):
        # `rate.step`: collected where rates are made.
        assert ast.unparse(node) == "rate.step", ast.unparse(node)
        return set()
    assert isinstance(node, ast.Name), ast.unparse(node)
    if hasattr(module, node.id):
        return {str(getattr(module, node.id))}
    assigned = [one for one in ast.walk(tree) if isinstance(one, ast.Assign)]
    values = [one.value for one in assigned if node.id in map(ast.unparse, one.targets)]
    if values:
        return set[str]().union(*(_ids(one, module, tree) for one in values))
    calls = [call for owner in _owners(tree, node.id) for call in _calls(tree, owner)]
    assert calls, f"{module.__name__}: {node.id}"
    return set[str]().union(*(_ids(call.args[1], module, tree) for call in calls))


def _owners(tree: ast.Module, argument: str) -> Iterator[str]:
    """Yield the functions whose second argument has a name."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef) and [one.arg for one in node.args.args][1:2] == [argument]:
            yield node.name
