"""From needs and products to the cheapest mix of a farm: an exact integer programme.

- `product_mix`: the mix, what each need adds to the bill, the runner-up; or the needs that stand in the way.
- `Effort`: how far the search goes.
"""

from soilrota.agronomy.mix.product_mix import Effort, product_mix

__all__ = ["Effort", "product_mix"]
