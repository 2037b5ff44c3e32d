"""The HTTP face of the calculations: one address each, and their OpenAPI description."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from pourwright.actions.catalog import CATALOG, named
from pourwright.actions.strict_json import parsed
from pourwright.base.picture import Reader
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


def calc_routes(reader: Reader) -> tuple[Route, ...]:
    """One address for each question; `reader` opens the photos sent to them."""

    async def answer(request: Request) -> Response:
        calculation = named(request.path_params["name"])
        data = parsed(await request.body())
        return JSONResponse(await run_in_threadpool(calculation.answer, data, reader))

    return (
        Route("/api/calc", list_all),
        Route("/api/calc/{name}", show_one),
        Route("/api/calc/{name}", answer, methods=["POST"]),
        Route("/api/openapi.json", describe),
    )
