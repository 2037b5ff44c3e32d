"""Bin packing against instances whose optimum others printed or their making fixes."""

from __future__ import annotations

from pourwright.plan.cups.packing import least_cups, packed


def test_the_textbook_instance():
    # Martello and Toth (1990), Knapsack Problems, ch. 8, example 8.1: from memory.
    sizes = (70, 60, 50, 33, 33, 33, 11, 7, 3)
    assert -(-sum(sizes) // 100) == 3
    assert least_cups(sizes, [1] * 9, 100) == 4
    assert len(packed(sizes, [1] * 9, 100).cups) == 4


def test_triplets_fill_every_bin_to_the_brim():
    # Falkenauer (1996), A hybrid grouping genetic algorithm for bin packing, J. Heuristics 2:
    # items made by cutting full bins into three, each between a quarter and half of a bin, so
    # that the optimum is the number of bins.
    cut = ((490, 260, 250), (420, 317, 263), (381, 352, 267))
    sizes = [float(s) for triplet in cut for s in triplet]
    assert all(sum(triplet) == 1000 for triplet in cut)
    found = packed(sizes, [5] * 9, 1000.0)
    assert len(found.cups) == 15
    assert found.proven
