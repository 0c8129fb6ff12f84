"""Masses and charges of the forms that laboratories express results as; atomic masses are IUPAC's, from a library."""

from __future__ import annotations

from functools import cache

from soilrota.quantities.refusals import Refusal
from soilrota.quantities.unit_texts import unit_table


def own_form(analyte_id: str) -> str:
    """Return the form that the glossary means by an analyte; empty where the analyte has none.

    >>> own_form("phosphorus"), own_form("nitrate-nitrogen"), own_form("organic-matter")
    ('P', 'NO3-N', '')
    """
    row = unit_table()["analytes"].get(analyte_id)
    return "" if row is None else str(row["forms"][0])


def check_form(analyte_id: str, form: str) -> Refusal | None:
    """Return why a result of an analyte cannot be expressed as a form; None where it can."""
    row = unit_table()["analytes"].get(analyte_id)
    if row is None:
        return Refusal(
            f"{analyte_id} as {form}",
            "an analyte with a declared chemical formula",
            f"take {form} out, or declare the forms of {analyte_id} in the table of units",
        )
    if form not in row["forms"]:
        return Refusal(
            f"{analyte_id} as {form}",
            f"one of {', '.join(row['forms'])}",
            f"check which analyte the column holds, and the form that it is given in: {form} is not of {analyte_id}",
        )
    return None


def charge(analyte_id: str) -> int | None:
    """Return the charge of an analyte's exchangeable ion [-]; None where none is declared.

    >>> charge("calcium"), charge("phosphorus")
    (2, None)
    """
    row = unit_table()["analytes"].get(analyte_id)
    return None if row is None else row.get("charge")


def is_element(analyte_id: str, form: str) -> bool:
    """Return whether a form counts the analyte's element alone, whatever held it.

    >>> is_element("nitrate-nitrogen", "NO3-N"), is_element("nitrate-nitrogen", "NO3")
    (True, False)
    """
    return bool(unit_table()["forms"][form] == unit_table()["analytes"][analyte_id]["element"])


@cache
def molar_mass(form: str) -> float:
    """Return the molar mass of a form [g/mol].

    >>> round(molar_mass("P2O5"), 2)
    141.94
    """
    import periodictable  # noqa: PLC0415 - loads numpy; only where masses and amounts meet

    return float(periodictable.formula(unit_table()["forms"][form]).mass)


@cache
def element_fraction(analyte_id: str, form: str) -> float:
    """Return the mass of the analyte's element in a mass of the form [g/g].

    >>> round(element_fraction("potassium", "K2O"), 4)
    0.8302
    """
    import periodictable  # noqa: PLC0415 - as above

    element = periodictable.elements.symbol(unit_table()["analytes"][analyte_id]["element"])
    whole = periodictable.formula(unit_table()["forms"][form])
    return float(whole.atoms[element] * element.mass / whole.mass)
