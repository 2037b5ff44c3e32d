"""The one list of bait families."""

from __future__ import annotations

from pourwright.base.kind import Kinds
from pourwright.body.families.craw import Craw
from pourwright.body.families.curl_tail_grub import CurlTailGrub
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.stick import Stick
from pourwright.body.families.tube import Tube
from pourwright.body.families.worm import Worm
from pourwright.body.family import Family

FAMILIES: Kinds[Family] = Kinds(Worm, Stick, CurlTailGrub, PaddleTail, Craw, Tube)
