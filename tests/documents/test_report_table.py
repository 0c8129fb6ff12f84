"""Zones by analyses, and the map by the rating that tells most."""

from __future__ import annotations

import pytest

from soilrota.documents.judgement_sentences import result_words
from soilrota.documents.report_grounds import FarmGrounds, all_judged
from soilrota.documents.report_table import COLUMNS, rating_map, zone_tables
from tests.documents.reports import REPORTED, farm_grounds, grounds_of, one_zone


@pytest.mark.parametrize("name", REPORTED)
def test_every_last_value_stands_in_a_table_with_mark_and_words(name: str) -> None:
    """No more columns than fit, in balance; colour is never alone."""
    farm = farm_grounds(name)
    tables = zone_tables(farm)
    assert all(1 <= len(table.columns) <= COLUMNS for table in tables)
    cells = [cell for table in tables for *_, row in table.rows for cell in row if cell.value]
    assert all(cell.mark and cell.words for cell in cells)
    shown = {cell.value for cell in cells}
    for judged in farm.judged:
        for one in all_judged(judged):
            newer = [
                other.result
                for later in farm.of_zone(judged.zone)
                for other in all_judged(later)
                if other.result.sampled > one.result.sampled
            ]
            if not newer:
                assert result_words(one.result).partition(" ")[0].removesuffix("%") in shown


def test_columns_follow_the_protocol() -> None:
    """What is reckoned stands last."""
    tables = zone_tables(farm_grounds("anvil-creek"))
    assert [name for name, _ in tables[0].columns][:2] == ["pH (CaCl2)", "Colwell P"]
    topsoil = [name for table in tables if table.caption.startswith("0–10") for name, _ in table.columns]
    assert topsoil[-1] == "Conductivity of the saturation extract"


def test_target_and_line_stand_beside_the_value() -> None:
    """With the side on which the value lies."""
    table = zone_tables(farm_grounds("anvil-creek"))[0]
    cell = table.rows[0][3][0]
    assert (cell.value, cell.words, cell.target) == ("5.2", "high enough", "line 4.5; target 5.5 or more (below)")


def test_the_map_shows_the_weightiest_matter() -> None:
    """Its key names every zone once, by letter, with the words of its pattern."""
    shown = rating_map(farm_grounds("dune-end-sheep"))
    assert shown.caption == "Zones by KCl-40 S, 0–10 cm [mg/kg]"
    assert [words for _, words in shown.key] == ["Too low: A, D", "Near the line: B", "High enough: C"]
    assert "A Dune: &lt;1.0, too low" in shown.map


def test_nothing_rated_and_nothing_drawn() -> None:
    """Each is said."""
    assert rating_map(farm_grounds("iron-prairie")).key == ()
    alone = grounds_of(one_zone())
    assert rating_map(FarmGrounds(alone, alone.client.farms[0])).map == ""
