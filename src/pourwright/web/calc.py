"""The HTTP face of the calculations: one address each, and their OpenAPI description."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from pourwright.actions.catalog import CATALOG, named
from pourwright.actions.strict_json import parsed
from pourwright.base.field import takes_file
from pourwright.base.file import Readers
from pourwright.web.openapi import description


async def list_all(_: Request) -> Response:
    """Name and purpose of every calculation."""
    return JSONResponse([{"name": c.name, "purpose": c.purpose} for c in CATALOG.values()])


async def show_one(request: Request) -> Response:
    """Schema and a worked example of one calculation."""
    calculation = named(request.path_params["name"])
    return JSONResponse(calculation.schema() | {"example": dict(calculation.example)})


async def describe(_: Request) -> Response:
    """The OpenAPI description."""
    return JSONResponse(description(CATALOG.values()))


def file_paths() -> frozenset[str]:
    """Addresses of the questions that a whole file may be sent to."""
    return frozenset(f"/api/calc/{c.name}" for c in CATALOG.values() if takes_file(c.takes))


def calc_routes(readers: Readers) -> tuple[Route, ...]:
    """One address for each question; `readers` open the files sent to them."""

    async def answer(request: Request) -> Response:
        calculation = named(request.path_params["name"])
        data = parsed(await request.body())
        return JSONResponse(await run_in_threadpool(calculation.answer, data, readers))

    return (
        Route("/api/calc", list_all),
        Route("/api/calc/{name}", show_one),
        Route("/api/calc/{name}", answer, methods=["POST"]),
        Route("/api/openapi.json", describe),
    )
