"""Files among the values of a record: photos and meshes, and who opens them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

Readers = Mapping[type[Any], Callable[[bytes], Any]]
"""What opens the files of each sort. A reader raises BadInput for what it does not take."""

NO_READERS: Readers = MappingProxyType({})
