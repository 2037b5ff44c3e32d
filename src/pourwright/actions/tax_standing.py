"""Whether a tax profile was chosen, and choosing one."""

from __future__ import annotations

from dataclasses import replace

from pourwright.actions.port import Bench, Stored, World
from pourwright.base.errors import NotFound
from pourwright.shop.tax_profile import TaxCountry, TaxProfile

TAX_PROFILE = TaxProfile.key
"""The id of the one record."""


def tax_standing(bench: Bench) -> TaxProfile | None:
    """The profile once a country is chosen; none before, and none once it was taken off."""
    stored = _stored(bench)
    if stored is None or stored.retired or not isinstance(stored.noun, TaxProfile):
        return None
    return None if stored.noun.country is TaxCountry.NOT_CHOSEN else stored.noun


def choose_country(world: World, country: TaxCountry) -> TaxProfile:
    """Settle the country; everything else of the profile stays as it was."""
    with world.bench() as bench:
        stored = _stored(bench)
        before = stored.noun if stored and isinstance(stored.noun, TaxProfile) else TaxProfile()
        chosen = replace(before, country=country)
        version = stored.version if stored else 0
        bench.records.save(TaxProfile.key, TAX_PROFILE, chosen, expected_version=version)
        bench.commit()
    return chosen


def _stored(bench: Bench) -> Stored | None:
    try:
        return bench.records.get(TaxProfile.key, TAX_PROFILE)
    except NotFound:
        return None
