"""The fields for the mass of what is counted: a drop, and a level teaspoon; bands are estimates."""

from __future__ import annotations

from pourwright.base.field import unmeasured


def one_drop(*, low: float = 0.005) -> float | None:
    """The field for a drop in grams; a colorant let down has lighter ones in effect."""
    found: float | None = unmeasured(
        "One drop", low=low, high=0.2, typical=(0.02, 0.035, 0.05), label="mass of one drop",
        measure="weigh 20 drops and divide by 20",
    )  # fmt: skip
    return found


def one_spoon(of: str = "One level teaspoon") -> float | None:
    """The field for a level teaspoon in grams."""
    found: float | None = unmeasured(
        of, low=0.3, high=12, typical=(1.5, 2.6, 5), label="mass of one level teaspoon",
        measure="weigh five level teaspoons and divide by five",
    )  # fmt: skip
    return found
