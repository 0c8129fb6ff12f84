"""How much lime by the pH of a buffer or by acidity: the rules of Oregon, Pennsylvania, North Carolina and Iowa.

Figures stand in `lime_rules.yaml`; `lime_rules.lime_rules` says what the rates of each rule are counted in.
"""

from __future__ import annotations

from soilrota.guidelines.lime_rules import between, rule_row


def oregon_lime(buffer: float, target: float) -> float | None:
    """Return the lime of score 100 for 6 inches in Oregon [short ton/ac]; None where the table does not say.

    Two branches were fitted, with a step between buffer pH 5.8 and 5.7. The table is read between printed lines of one
    branch; within the step it says nothing, nor between printed targets. No lime where the target is already met: that
    is for the caller to see.

    Source: Oregon State University Extension 2025, EM 9585, Sikora buffer.

    Args:
        buffer: pH of the Sikora buffer.
        target: pH (water) that is aimed at, one of those printed.

    >>> oregon_lime(6.0, 5.6), oregon_lime(5.75, 5.6)
    (1.7, None)
    """
    row = rule_row("oregon-sikora")
    if target not in row["targets"]:
        return None
    column: int = row["targets"].index(target)
    for branch in row["branches"]:
        rates = between(buffer, sorted((line["buffer"], line["rates"]) for line in branch))
        if rates is not None:
            return rates[column]
    return None


def penn_state_lime(acidity: float, target: float, ph: float) -> float | None:
    """Return the calcium carbonate for 7 inches in Pennsylvania [lb/ac]; None for a target that the rule has not.

    Source: Penn State Agronomy Guide, section 2. It says greater than and less than 4.0 and
    leaves 4.0 open, which is taken with the lesser here.

    Args:
        acidity: exchangeable acidity by the Mehlich buffer [meq/100 g].
        target: 7.0 or 6.5 [pH].
        ph: pH (water) of the soil.

    >>> penn_state_lime(9.0, 7.0, 5.2), penn_state_lime(3.0, 6.5, 6.2), penn_state_lime(3.0, 6.5, 6.6)
    (9000.0, 2000.0, 0.0)
    """
    for line in rule_row("penn-state")["targets"]:
        if line["target"] == target:
            if "small" not in line or acidity > line["small"]:
                return float(line["factor"] * acidity)
            return float(line["fixed"]) if ph < target else 0.0
    return None


def penn_state_turf(acidity: float, target: float) -> float | None:
    """Return the calcium carbonate on turf in Pennsylvania [lb/1000 ft2]; None where it is not printed.

    Source: Penn State Agricultural Analytical Services Laboratory, Lime recommendations for turf. Only lines that were
    read are there, and nothing is read between them.

    Args:
        acidity: exchangeable acidity [meq/100 g], as printed.
        target: 7.0, 6.5 or 6.0 [pH].
    """
    row = rule_row("penn-state-turf")
    if target not in row["targets"]:
        return None
    lines = {float(line["acidity"]): line["rates"] for line in row["acidities"]}
    return float(lines[acidity][row["targets"].index(target)]) if acidity in lines else None


def north_carolina_acidity(buffer: float) -> float:
    """Return the acidity that a pH of the Mehlich buffer means in North Carolina [meq/100 g]; nought from 6.6 on.

    Source: North Carolina Department of Agriculture and Consumer Services, Lime from buffer pH.
    """
    row = rule_row("north-carolina")
    return max(0.0, float((row["neutral"] - buffer) * row["acidity_per_unit"]))


def north_carolina_lime(ph: float, target: float, acidity: float, credit: float = 0.0) -> float:
    """Return the lime in North Carolina [short ton/ac]; nought where pH is at its target, or at 6.6 and above.

    Source: North Carolina Department of Agriculture and Consumer Services, Lime from buffer pH.

    Args:
        ph: pH of the soil.
        target: pH that is aimed at.
        acidity: acidity [meq/100 g].
        credit: what earlier lime still gives [short ton/ac].

    >>> round(north_carolina_lime(5.0, 6.0, 1.2), 2)
    0.75
    """
    neutral = rule_row("north-carolina")["neutral"]
    if ph >= min(target, neutral):
        return 0.0
    return max(0.0, float(acidity * (target - ph) / (neutral - ph) - credit))


def north_carolina_credit(applied: float, months: float, soil_class: str) -> float:
    """Return what earlier lime still gives in North Carolina [short ton/ac].

    Source: North Carolina Department of Agriculture and Consumer Services: 8 % used up a month on mineral soil, 16 % on
    mineral-organic and organic soil.

    Args:
        applied: lime that was spread [short ton/ac].
        months: months since.
        soil_class: `mineral`, `mineral-organic` or `organic`.

    Raises:
        KeyError: another class of soil: a fault of the program.
    """
    share = rule_row("north-carolina")["credit"][soil_class]
    return max(0.0, float(applied * (1 - share * months)))


def iowa_lime(buffer: float, target: float, depth_in: float) -> float | None:
    """Return the effective calcium carbonate in Iowa [lb/ac]; None for a target that the rule has not.

    Source: Iowa State University Extension 2013, PM 1688 (unverified).

    Args:
        buffer: pH of the Sikora or SMP buffer.
        target: 6.0, 6.5 or 6.9 [pH].
        depth_in: depth that is limed [inches].
    """
    row = rule_row("iowa-buffer")
    for line in row["lines"]:
        if line["target"] == target:
            return max(0.0, float((line["constant"] - line["slope"] * buffer) * depth_in / row["depth_in"]))
    return None
