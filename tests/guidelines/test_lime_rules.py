"""Lime by pH and soil: look-up and its edges. The figures are held in `published_values/test_lime_rules.py`."""

from __future__ import annotations

import pytest

from soilrota.guidelines.lime_rules import (
    between,
    lime_factor,
    lime_rules,
    lime_targets,
    new_south_wales_lime,
    rule_row,
    victoria_lime,
)
from soilrota.quantities import method

TEXTURES = ("sand", "loamy-sand", "sandy-loam", "loam", "silt-loam", "sandy-clay-loam", "clay-loam", "medium-clay")


def test_every_rule_says_what_it_counts_in() -> None:
    """A unit, a product and a source; the rules that nobody read are marked."""
    rules = lime_rules()
    assert all(rule.unit and rule.product and rule.name for rule in rules.values())
    unread = {name for name, rule in rules.items() if rule.cited.status == "unverified"}
    assert unread == {"uk-factor", "south-australia", "new-south-wales", "iowa-buffer"}
    with pytest.raises(KeyError):
        rule_row("nowhere")


def test_targets_lie_at_or_above_where_liming_starts() -> None:
    """And they are of a pH that the glossary knows."""
    for target in lime_targets().values():
        assert method("ph", target.method) is not None
        assert target.target is None or target.target >= target.act_below


def test_a_texture_has_one_factor_at_most() -> None:
    """No texture is named twice; one that the rule does not name has none."""
    for rule in ("uk-factor", "south-australia"):
        named = [texture for row in rule_row(rule)["factors"] for texture in row["textures"]]
        assert len(named) == len(set(named))
    assert lime_factor("uk-factor", "peat", "grass") == 12
    assert lime_factor("uk-factor", "loam", "grass") is None
    assert lime_factor("south-australia", "clay-loam") == 4
    with pytest.raises(KeyError):
        lime_factor("south-australia", "sand", "grass")


@pytest.mark.parametrize("texture", TEXTURES)
def test_victoria(texture: str) -> None:
    """No rise needs no lime, more rise needs more in proportion; a texture that is not printed gives no figure."""
    rate = victoria_lime(texture, 0.5)
    if texture in ("sand", "sandy-loam", "clay-loam", "medium-clay"):
        assert rate is not None
        assert victoria_lime(texture, 1.0) == pytest.approx(2 * rate)
        assert victoria_lime(texture, 0.0, 3.0) == victoria_lime(texture, -0.2, 3.0) == 0
    else:
        assert rate is None


def test_new_south_wales() -> None:
    """Printed lines as they are, between them on the straight line, nothing outside."""
    assert new_south_wales_lime(1) == {(4.0, 5.2): 1.6, (4.3, 5.2): 0.8, (4.7, 5.2): 0.3, (5.2, 5.5): 0.2}
    middle = new_south_wales_lime(12.5)
    assert middle is not None
    assert middle[4.0, 5.2] == pytest.approx((8.7 + 12.5) / 2)
    assert new_south_wales_lime(0.9) is None
    assert new_south_wales_lime(15.1) is None


def test_between() -> None:
    """At, between and outside printed places."""
    lines = [(1.0, [0.0, 10.0]), (3.0, [4.0, 10.0])]
    assert between(1.0, lines) == [0, 10]
    assert between(1.5, lines) == [1, 10]
    assert between(3.0, lines) == [4, 10]
    assert between(0.9, lines) is None
    assert between(3.1, lines) is None
