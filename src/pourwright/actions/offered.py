"""What the price list asks for a pack."""

from __future__ import annotations

from pourwright.actions.port import Bench
from pourwright.shop.money import Money
from pourwright.shop.offer import Offer


def offers(bench: Bench) -> tuple[tuple[str, Offer], ...]:
    """The price list with the ids of its records, by name."""
    found = ((s.id, s.noun) for s in bench.records.all(Offer.key))
    return tuple((key, noun) for key, noun in found if isinstance(noun, Offer))


def offer_for(bench: Bench, bait: str, look: str, baits_each: int) -> Offer | None:
    """The entry for a bait in a look and a pack of so many; one for any look stands in."""
    fits = [o for _, o in offers(bench) if (o.bait, o.baits_each) == (bait, baits_each)]
    named = (o for o in fits if o.look == look)
    return next(named, next((o for o in fits if not o.look), None))


def price_of_pack(bench: Bench, bait: str, look: str, packs: int, baits_each: int) -> Money | None:
    """Price of one pack when so many are taken at once; none where the list has no such pack."""
    offer = offer_for(bench, bait, look, baits_each)
    return Money.of(offer.price_from(packs)) if offer else None
