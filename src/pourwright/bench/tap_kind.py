"""The kinds of events a guided pour knows, beside those of `cup_story`."""

from __future__ import annotations

READY, READ_START, DRIED = "ready_done", "start_read", "dried"
PART_IN, PARTS_IN, BEGUN = "part_in", "parts_in", "burst_begun"
ENDED, HOT = "burst_ended", "cup_hot"
DRIPPED, TINTED, PRIMED = "dripped", "tinted", "injector_primed"
FILLED, SOFT, OPENED, DIPPED = "mold_filled", "mold_soft", "mold_opened", "mold_dipped"
MORE, DISCARDED = "shot_added", "cup_discarded"
TALLIED, WEIGHED_FIVE, KEPT_BACK = "counted_as", "five_weighed", "kept_for_remelt"
FINISHED, HUNG, TAKEN_OFF = "finished", "hung", "taken_off"
PUT_AWAY, TAKEN_UP = "put_away", "taken_up"
WRONG, WENT_ON, TAKEN_BACK = "went_wrong", "went_on", "taken_back"
