"""Quantities that are reckoned from results, each with the doubt that its inputs carry."""

from soilrota.agronomy.derived.inputs import Spread, between_laboratories
from soilrota.agronomy.derived.nitrogen import profile_nitrogen
from soilrota.agronomy.derived.quantities import derived_quantities

__all__ = ["Spread", "between_laboratories", "derived_quantities", "profile_nitrogen"]
