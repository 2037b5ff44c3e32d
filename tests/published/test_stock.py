"""Stock worth and traces against printed examples and a general graph library."""

from __future__ import annotations

import networkx as nx  # type: ignore[import-untyped]
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright.base.errors import BadInput
from pourwright.base.record import from_json
from pourwright.shop.stock_value import Method, StockValueInput, stock_value
from pourwright.shop.trace import TraceInput, trace

# From memory: OpenStax, Principles of Accounting, Volume 1 (2019), section 10.3: 150 units at 21,
# 120 sold, 225 at 27, 180 sold, 210 at 33; cost of goods sold and ending inventory printed there.
PERPETUAL = (
    ("2026-07-01", 150, 21), ("2026-07-05", -120, None), ("2026-07-10", 225, 27),
    ("2026-07-15", -180, None), ("2026-07-21", 210, 33),
)  # fmt: skip
# The same example by hand: the layers left after each move, times their prices.
FIRST_IN_STEPS = [3150, 630, 6705, 2025, 8955]


def asked(rows=PERPETUAL, method="moving average") -> StockValueInput:
    moves = [
        {"day": day, "amount": amount} | ({"each_money": each} if each is not None else {})
        for day, amount, each in rows
    ]
    return from_json(StockValueInput, {"moves": moves, "method": method})


@pytest.mark.parametrize(
    ("method", "used", "left"),
    [("moving average", 7252.94, 8902.06), ("first in, first out", 7200.00, 8955.00)],
)
def test_the_printed_perpetual_example(method, used, left):
    answer = stock_value(asked(method=method))
    assert answer.on_hand == 285
    assert answer.used_money == pytest.approx(used, abs=0.005)
    assert answer.value_money == pytest.approx(left, abs=0.005)


def test_the_stock_after_each_move_first_in_first_out():
    answer = stock_value(asked(method="first in, first out"))
    assert [m.value_money for m in answer.moves] == FIRST_IN_STEPS
    assert [m.on_hand for m in answer.moves] == [150, 30, 255, 75, 285]


def test_days_out_of_order_are_put_in_order():
    assert stock_value(asked(PERPETUAL[::-1])) == stock_value(asked(PERPETUAL))


def test_more_than_was_there_is_refused_by_its_place():
    with pytest.raises(BadInput, match="more than the 150 that were there on 2026-07-05"):
        stock_value(asked((("2026-07-01", 150, 21), ("2026-07-05", -151, None))))


def test_a_price_of_what_went_is_refused_and_not_passed_over():
    with pytest.raises(BadInput, match="is for what came"):
        asked((("2026-07-01", 150, 21), ("2026-07-05", -1, 30)))


def test_what_a_count_finds_comes_at_the_average():
    found = stock_value(asked((("2026-07-01", 10, 2), ("2026-07-02", 5, None))))
    assert found.value_money == 30
    assert stock_value(asked((("2026-07-02", 5, None),))).value_money == 0


@given(
    st.lists(
        st.tuples(st.integers(1, 500), st.integers(0, 40), st.integers(0, 100)),
        min_size=1, max_size=20,
    ),
    st.sampled_from(list(Method)),
)  # fmt: skip
def test_nothing_is_gained_or_lost_either_way(steps, method):
    rows, there, bought = [], 0, 0
    for i, (came, each, percent) in enumerate(steps):
        rows.append((f"2026-01-{i + 1:02d}", came, each))
        there, bought = there + came, bought + came * each
        if went := there * percent // 100:
            rows.append((f"2026-01-{i + 1:02d}", -went, None))
            there -= went
    answer = stock_value(asked(rows, method))
    assert answer.on_hand == there
    assert answer.used_money + answer.value_money == pytest.approx(bought, abs=2e-4)
    assert all(m.value_money >= 0 for m in answer.moves)


edges = st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), min_size=1, max_size=30)


@given(edges)
def test_the_trace_agrees_with_a_general_graph_library(pairs):
    pairs = [(a, b) for a, b in pairs if a != b] or [(0, 1)]
    graph = nx.DiGraph([(str(a), str(b)) for a, b in pairs])
    lot = str(pairs[0][0])
    answer = trace(traced(lot, pairs))
    down = nx.single_source_shortest_path_length(graph, lot)
    up = nx.single_source_shortest_path_length(graph.reverse(), lot)
    assert {r.lot: r.steps for r in answer.down} == {k: n for k, n in down.items() if k != lot}
    assert {r.lot: r.steps for r in answer.up} == {k: n for k, n in up.items() if k != lot}
    assert answer.loops == any(lot in part and len(part) > 1
                               for part in nx.strongly_connected_components(graph))  # fmt: skip


def test_loss_is_what_came_in_less_what_went_on_and_what_is_there():
    moves = [("", "P1", 500), ("P1", "R1", 90), ("P2", "R1", 60), ("R1", "P3", 140)]
    data = {
        "lot": "R1", "there": [{"lot": "R1", "mass_mg": 4}],
        "moves": [{"source": a, "target": b, "mass_mg": mg} for a, b, mg in moves],
    }  # fmt: skip
    answer = trace(from_json(TraceInput, data))
    assert {x.lot: x.loss_mg for x in answer.loss} == {"P1": 410, "P3": 140, "R1": 6}
    assert [(r.lot, r.steps) for r in answer.up] == [("P1", 1), ("P2", 1)]


def test_an_unknown_lot_and_a_lot_into_itself_are_refused():
    with pytest.raises(BadInput, match="named by none of the moves"):
        trace(traced("99", [(0, 1)]))
    with pytest.raises(BadInput, match="must be another lot"):
        traced("1", [(1, 1)])


def test_a_lot_weighed_twice_is_refused():
    there = [{"lot": "R1", "mass_mg": mg} for mg in (4, 5)]
    moves = [{"source": "P1", "target": "R1", "mass_mg": 90}]
    with pytest.raises(BadInput, match="is named 2 times"):
        from_json(TraceInput, {"lot": "R1", "there": there, "moves": moves})


def traced(lot: str, pairs) -> TraceInput:
    moves = [{"source": str(a), "target": str(b), "mass_mg": 1} for a, b in pairs]
    return from_json(TraceInput, {"lot": lot, "moves": moves})
