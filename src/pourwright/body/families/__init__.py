"""The one list of bait families."""

from __future__ import annotations

from pourwright.base.kind import Kinds
from pourwright.body.families.craw import Craw
from pourwright.body.families.creature import Creature
from pourwright.body.families.curl_tail_grub import CurlTailGrub
from pourwright.body.families.double_tail_grub import DoubleTailGrub
from pourwright.body.families.lizard import Lizard
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.ribbon_tail_worm import RibbonTailWorm
from pourwright.body.families.split_tail_minnow import SplitTailMinnow
from pourwright.body.families.stick import Stick
from pourwright.body.families.tube import Tube
from pourwright.body.families.worm import Worm
from pourwright.body.family import Family

FAMILIES: Kinds[Family] = Kinds(
    Worm, Stick, RibbonTailWorm, CurlTailGrub, DoubleTailGrub, PaddleTail, SplitTailMinnow,
    Craw, Creature, Tube, Lizard,
)  # fmt: skip
