"""The one list of stored sorts: a new sort gets page, form, check, history and storage by it."""

from __future__ import annotations

from pourwright.base.kind import Kinds
from pourwright.shop.calibration import Calibration
from pourwright.shop.card import Card
from pourwright.shop.draft import Draft
from pourwright.shop.label_sheet import LabelSheet
from pourwright.shop.lesson import Lesson
from pourwright.shop.look import Look
from pourwright.shop.material import (
    BagOil,
    Colorant,
    Eyes,
    Flake,
    Hardener,
    HollowGlass,
    InjectorLubricant,
    MoldRelease,
    Packing,
    PearlPowder,
    Plastic,
    RemeltPot,
    Salt,
    Scent,
    Softener,
    Stabilizer,
)
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.noun import Noun
from pourwright.shop.offer import Offer
from pourwright.shop.order import Customer, Order
from pourwright.shop.own_shape import OwnShape
from pourwright.shop.pour_day import PourDay
from pourwright.shop.puck import Puck
from pourwright.shop.tax_profile import TaxProfile
from pourwright.shop.timed_shot import TimedShot
from pourwright.shop.tool import Cup, Gear, Injector, Microwave, Scale, SpoonSet, Thermometer
from pourwright.shop.wish import Wish
from pourwright.shop.workplace import Workplace

NOUNS: Kinds[Noun] = Kinds(
    Workplace, Microwave, Cup, Thermometer, Injector, SpoonSet, Scale, Gear,
    Bait, Mold, OwnShape, TimedShot,
    Plastic, Softener, Hardener, Stabilizer, Colorant, Flake, PearlPowder, Salt, HollowGlass,
    Scent, BagOil, InjectorLubricant, MoldRelease, Eyes, Packing, RemeltPot,
    Look, Card, Puck, Calibration, Lesson, Draft,
    PourDay,
    Customer, Order, Offer, Wish, LabelSheet, TaxProfile,
)  # fmt: skip

# What a look's dose may refer to.
ADDITIVES = (
    Colorant.key, Flake.key, PearlPowder.key, Salt.key, HollowGlass.key, Scent.key, Softener.key,
    Hardener.key, Stabilizer.key,
)  # fmt: skip
