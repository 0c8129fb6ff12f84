"""Crops as people write them lead to rows of the removal table."""

from __future__ import annotations

import pytest

from soilrota.guidelines.crop_produce import crop_names, is_legume, leaves_of, plain, produce_of
from soilrota.guidelines.removal import Per, removal_editions, removals


def test_every_row_leads_to_a_product() -> None:
    """Of every edition, crop and part of it; what is counted in bushels has the mass of one."""
    for edition in removal_editions():
        for name in crop_names([edition]):
            for leaves in leaves_of([edition], name):
                found = produce_of([edition], name, leaves)
                assert found is not None
                assert found.removal is removals(edition)[found.removal.product]
                assert (found.bushel_lb is not None) == (found.removal.per is Per.BUSHEL)


@pytest.mark.parametrize(
    ("crop", "leaves", "product"),
    [
        ("wheat", "", "wheat-grain"),
        ("WHEAT", "Hay", "wheat-hay"),
        ("canola", "grain", "canola-seed"),
        ("lucerne", "", "lucerne-hay"),
    ],
)
def test_the_usual_is_taken_where_nothing_is_said(crop: str, leaves: str, product: str) -> None:
    """Capitals do not count; a seed may be called grain."""
    found = produce_of(["australia-grdc-2020"], crop, leaves)
    assert found is not None
    assert found.removal.product == product


def test_the_first_edition_that_knows_the_crop() -> None:
    """Lucerne hay differs by edition; straw of wheat is in one alone."""
    ways = ("australia-audit-2001", "australia-grdc-2020")
    first, second = (produce_of(order, "lucerne", "hay") for order in (ways, ways[::-1]))
    assert first is not None
    assert second is not None
    assert (first.removal.edition, second.removal.edition) == ways
    assert produce_of(ways, "wheat", "straw") is None
    assert produce_of(ways, "quinoa", "") is None


def test_words() -> None:
    """As they are compared, and which of them bind nitrogen."""
    assert plain("  Oilseed-Rape ") == "oilseed rape"
    assert is_legume("Field peas")
    assert not is_legume("wheat")
