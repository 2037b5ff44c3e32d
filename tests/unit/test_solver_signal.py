"""Ctrl-C still ends the program after the solver has run, which would take it for itself."""

from __future__ import annotations

import subprocess
import sys

HEARD = """
import signal
{solve}
try:
    signal.raise_signal(signal.SIGINT)
except KeyboardInterrupt:
    print("heard")
"""
DAY = """
from pourwright.plan.day.core import Model
model = Model(10)
model.least(model.time(2, 9), effort=1.0, seed=1)
"""


def test_the_program_hears_ctrl_c_after_a_search():
    done = subprocess.run(
        [sys.executable, "-c", HEARD.format(solve=DAY)],
        capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (0, "heard\n"), done.stderr
