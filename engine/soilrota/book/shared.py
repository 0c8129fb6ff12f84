"""What all clients share: the practice, its protocols, its laboratories, its own guideline sets, its products."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from soilrota.book.check_samples import build_check_bags, build_check_materials, build_dismissed
from soilrota.book.folders import (
    CHECK_SAMPLES_FILE,
    PRACTICE_FILE,
    PRODUCTS_FILE,
    PROTOCOLS_FILE,
    bad_id,
    guideline_files,
    in_book,
    is_id,
    laboratory_files,
    link_leaves_book,
    name_in_book,
)
from soilrota.book.guidelines import build_own_set, own_sets
from soilrota.book.laboratory_forms import build_forms
from soilrota.book.parts import Located, Shared, SharedParts
from soilrota.book.places import whole
from soilrota.book.practice import (
    build_gaps,
    build_laboratory,
    build_leave,
    build_people,
    build_practice,
    build_seasons,
    build_stations,
)
from soilrota.book.products import build_product_list, build_products
from soilrota.book.protocols import build_protocols
from soilrota.book.rules.catalogue import SHARED_RULES
from soilrota.book.rules.logo import logo_can_be_printed
from soilrota.files import Document, Table, read_csv, read_yaml
from soilrota.guidelines import analysis_waits, gaps
from soilrota.model.guideline import GuidelineSet
from soilrota.model.laboratory_files import LaboratoryForm
from soilrota.model.practice import Laboratory
from soilrota.problems import Place, Problem, has_errors, in_order


def load_shared(root: Path) -> tuple[Shared | None, tuple[Problem, ...]]:
    """Read and check what all clients share.

    Args:
        root: the book's folder.

    Returns:
        The practice with its laboratories and the shared protocols, or None where anything of it has an error; and
        all problems of these files, in order. protocols.yaml may be missing where every client has its own,
        products.yaml where nothing is advised.
    """
    practice_file, problems = read_book_yaml(root, root / PRACTICE_FILE, "practice")
    laboratories, forms, found = _laboratories(root)
    problems += found
    protocols_file, found = _if_there(root, PROTOCOLS_FILE, "protocols")
    problems += found
    products_file, found = _if_there(root, PRODUCTS_FILE, "products")
    problems += found
    sent, found = _check_samples(root)
    problems += found
    guidelines, found = _guidelines(root)
    problems += found
    if practice_file is None:
        return None, in_order(problems)
    top = whole(practice_file)
    check_bags = build_check_bags(sent)
    products = whole(products_file) if products_file else None
    practice = build_practice(
        top,
        laboratories,
        gaps(),
        analysis_waits(),
        [bag.value for bag in check_bags],
        guidelines=own_sets(guidelines),
        products=build_product_list(products) if products else None,
    )
    protocols, found = build_protocols(whole(protocols_file), {}) if protocols_file else ((), ())
    parts = SharedParts(
        practice,
        build_people(top),
        build_seasons(top),
        build_gaps(top),
        protocols,
        build_leave(top),
        build_stations(top),
        build_check_materials(top),
        check_bags,
        build_dismissed(top),
        forms,
        guidelines,
        build_products(products) if products else (),
    )
    problems += found
    problems += tuple(_broken_rules(root, parts))
    if has_errors(problems):
        return None, in_order(problems)
    by_id = {protocol.value.id: protocol.value for protocol in protocols}
    return Shared(practice.value, by_id), in_order(problems)


def _broken_rules(root: Path, parts: SharedParts) -> Iterator[Problem]:
    """Yield what every rule of the shared files finds."""
    for rule in SHARED_RULES:
        yield from rule(parts)
    yield from logo_can_be_printed(root, parts.practice.value.logo, parts.practice.at("logo"))


def _laboratories(
    root: Path,
) -> tuple[dict[str, Laboratory], tuple[Located[LaboratoryForm], ...], tuple[Problem, ...]]:
    """Return the laboratories by id (the name of the file is the id), their forms with places, and the problems."""
    laboratories: dict[str, Laboratory] = {}
    forms: tuple[Located[LaboratoryForm], ...] = ()
    problems: tuple[Problem, ...] = ()
    for path in laboratory_files(root):
        if not is_id(path.stem):
            problems += (bad_id(Place(name_in_book(root, path)), "file", path.stem),)
            continue
        document, found = read_book_yaml(root, path, "laboratory")
        problems += found
        if document is not None:
            laboratories[path.stem] = build_laboratory(path.stem, whole(document))
            forms += build_forms(path.stem, whole(document))
    return laboratories, forms, problems


def _guidelines(root: Path) -> tuple[tuple[Located[GuidelineSet], ...], tuple[Problem, ...]]:
    """Return the practice's own guideline sets, each as it stands in its file, and the problems."""
    sets: tuple[Located[GuidelineSet], ...] = ()
    problems: tuple[Problem, ...] = ()
    for path in guideline_files(root):
        if not is_id(path.stem):
            problems += (bad_id(Place(name_in_book(root, path)), "file", path.stem),)
            continue
        document, found = read_book_yaml(root, path, "guideline")
        problems += found
        if document is not None:
            sets += (build_own_set(path.stem, whole(document)),)
    return sets, problems


def _check_samples(root: Path) -> tuple[Table | None, tuple[Problem, ...]]:
    """Return the table of blind check samples; None where there is none, or where it has an error."""
    path = root / CHECK_SAMPLES_FILE
    if not in_book(root, path):
        return None, (link_leaves_book(Place(CHECK_SAMPLES_FILE)),)
    return read_csv(path, CHECK_SAMPLES_FILE, "check_samples") if path.exists() else (None, ())


def _if_there(root: Path, name: str, schema: str) -> tuple[Document | None, tuple[Problem, ...]]:
    """Read a YAML file that the book may have; None where it has none, or the file has an error."""
    return read_book_yaml(root, root / name, schema) if (root / name).exists() else (None, ())


def read_book_yaml(root: Path, path: Path, schema: str) -> tuple[Document | None, tuple[Problem, ...]]:
    """Read one YAML file of the book, refusing a link that leads out of it."""
    name = name_in_book(root, path)
    if not in_book(root, path):
        return None, (link_leaves_book(Place(name)),)
    return read_yaml(path, name, schema)
