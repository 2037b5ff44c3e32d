"""Month and quarter totals straight from the stored events, by plain decimals and loops."""

from __future__ import annotations

import json
import sqlite3
from collections import defaultdict
from contextlib import closing
from decimal import Decimal
from pathlib import Path
from typing import Any

Totals = dict[str, dict[str, Decimal]]
_SOLD = "SELECT id, body FROM event WHERE kind = 'sold'"
_UNDONE = "SELECT json_extract(body, '$.sale') FROM event WHERE kind = 'sale_taken_back'"
_COST = """
SELECT cause, SUM(CASE kind WHEN 'sold' THEN cost ELSE -cost END) FROM move
WHERE cause LIKE 'sale/%' GROUP BY cause
"""


def recounted(store: Path, *, per_quarter: bool = False) -> Totals:
    """Sales, goods, delivery, fees and cost by month such as 2025-04, or by quarter 2025-2."""
    found: Totals = defaultdict(lambda: defaultdict(Decimal))
    with closing(sqlite3.connect(f"{store.absolute().as_uri()}?mode=ro", uri=True)) as it:
        undone = {row[0] for row in it.execute(_UNDONE)}
        cost = dict(it.execute(_COST))
        for key, body in it.execute(_SOLD):
            if key not in undone:
                sale = json.loads(body, parse_float=Decimal, parse_int=Decimal)
                period = _period(sale["sold_on"], per_quarter=per_quarter)
                _add(found[period], sale, Decimal(cost[f"sale/{key}"]))
    return {period: dict(totals) for period, totals in found.items()}


def _period(day: str, *, per_quarter: bool) -> str:
    year, month = day[:4], int(day[5:7])
    return f"{year}-{(month + 2) // 3}" if per_quarter else day[:7]


def _add(totals: dict[str, Decimal], sale: dict[str, Any], cost: Decimal) -> None:
    asked = Decimal(0)
    for line in sale["lines"]:
        asked += line["packs"] * line["price_money"]
        totals["baits"] += line["packs"] * line["baits_each"]
    inside = sale["delivery_money"] if sale["delivery_inside"] else Decimal(0)
    totals["sales"] += 1
    totals["goods"] += asked - inside
    totals["delivery"] += sale["delivery_money"]
    totals["fees"] += sale["fees_money"]
    totals["cost"] += cost / 10_000
