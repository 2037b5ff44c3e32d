"""What one cavity more would do to the waste."""

from __future__ import annotations

from pourwright.body.mold.answer import OneMore
from pourwright.body.mold.feed import feed_of
from pourwright.body.mold.layout import Layout
from pourwright.body.mold.nest import wider_noses
from pourwright.body.mold.nudge import NUDGES


def one_more(layout: Layout, *, cavity_ml: float, feed_ml: float) -> OneMore:
    """The same cavities and feed with one more beside them."""
    count = len(layout.nest.noses_y)
    in_noses = float(layout.feed.inside_ml) - feed_ml
    wider = feed_of(wider_noses(layout.nest), layout.size, NUDGES[0])
    feed = float(wider.inside_ml) - in_noses * (count + 1) / count
    shot = (count + 1) * cavity_ml + feed
    return OneMore(count + 1, shot, feed / shot)
