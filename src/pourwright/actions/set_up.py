"""First start: five questions, each of which may be skipped, and one water test."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.plan_batch import WORKPLACE
from pourwright.actions.port import Bench, Stored, World
from pourwright.base.errors import Conflict
from pourwright.base.field import number, part, pick
from pourwright.base.record import Record
from pourwright.base.units import System
from pourwright.shop.draft import Draft
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import NOUNS
from pourwright.shop.tool import Cup, Injector, Microwave, SpoonSet, WaterTest
from pourwright.shop.workplace import Workplace

TYPICAL = "Typical value, not measured: correct it when you know better."
TYPICAL_CUP_ML = 473.0
TYPICAL_BAIT_G = 9.0
TYPICAL_CAVITIES = 2
TYPICAL_INJECTOR_ML = 118.3
FIRST_COUNT = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers(Record):
    """What a newcomer knows of their bench; anything left out takes a typical value."""

    units: System = pick("Units you read", default=System.US)
    label_w: float | None = number(
        "How many watts does the microwave's label say?", low=300, high=2200, default=None
    )
    cup_ml: float | None = number(
        "How much does your pouring cup hold to the brim?", low=30, high=4000, default=None
    )
    bait_g: float | None = number("What does one bait weigh?", low=0.05, high=500, default=None)
    cavities: int | None = number("How many cavities has the mold?", low=1, high=60, default=None)
    injector_ml: float | None = number(
        "How much does the injector hold? Enter 0 for pouring by hand.",
        low=0, high=2000, default=None,
    )  # fmt: skip
    water_test: WaterTest | None = part("Water test", default=None)


def set_up(world: World, answers: Answers) -> str:
    """Make a bench from the answers; the answer is the id of a first plan.

    A demo bench is taken off first. Raises: Conflict if the store already holds a bench.
    """
    plan = world.ids.fresh()
    with world.bench() as bench:
        standing = bench.records.all(Workplace.key, retired=True)
        if standing and not _demo(standing[0]):
            raise Conflict("this store already holds a bench; change it on the Workplace page")
        _clear_demo(bench)
        nouns = _nouns({n: world.ids.fresh() for n in _PARTS}, answers, plan)
        for key, noun in nouns.items():
            version = standing[0].version if key == WORKPLACE and standing else 0
            bench.records.save(noun.key, key, noun, expected_version=version)
        bench.commit()
    return plan


def _demo(stored: Stored) -> bool:
    return isinstance(stored.noun, Workplace) and stored.noun.demo


def _clear_demo(bench: Bench) -> None:
    """Take the invented records off the lists; sheets and history keep them."""
    for sort in NOUNS:
        if sort == Workplace.key:
            continue
        for stored in bench.records.all(sort):
            bench.records.retire(sort, stored.id, expected_version=stored.version)


_PARTS = ("microwave", "cup", "bait", "mold", "injector", "spoons")


def _nouns(ids: dict[str, str], answers: Answers, plan: str) -> dict[str, Noun]:
    by_hand = answers.injector_ml == 0
    nouns: dict[str, Noun] = {
        WORKPLACE: Workplace(name="My bench", units=answers.units),
        ids["microwave"]: _microwave(answers),
        ids["cup"]: Cup(
            name="My pouring cup",
            volume_ml=answers.cup_ml or TYPICAL_CUP_ML,
            note="" if answers.cup_ml else TYPICAL,
        ),
        ids["bait"]: Bait(
            name="My first bait",
            mass_g=answers.bait_g or TYPICAL_BAIT_G,
            note="" if answers.bait_g else TYPICAL,
        ),
        ids["mold"]: Mold(
            name="My first mold",
            bait=ids["bait"],
            cavities=answers.cavities or TYPICAL_CAVITIES,
            note="" if answers.cavities else TYPICAL,
        ),
        ids["spoons"]: SpoonSet(name="Kitchen spoons", sizes_tsp=(1.0, 0.5, 0.25, 0.125)),
        plan: Draft(
            name="My first batch",
            mold=ids["mold"],
            count=FIRST_COUNT,
            cup=ids["cup"],
            microwave=ids["microwave"],
            injector="" if by_hand else ids["injector"],
            by_hand=by_hand,
            spoons=ids["spoons"],
        ),
    }
    if not by_hand:
        nouns[ids["injector"]] = Injector(
            name="My injector",
            volume_ml=answers.injector_ml or TYPICAL_INJECTOR_ML,
            note="" if answers.injector_ml else TYPICAL,
        )
    return nouns


def _microwave(answers: Answers) -> Microwave:
    return Microwave(
        name="My microwave",
        label_w=answers.label_w,
        water_tests=(answers.water_test,) if answers.water_test else (),
    )
