"""The mix by counting: every rate of every product on every zone, the rules of the mix in their most obvious form."""

from __future__ import annotations

from itertools import combinations, product
from math import ceil, inf

from soilrota.guidelines.mix import beyond_need
from soilrota.model.advice import Input
from tests.agronomy.mix.making import Farm

_NEAR = 1e-7
#: Rate by product [kg/ha].
Rates = tuple[float, ...]


class Counted:
    """A farm of which every mix is counted; elements only, none divided into dressings."""

    def __init__(self, farm: Farm) -> None:
        self.farm = farm
        self.products = [farm.products.products[id_] for id_ in sorted(farm.products.products)]
        self.zones = sorted({one.zone for one in farm.needs})
        self.needs = {(one.zone, one.input): one for one in farm.needs}
        self.ways = {zone: self._ways(zone) for zone in self.zones}
        self.floors: dict[str, dict[Input, float]] = {}
        self.in_the_way: dict[str, tuple[Input, ...]] = {}
        for zone in self.zones:
            self._settle(zone)

    def most(self, zone: str, input_: Input) -> float:
        """Return the maximum of an input."""
        one = self.needs.get((zone, input_))
        if one is not None and one.caps:
            return one.caps[0].amount
        return (one.amount if one else 0.0) + beyond_need().get(input_, inf)

    def supply(self, rates: Rates, input_: Input) -> float:
        """Return what rates supply of an input [kg/ha]."""
        return sum(
            rate * one.contents.get(input_.value, 0.0) / 100 for one, rate in zip(self.products, rates, strict=True)
        )

    def _rates(self, zone: str) -> list[list[float]]:
        """Return the rates that each product may have."""
        found = []
        for one in self.products:
            fits = not one.land_uses or self.farm.land_uses[zone] in one.land_uses
            steps = range(1, int(one.most_kg_ha / one.step_kg_ha + _NEAR) + 1) if fits else ()
            found.append([0.0, *(n * one.step_kg_ha for n in steps if n * one.step_kg_ha >= one.least_kg_ha)])
        return found

    def _ways(self, zone: str) -> list[Rates]:
        """Return all rates that pass no maximum."""
        return [
            rates
            for rates in product(*self._rates(zone))
            if all(self.supply(rates, input_) <= self.most(zone, input_) + _NEAR for input_ in Input)
        ]

    def _some(self, zone: str, floors: dict[Input, float]) -> list[Rates]:
        """Return the rates that supply at least the floors."""
        return [
            rates
            for rates in self.ways[zone]
            if all(self.supply(rates, input_) >= floor - _NEAR for input_, floor in floors.items())
        ]

    def _settle(self, zone: str) -> None:
        """Find what the zone gets at least, or what stands in the way."""
        needs = {input_: self.needs[zone, input_] for input_ in Input if (zone, input_) in self.needs}
        needs = {input_: one for input_, one in needs.items() if one.amount > 0}
        highest = tuple(rates[-1] for rates in self._rates(zone))
        beyond = [input_ for input_, one in needs.items() if self.supply(highest, input_) < one.amount - _NEAR]
        if beyond:
            self.in_the_way[zone] = (beyond[0],)
            return
        floors, lows, finest = {}, {}, {}
        for input_, one in needs.items():
            fine = [
                p
                for i, p in enumerate(self.products)
                if any(w[i] and self.supply(w, input_) and p.contents.get(input_.value) for w in self.ways[zone])
            ]
            finest[input_] = min((p.contents[input_.value] / 100 * p.step_kg_ha for p in fine), default=0.0)
            tight = self.most(zone, input_) - one.amount < finest[input_] - _NEAR
            floors[input_] = max(one.low, one.amount - 0.999 * finest[input_]) if tight else one.amount
            lows[input_] = min(one.low, floors[input_])
        if self._some(zone, floors):
            self.floors[zone] = floors
            return
        if not self._some(zone, lows):
            sets = (chosen for size in range(1, 8) for chosen in combinations(lows, size))
            self.in_the_way[zone] = next(s for s in sets if not self._some(zone, {i: lows[i] for i in s}))
            return
        found = dict(lows)
        for input_, floor in floors.items():
            others = {other: value for other, value in found.items() if other is not input_}
            most = max(self.supply(rates, input_) for rates in self._some(zone, others))
            found[input_] = floor if most >= floor - 1e-6 else max(lows[input_], most - 0.999 * finest[input_])
        self.floors[zone] = found

    def cheapest(self, lacking: tuple[str, ...] = (), without: tuple[str, Input] | None = None) -> float | None:
        """Return the least bill; of mixes that lack at least one of some products, or without one need.

        On each zone, of all rates with the same products and masses in packs the cheapest are kept: loose masses only
        add to the bill.
        """
        prices = self.farm.products
        options = []
        for zone in self.zones:
            floors = {i: v for i, v in self.floors[zone].items() if (zone, i) != without}
            area, kept = self.farm.areas[zone], {}
            for rates in self._some(zone, floors):
                loose = sum(
                    rate * area / 1000 * one.price_per_t
                    for one, rate in zip(self.products, rates, strict=True)
                    if not one.pack_kg
                )
                cost = loose + sum(prices.pass_price_ha * area for rate in rates if rate)
                key = tuple(
                    (rate > 0, rate * area if one.pack_kg else 0.0)
                    for one, rate in zip(self.products, rates, strict=True)
                )
                kept[key] = min(cost, kept.get(key, inf))
            options.append(list(kept.items()))
        best = None
        for chosen in product(*options):
            bill = sum(cost for _, cost in chosen)
            used = set()
            for index, one in enumerate(self.products):
                spread = [key[index] for key, _ in chosen]
                if any(is_used for is_used, _ in spread):
                    used.add(one.id)
                    bill += prices.call_price
                    if one.pack_kg:
                        mass = sum(kg for _, kg in spread)
                        bill += ceil((mass - 1e-3) / one.pack_kg) * one.pack_kg / 1000 * one.price_per_t
            if (not lacking or not used >= set(lacking)) and (best is None or bill < best):
                best = bill
        return best
