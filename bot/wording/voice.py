"""What a sentence needs besides its outcome."""

from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo


@dataclass(frozen=True, slots=True)
class Voice:
    """What a sentence needs besides the outcome: today and the household's clocks."""

    today: date
    zone: ZoneInfo
