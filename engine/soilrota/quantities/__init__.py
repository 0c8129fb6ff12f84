"""The glossary of quantities: analytes, methods and units, one meaning each; cells and units as written."""

from soilrota.quantities.glossary import (
    Analyte,
    Method,
    all_codes,
    analysis_inside,
    analysis_name,
    analyte,
    analytes,
    format_value,
    method,
    split_code,
    unit_name,
)
from soilrota.quantities.refusals import Refusal
from soilrota.quantities.unit_texts import Unit, read_unit
from soilrota.quantities.units import Soil, convention_soil, convert, factor
from soilrota.quantities.values import Limits, NoNumber, NumberForm, Value, find_form, read_value

__all__ = [
    "Analyte",
    "Limits",
    "Method",
    "NoNumber",
    "NumberForm",
    "Refusal",
    "Soil",
    "Unit",
    "Value",
    "all_codes",
    "analysis_inside",
    "analysis_name",
    "analyte",
    "analytes",
    "convention_soil",
    "convert",
    "factor",
    "find_form",
    "format_value",
    "method",
    "read_unit",
    "read_value",
    "split_code",
    "unit_name",
]
