"""The glossary of quantities: analytes, methods and units, one meaning each."""

from soilrota.quantities.glossary import (
    Analyte,
    Method,
    all_codes,
    analysis_name,
    analyte,
    analytes,
    format_value,
    method,
    split_code,
    unit_name,
)

__all__ = [
    "Analyte",
    "Method",
    "all_codes",
    "analysis_name",
    "analyte",
    "analytes",
    "format_value",
    "method",
    "split_code",
    "unit_name",
]
