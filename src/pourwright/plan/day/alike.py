"""Cups that could change places unnoticed, brought into the order of the list."""

from __future__ import annotations

from pourwright.plan.day.load import Load, Plan


def in_order(load: Load, plan: Plan) -> Plan:
    """The same plan with cups that are alike heated in the order of the list."""
    groups: dict[object, list[int]] = {}
    for j, job in enumerate(load.jobs):
        if job.kit is None:
            groups.setdefault(job.alike, []).append(j)
    new = list(range(len(load.jobs)))
    for group in groups.values():
        heated = sorted(group, key=lambda j: (plan.heat[j, 0], j))
        for j, place in zip(heated, group, strict=True):
            new[j] = place
    return Plan(
        {(new[j], w): at for (j, w), at in plan.heat.items()},
        {(new[j], w): at for (j, w), at in plan.pour.items()},
        {new[j]: at for j, at in plan.clean.items()},
        tuple(tuple(new[j] for j in route) for route in plan.routes),
    )
