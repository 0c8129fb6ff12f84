"""Maxima that a need may never pass."""

from __future__ import annotations

from collections.abc import Iterable

from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.model.advice import Cap


def binding_first(caps: Iterable[Cap]) -> tuple[Cap, ...]:
    """Return maxima from the least on; of equal ones the first stays first."""
    return tuple(sorted(caps, key=lambda one: one.amount))


def within(amount: Doubtful, caps: Iterable[Cap] = ()) -> Doubtful:
    """Return an amount with its interval, cut to lie between nought and the least maximum [unit of the need].

    >>> within(Doubtful(8, -1, 17), [Cap(10, "one-dressing")])
    Doubtful(value=8, low=0.0, high=10, is_censored=False)
    """
    most = min((one.amount for one in caps), default=None)

    def cut(value: float) -> float:
        kept = max(0.0, value)
        return kept if most is None else min(kept, max(0.0, most))

    return Doubtful(cut(amount.value), cut(amount.low), cut(amount.high), amount.is_censored)
