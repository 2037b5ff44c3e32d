"""The one list of defects, in the order in which a page shows them."""

from __future__ import annotations

from pourwright.base.errors import NotFound
from pourwright.plan.defect.bent import BENT
from pourwright.plan.defect.bleeding import BLEEDING
from pourwright.plan.defect.bubbles import BUBBLES
from pourwright.plan.defect.defect import Defect
from pourwright.plan.defect.dent import DENT
from pourwright.plan.defect.flake import FLAKE
from pourwright.plan.defect.flash import FLASH
from pourwright.plan.defect.foam import FOAM
from pourwright.plan.defect.fold import FOLD
from pourwright.plan.defect.peel import PEEL
from pourwright.plan.defect.salt import SALT
from pourwright.plan.defect.short import SHORT
from pourwright.plan.defect.sinking import SINKING
from pourwright.plan.defect.softness import SOFTNESS
from pourwright.plan.defect.sweat import SWEAT
from pourwright.plan.defect.tip import TIP
from pourwright.plan.defect.torn import TORN
from pourwright.plan.defect.undercooked import COOKED
from pourwright.plan.defect.weight import WEIGHT
from pourwright.plan.defect.yellow import YELLOW

DEFECTS: tuple[Defect, ...] = (
    FLASH,
    SHORT,
    TIP,
    DENT,
    BUBBLES,
    FOAM,
    FOLD,
    TORN,
    BENT,
    YELLOW,
    COOKED,
    SOFTNESS,
    SINKING,
    FLAKE,
    SALT,
    PEEL,
    BLEEDING,
    SWEAT,
    WEIGHT,
)


def defect_named(key: str) -> Defect:
    """A defect by its key. Raises: NotFound."""
    found = next((d for d in DEFECTS if d.key == key), None)
    if found is None:
        raise NotFound(
            f"no defect is called {key!r}; there are {', '.join(d.key for d in DEFECTS)}"
        )
    return found
