"""Nobody gets a file that does not read back closed, or halves that cannot close."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import NoAnswer
from pourwright.body.mold.build import Builder
from pourwright.body.mold.finding import Finding, file_findings, fit_findings
from pourwright.body.mold.mold import Mold
from pourwright.body.mold.nudge import NUDGES, Nudge
from pourwright.body.mold.written import Written, written


@dataclass(frozen=True, slots=True)
class Guarded:
    """A mold with its files, and all that was looked at."""

    mold: Mold
    files: tuple[Written, ...]
    findings: tuple[Finding, ...]
    tries: int

    @property
    def wrong(self) -> tuple[Finding, ...]:
        """What is not right."""
        return tuple(f for f in self.findings if not f.right)


def guarded(build: Builder) -> Guarded:
    """The first of some nudged molds in which all is right.

    Raises: NoAnswer naming what was wrong with the last of them.
    """
    attempt = attempted(build, NUDGES[0], 1)
    while attempt.wrong and attempt.tries < len(NUDGES):
        attempt = attempted(build, NUDGES[attempt.tries], attempt.tries + 1)
    if not attempt.wrong:
        return attempt
    faults = ", ".join(f"{f.name}: {f.of} ({f.found})" for f in attempt.wrong)
    raise NoAnswer(
        f"in {len(NUDGES)} tries no mold came out right: {faults}; change a measure a little, "
        "such as the gate, the spacing or the shrink"
    )


def attempted(build: Builder, nudge: Nudge, tries: int) -> Guarded:
    """A mold made with a nudge, its files, and what is found in both."""
    mold = build(nudge)
    files = tuple(written(part, nudge.skin_mm) for part in mold.parts)
    in_files = [finding for file in files for finding in file_findings(file)]
    return Guarded(mold, files, (*fit_findings(mold), *in_files), tries)
