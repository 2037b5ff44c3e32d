"""Calculations in the background, as JSON."""

from __future__ import annotations

from dataclasses import asdict

from starlette.responses import JSONResponse, Response

from pourwright.actions.run_job import start_job
from pourwright.actions.strict_json import parsed
from pourwright.web.page import Page, Visit


def start(visit: Visit) -> Response:
    """Begin a calculation with the JSON that was sent; the answer names its key."""
    state = start_job(visit.world, visit.part("name"), parsed(visit.body))
    return JSONResponse(asdict(state), status_code=202)


def look(visit: Visit) -> Response:
    """How a job is doing, with its answer once it is done."""
    return JSONResponse(asdict(visit.world.jobs.state(visit.part("key"))))


def stop(visit: Visit) -> Response:
    """Ask a job to stop."""
    return JSONResponse(asdict(visit.world.jobs.cancel(visit.part("key"))))


JOB_PAGES = (
    Page("/api/jobs/start/{name}", start, ("POST",)),
    Page("/api/jobs/{key}", look),
    Page("/api/jobs/{key}/stop", stop, ("POST",)),
)
