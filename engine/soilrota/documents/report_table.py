"""Zones by analyses, a table a layer; and the map of the farm by the rating that tells most."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from math import ceil

from soilrota.documents.dates import long_day
from soilrota.documents.judgement_sentences import began, name_of, result_words, value_words
from soilrota.documents.map_shades import Shade, swatch
from soilrota.documents.maps import farm_map
from soilrota.documents.protocols import depth_words
from soilrota.documents.report_grounds import FarmGrounds, all_judged
from soilrota.documents.report_matters import beyond_lines, weak_codes
from soilrota.documents.report_standing import Standing, standing_mark, standing_of, standing_word, standing_words
from soilrota.documents.report_views import CellView, RatingMapView, TableView
from soilrota.documents.results_view import against_target, target_of, target_words
from soilrota.documents.value_words import bare_figure
from soilrota.language import say
from soilrota.model.guideline import Status
from soilrota.model.judgement import Rating, Unrated

#: Columns that fit a page beside the zones.
COLUMNS = 7
_WIDE_UNIT = ("pH", "index", "ratio", "")
#: Layer [cm], code of the analysis.
_Layer = tuple[float, float]


def zone_tables(grounds: FarmGrounds) -> tuple[TableView, ...]:
    """Return the tables of a farm, the topmost layer first; a layer with many analyses takes several."""
    cells: defaultdict[_Layer, dict[tuple[str, str], Rating | Unrated]] = defaultdict(dict)
    columns: defaultdict[_Layer, dict[str, None]] = defaultdict(dict)
    for judged in grounds.judged:
        for one in all_judged(judged):
            result = one.result
            layer, code = (result.top_cm, result.bottom_cm), f"{result.analyte}.{result.method}"
            columns[layer][code] = None
            before = cells[layer].get((judged.zone, code))
            if before is None or _better(one, before):
                cells[layer][judged.zone, code] = one
    return tuple(
        table
        for layer in sorted(columns)
        for table in _of_layer(grounds, layer, sorted(columns[layer], key=_asked(grounds)), cells[layer])
    )


def _asked(grounds: FarmGrounds) -> Callable[[str], tuple[bool, int]]:
    """Return what columns are put in order by: as the protocols ask for analyses, what is reckoned from them last."""
    protocols = dict.fromkeys(judged.protocol for judged in grounds.judged)
    asked = [code.partition(".")[0] for one in protocols for code in grounds.client.protocols[one].analyses]
    order = {analyte: number for number, analyte in reversed(list(enumerate(asked)))}
    return lambda code: (code.endswith(".derived"), order.get(code.partition(".")[0], len(asked)))


def _better(one: Rating | Unrated, before: Rating | Unrated) -> bool:
    """Return whether of two values of one zone and analysis the first is shown: the later, or else the rated one."""
    order = (one.result.sampled, isinstance(one, Rating))
    return order > (before.result.sampled, isinstance(before, Rating))


def _of_layer(
    grounds: FarmGrounds, layer: _Layer, codes: list[str], cells: dict[tuple[str, str], Rating | Unrated]
) -> Iterator[TableView]:
    """Yield the tables of one layer."""
    depth = depth_words(*layer, grounds.language)
    zones = [zone for zone in grounds.zones if any((zone, code) in cells for code in codes)]
    width = ceil(len(codes) / ceil(len(codes) / COLUMNS))
    for start in range(0, len(codes), width):
        some = codes[start : start + width]
        rows = []
        for zone in zones:
            found = [cells.get((zone, code)) for code in some]
            days = [one.result.sampled for one in found if one is not None]
            if days:
                day = long_day(max(days), grounds.language)
                row = tuple(CellView() if one is None else _cell(grounds, one) for one in found)
                rows.append((grounds.letters[zone], grounds.zones[zone].name, day, row))
        units = (next(one.result.unit for (_, other), one in cells.items() if other == code) for code in some)
        heads = tuple(
            (began(name_of(code)), "" if unit in _WIDE_UNIT else unit) for code, unit in zip(some, units, strict=True)
        )
        yield TableView(say("{depth}, continued", depth=depth) if start else depth, heads, tuple(rows))


def _cell(grounds: FarmGrounds, one: Rating | Unrated) -> CellView:
    """Return one value of the table, its line or the client's target beside it."""
    result = one.result
    doubted = say("in doubt") if grounds.is_doubted(result) else ""
    figure = bare_figure(result_words(result))
    target = target_of(grounds.client.targets, grounds.zones[result.zone], result)
    agreed = say("target {value}", value=target_words(target, grounds.language)) if target else ""
    side = against_target(result, target)
    agreed += f" ({side})" if side else ""
    if isinstance(one, Unrated):
        mark = standing_mark(Standing.UNRATED)
        return CellView(mark, figure, standing_word(Standing.UNRATED), agreed, doubted)
    line = ""
    if one.critical is not None:
        edge = bare_figure(value_words(result.analyte, result.method, one.critical, one.row.unit))
        line = say("line {value}", value=edge)
        if one.row.status is not Status.VERIFIED:
            line = say("line {value}, unverified", value=edge)
    held = "; ".join(filter(None, (line, agreed)))
    return CellView(standing_mark(standing_of(one)), figure, standing_words(one), held, doubted)


def rating_map(grounds: FarmGrounds) -> RatingMapView:
    """Return the farm's map by the rating that tells most: that of the weightiest matter, or else of most zones."""
    chosen = _chosen(grounds)
    if chosen is None:
        return RatingMapView(
            say("No value of this farm is rated, so the map shows the zones alone."), farm_map(grounds.farm), ()
        )
    code, top, bottom = chosen
    shades: dict[str, Shade] = {}
    for judged in grounds.judged:
        for rating in judged.ratings:
            if _key(rating) == chosen:
                figure = result_words(rating.result).partition(" ")[0]
                standing = standing_of(rating)
                said = standing_words(rating) if standing is Standing.DESCRIBED else standing_word(standing)
                shades[judged.zone] = Shade(standing, f"{figure}, {said}")
    for zone in grounds.zones:
        shades.setdefault(zone, Shade(Standing.UNRATED, standing_word(Standing.UNRATED)))
    subject = f"{began(name_of(code))}, {depth_words(top, bottom, grounds.language)}"
    caption = say("Zones by {subject}", subject=subject) + (f" [{unit}]" if (unit := _unit_of(grounds, chosen)) else "")
    key = tuple(
        (swatch(standing), f"{_said(standing)}: {', '.join(letters)}")
        for standing in Standing
        if (letters := [grounds.letters[zone] for zone in grounds.zones if shades[zone].pattern is standing])
    )
    return RatingMapView(caption, farm_map(grounds.farm, (), shades, subject), key)


def _unit_of(grounds: FarmGrounds, chosen: tuple[str, float, float]) -> str:
    """Return the unit of what the map shows; empty where nobody writes it."""
    ratings = (rating for judged in grounds.judged for rating in judged.ratings)
    unit = next(rating.result.unit for rating in ratings if _key(rating) == chosen)
    return "" if unit in _WIDE_UNIT or unit == "%" else unit


def _said(standing: Standing) -> str:
    """Return a standing as the key says it."""
    words = say("described, without a line") if standing is Standing.DESCRIBED else standing_word(standing)
    return f"{words[:1].upper()}{words[1:]}"


def _key(rating: Rating) -> tuple[str, float, float]:
    """Return analysis and layer of a rating."""
    result = rating.result
    return f"{result.analyte}.{result.method}", result.top_cm, result.bottom_cm


def _chosen(grounds: FarmGrounds) -> tuple[str, float, float] | None:
    """Return analysis and layer that the map shows; None where nothing is rated."""
    beyond = beyond_lines(grounds)
    if beyond:
        worst = max(beyond, key=lambda key: beyond[key][0].weight)
        return worst[:3]
    ratings = [
        rating
        for judged in grounds.judged
        for rating in judged.ratings
        if rating.result.analyte not in weak_codes(judged)
    ]
    lined = [one for one in ratings if standing_of(one) is not Standing.DESCRIBED] or ratings
    counts = Counter(_key(one) for one in lined)
    return counts.most_common(1)[0][0] if counts else None
