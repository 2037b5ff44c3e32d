"""One touch: the vein's pearl, faint, in the belly."""

from __future__ import annotations

from pourwright.actions.echo_vein import echo_look_vein
from pourwright.web.page import Go, Page, Visit


def echo(visit: Visit) -> Go:
    """Keep the look with its echo and show it."""
    kept = echo_look_vein(visit.world, visit.part("id"), expected_version=visit.whole("@version"))
    return Go(f"/looks/{kept.id}")


LOOK_ECHO_PAGES = (Page("/looks/{id}/echo", echo, ("POST",)),)
