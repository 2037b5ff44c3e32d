"""What a shelf can make; which bottle to buy next."""

from __future__ import annotations

from collections.abc import Iterable

from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.color.reach.answer import PaletteColor, ReachAnswer
from pourwright.color.reach.caution import cautions
from pourwright.color.reach.colored import at_the_limit, colored, within_of
from pourwright.color.reach.found import REACHED, Found, found_for
from pourwright.color.reach.gamut import gamut, screen_hex
from pourwright.color.reach.handful import handfuls
from pourwright.color.reach.packing import distinct
from pourwright.color.reach.palette import palette_of
from pourwright.color.reach.purchase import next_purchase, purchases, small_shelf
from pourwright.color.reach.question import ReachInput
from pourwright.color.reach.rounding import rounded
from pourwright.color.reach.sample import Tried, sample
from pourwright.color.reach.stock import stock_of

_SHARES_WITHIN = (1.0, 2.0, 3.0, 5.0)
_TRIES = 150_000
# So many fits take half a minute.
_MOST_FITS = 500_000


@calculation(
    "color.reach",
    purpose="what a shelf can make; which colorant to buy next",
    sources=(
        published("Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21: CIEDE2000"),
        published("ISO 17321-1:2012: the 24 patches, the palette where none is given"),
        estimate("color of recipes by radiative transfer, as in color.predict"),
        PRACTICE,
    ),
    example={
        "shelf": [
            {"name": "white", "colorant": {"kind": "opaque", "color_hex": "#f2f2ee"}},
            {"name": "black", "colorant": {"kind": "opaque", "color_hex": "#202022"}},
            {"name": "yellow", "colorant": {"kind": "dye", "color_hex": "#e8c21a"}},
            {"name": "red", "colorant": {"kind": "dye", "color_hex": "#b3202a"}},
            {"name": "blue", "colorant": {"kind": "dye", "color_hex": "#1f3f9c"}},
            {"name": "brown", "colorant": {"kind": "opaque", "color_hex": "#6b4526"}},
        ],
        "candidates": [
            {"name": "green", "colorant": {"kind": "dye", "color_hex": "#1f7a3d"}},
            {"name": "magenta", "colorant": {"kind": "dye", "color_hex": "#a82a7c"}},
        ],
        "k": 4,
        "plastic_g": 200,
    },
)  # fmt: skip
def color_reach(inputs: ReachInput) -> ReachAnswer:
    """Clearly different colors of a shelf, what of a palette it reaches, and what would help.

    Every handful of up to three bottles is fitted to every color; the best small shelf is chosen
    among all there are. Colors are those of daylight, of the typical values, without bands.

    Raises: NoAnswer where no bottle counts, BadInput where the shelf and palette are too large.
    """
    stock, palette = stock_of(inputs), palette_of(inputs.palette)
    chosen = handfuls(stock)
    if len(chosen) * len(palette.names) > _MOST_FITS:
        raise BadInput(
            "palette", len(palette.names),
            f"is too long for so many bottles: at most {_MOST_FITS // len(chosen)} colors; ask in "
            "parts, or of fewer candidates",
        )  # fmt: skip
    found = found_for(stock, palette, chosen)
    tried = sample(stock, found.of_shelf().chosen, tries=_TRIES, seed=inputs.seed)
    return _told(inputs, found, tried)


def _told(inputs: ReachInput, fitted: Found, tried: Tried) -> ReachAnswer:
    counts, counted = rounded(fitted.of_shelf(), tried)
    found = fitted.informed(counts, counted)
    own, colors = found.of_shelf(), tried.labs[distinct(tried.labs)]
    palette, bought = colored(inputs, own, counts, counted), purchases(found, inputs.seed)
    missed = sorted((c for c in palette if not c.reached), key=lambda c: -c.nearest_de00)
    return ReachAnswer(
        len(colors),
        len(tried.labs),
        screen_hex(colors),
        within_of(palette, REACHED).share,
        tuple(within_of(palette, d) for d in _SHARES_WITHIN),
        palette,
        tuple(c.name for c in missed),
        small_shelf(own, inputs.k),
        bought,
        next_purchase(bought),
        gamut(tried.labs),
        _verdict(palette, len(colors)),
        (*_meaning(inputs, own, len(tried.labs)), *cautions(inputs, own.stock)),
    )


def _verdict(palette: tuple[PaletteColor, ...], colors: int) -> str:
    reached = sum(c.reached for c in palette)
    return (
        f"at least {colors} clearly different colors; {reached} of {len(palette)} colors of the "
        "palette are in reach"
    )


def _meaning(inputs: ReachInput, own: Found, tried: int) -> Iterable[str]:
    yield (
        f"the number of colors is a lower bound: found among {tried} recipes in whole steps for "
        f"{inputs.plastic_g:g} g of plastic"
    )
    yield (
        "reached means that a recipe was found within 2 in amounts without rounding, which may ask "
        "for a bigger cup or a colorant let down 1:10; not reached means that none was found, and "
        "that is no proof"
    )
    yield "no band is given: everything holds for the typical values and in daylight"
    if not inputs.palette:
        yield "no palette was given: the 24 patches of a camera test target stand in"
    if inputs.k >= own.stock.on_shelf:
        yield f"the small shelf of {inputs.k} is the whole shelf"
    full = at_the_limit(own)
    if full:
        yield (
            f"colors out of reach whose nearest recipe takes all {inputs.most_drops} steps: "
            f"{full}; allow more steps, or take a stronger colorant"
        )
