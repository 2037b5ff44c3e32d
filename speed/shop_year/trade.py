"""The invented shop's buying, bagging, orders and sales, by the use-cases a person has."""

from __future__ import annotations

import random
from contextlib import suppress

from pourwright.actions.bag_baits import Bagging, Taken, bag_baits
from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.buy_lot import buy_lot
from pourwright.actions.finished_stock import Shelves, free_stock
from pourwright.actions.kept_order import order_at
from pourwright.actions.pack_order import call_off, pack_order, pick_line
from pourwright.actions.port import World
from pourwright.actions.send_order import PricedLine, SendEntry, send_order
from pourwright.actions.set_aside import filled_lines, set_aside
from pourwright.actions.stock_lot_opening import item_of
from pourwright.actions.take_back_sale import take_back_sale
from pourwright.actions.take_order import OrderEntry, WantedLine, take_order
from pourwright.base.errors import Conflict
from pourwright.shop.material import Colorant, Flake, Material, Packing, PearlPowder, Plastic, Salt
from pourwright.shop.order import Customer
from pourwright.shop.purchase import BuyUnit, Purchase
from pourwright.shop.stock_lot import LotSort

EACH = 8
PACKING = "demo-packing"
BUYERS = 60
CHANNELS = ("message", "market", "shop")
# What is bought at once: grams and a price, both invented.
BOUGHT = {
    Plastic.key: (11_900.0, 131.0), Colorant.key: (30.0, 4.5), Flake.key: (56.0, 5.0),
    PearlPowder.key: (28.0, 6.0), Salt.key: (2270.0, 6.0),
}  # fmt: skip


class Trade:
    """What the shop does between pours."""

    def __init__(self, world: World, rng: random.Random) -> None:
        self._world, self._rng = world, rng

    def buyers(self) -> None:
        """Customers who will order."""
        with self._world.bench() as bench:
            for n in range(BUYERS):
                noun = Customer(name=f"Invented buyer {n + 1}", note="Invented.")
                bench.records.save(Customer.key, f"year-buyer-{n}", noun, expected_version=0)

    def buy(self) -> None:
        """A lot of every material that runs low, and packing by the piece."""
        with self._world.bench() as bench:
            shelf = [(sort, it) for sort in BOUGHT for it in bench.records.all(sort)]
            packs = sum(h.pieces for h in bench.stock.lots(item=item_of(Packing.key, PACKING)))
        for sort, stored in shelf:
            grams, price = BOUGHT[sort]
            if isinstance(stored.noun, Material) and (stored.noun.on_hand_g or 0.0) < 0.6 * grams:
                self._bought(sort, stored.id, grams, BuyUnit.GRAM, price)
        if packs < 100:
            self._bought(Packing.key, PACKING, 500, BuyUnit.PIECE, 90.0)

    def bag(self) -> None:
        """Whatever hangs loose goes into bags of eight."""
        with self._world.bench() as bench:
            aside = baits_set_aside(bench)
            for held in bench.stock.lots(LotSort.POURED, present=True):
                free = held.pieces - aside.get(held.lot.code, 0)
                baits = free // EACH * EACH
                if baits:
                    bag_baits(
                        self._world,
                        Bagging(
                            taken=(Taken(lot=held.lot.code, baits=baits),), baits_each=EACH,
                            packing=PACKING, anyway=True,
                        ),
                        key=self._world.ids.fresh(),
                    )  # fmt: skip

    def order(self, kinds: list[tuple[str, str]], day: str, due: str) -> str:
        """A buyer wants one to three kinds."""
        wanted = self._rng.sample(kinds, min(len(kinds), self._rng.randint(1, 3)))
        lines = tuple(
            WantedLine(bait=bait, look=look, packs=self._rng.randint(1, 2), baits_each=EACH,
                       price_money=self._rng.choice((5.5, 6.0, 6.75)))
            for bait, look in wanted
        )  # fmt: skip
        entry = OrderEntry(
            customer=f"year-buyer-{self._rng.randrange(BUYERS)}", lines=lines, taken_on=day,
            due_on=due, channel=self._rng.choice(CHANNELS),
        )  # fmt: skip
        return take_order(self._world, entry, key=self._world.ids.fresh())

    def free(self) -> Shelves:
        """What nobody has set aside."""
        with self._world.reading() as bench:
            return free_stock(bench)

    def serve(self, id: str, day: str, free: Shelves) -> bool:
        """Send an order if all of it is there; whether it left.

        What was free at the day's first look says whether more of it can be set aside.
        """
        with self._world.reading() as bench:
            _, order = order_at(bench, id)
        if filled_lines(order.lines, free) != order.lines:
            with suppress(Conflict):
                order = set_aside(self._world, id)
        if order.missing:
            return False
        for line in range(len(order.lines)):
            pick_line(self._world, id, line, picked=True)
        pack_order(self._world, id)
        prices = tuple(PricedLine(price_money=it.price_money or 6.0) for it in order.lines)
        entry = SendEntry(
            lines=prices, sold_on=day, channel=order.channel,
            delivery_money=self._rng.choice((0, 4.25)), delivery_proof="receipt of the post",
            fees_money=self._rng.choice((0, 0.55)),
        )  # fmt: skip
        sale = send_order(self._world, id, entry, key=self._world.ids.fresh())
        if self._rng.random() < 0.01:
            take_back_sale(self._world, sale.id, why="came back", key=self._world.ids.fresh())
            return False
        return True

    def give_up(self, id: str) -> None:
        """Nothing comes of an order that waited too long."""
        call_off(self._world, id)

    def _bought(self, sort: str, id: str, quantity: float, unit: BuyUnit, price: float) -> None:
        purchase = Purchase(quantity=quantity, unit=unit, price_money=price)
        buy_lot(self._world, sort, id, purchase, key=self._world.ids.fresh())
