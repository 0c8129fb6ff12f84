"""Values and names of analyses as they are read: decimals of the method, unit, name in a sentence."""

from __future__ import annotations

from soilrota.documents.dates import digits, with_unit
from soilrota.guidelines.derived_codes import derived_codes
from soilrota.language import marked, say
from soilrota.model.results import Result
from soilrota.quantities import all_codes, analysis_inside, format_value

#: Decimals of derived quantities of which no row of a guideline speaks.
_DERIVED_DECIMALS = {"profile-nitrogen": 0}
#: Units that nobody writes behind a number.
BARE = ("pH", "index", "ratio")
_PROPERTIES = {
    "clay-percent": marked("clay"),
    "crop": marked("the crop that is grown"),
    "profile-nitrogen": marked("mineral nitrogen of the profile"),
    "texture": marked("the field texture"),
}


def value_words(analyte: str, method: str, value: float, unit: str, qualifier: str = "") -> str:
    """Return a value with the decimals of its method and its unit.

    >>> value_words("phosphorus", "colwell", 35.0, "mg/kg"), value_words("ph", "cacl2", 5.25, "pH", "<")
    ('35 mg/kg', '<5.3')
    """
    known = derived_codes().get(analyte)
    decimals = known.decimals if known else _DERIVED_DECIMALS.get(analyte)
    is_derived = decimals is not None and method == "derived"
    written = f"{value:.{decimals}f}" if is_derived else format_value(analyte, method, value)
    return with_unit(f"{qualifier}{digits(written)}", "" if unit in BARE else unit)


def result_words(result: Result) -> str:
    """Return the value of a result with its unit."""
    return value_words(result.analyte, result.method, result.value, result.unit, result.qualifier)


def bare_figure(words: str) -> str:
    r"""Return a value's figure without the unit behind it, however the language sets them apart.

    >>> bare_figure("35 mg/kg"), bare_figure("2.34%"), bare_figure("2,34\xa0%"), bare_figure("5.3")
    ('35', '2.34', '2,34', '5.3')
    """
    return words.split(maxsplit=1)[0].removesuffix("%")


def name_of(code: str) -> str:
    """Return what an analysis or a derived quantity is called, in a sentence.

    >>> name_of("phosphorus.colwell"), name_of("sodium-share"), name_of("clay-percent")
    ('Colwell P', 'sodium share of the exchange capacity', 'clay')
    """
    plain = code.removesuffix(".derived")
    known = derived_codes().get(plain)
    if known is not None:
        name = say(known.name)
        return name[:1].lower() + name[1:] if name[1:2].islower() else name
    return say(_PROPERTIES[plain]) if plain in _PROPERTIES else analysis_inside(plain)


def is_named(code: str) -> bool:
    """Return whether a table has the name of an analysis, a derived quantity or a property.

    >>> is_named("phosphorus.colwell"), is_named("texture"), is_named("rainfall-zone")
    (True, True, False)
    """
    return code in derived_codes() or code in all_codes() or code in _PROPERTIES


def began(name: str) -> str:
    """Return a name as a sentence begins with it; a sign such as pH keeps its letters.

    >>> began("sodium share"), began("pH (CaCl2)"), began("Colwell P")
    ('Sodium share', 'pH (CaCl2)', 'Colwell P')
    """
    return name if name[1:2].isupper() else f"{name[:1].upper()}{name[1:]}"
