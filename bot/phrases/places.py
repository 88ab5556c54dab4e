"""Which way a place looks, among other words."""

import re

from bot.domain.window import Facing, Outdoors

COMPASS = {
    "north": Facing.N,
    "northeast": Facing.NE,
    "east": Facing.E,
    "southeast": Facing.SE,
    "south": Facing.S,
    "southwest": Facing.SW,
    "west": Facing.W,
    "northwest": Facing.NW,
}
FACETS: dict[str, Facing | Outdoors] = {
    **COMPASS,
    **{facing.value.lower(): facing for facing in COMPASS.values()},
    "no window": Facing.NONE,
    "no windows": Facing.NONE,
    "windowless": Facing.NONE,
    "without window": Facing.NONE,
    "outdoors": Outdoors.ALL_DAY,
    "outside": Outdoors.ALL_DAY,
    "sun all day": Outdoors.ALL_DAY,
    "all day sun": Outdoors.ALL_DAY,
    "full sun": Outdoors.ALL_DAY,
    "morning sun": Outdoors.MORNING,
    "sun in morning": Outdoors.MORNING,
    "sun in the morning": Outdoors.MORNING,
    "afternoon sun": Outdoors.AFTERNOON,
    "sun in afternoon": Outdoors.AFTERNOON,
    "sun in the afternoon": Outdoors.AFTERNOON,
    "evening sun": Outdoors.AFTERNOON,
    "shade": Outdoors.SHADE,
    "shady": Outdoors.SHADE,
    "no sun": Outdoors.SHADE,
}


def facets_in(words: list[str]) -> tuple[Facing | None, Outdoors | None] | None:
    """Find which way a place looks, or its sun outdoors, among other words; the last told counts."""
    said = " ".join(words)
    if re.search(r"\b(do not know|not know|no idea|not sure|unsure|dunno|unknown)\b", said):
        return Facing.UNKNOWN, None
    if re.search(r"\b(no|without|not have|lacks|any) (?:a |any )?windows?\b|windowless", said):
        return Facing.NONE, None
    points = re.findall(r"\b(north|south)?[- ]?(east|west)\b|\b(north|south)", said)
    points += [(one[0], one[1], "") for one in re.findall(r"\b(n|s)(e|w)\b", said)] if not points else []
    facing = FACETS.get("".join(points[-1])) if points else None
    is_outdoors = (
        bool(re.search(r"\b(outdoors?|outside|open air|sun|shade|shady)\b", said)) and facing is None
    )
    if facing is None and not is_outdoors:
        return None
    outdoors = None
    if is_outdoors:
        outdoors = Outdoors.ALL_DAY
        for pattern, one in (
            ("morning", Outdoors.MORNING),
            ("afternoon|evening", Outdoors.AFTERNOON),
            ("shad|no sun", Outdoors.SHADE),
        ):
            outdoors = one if re.search(pattern, said) else outdoors
    return (facing if isinstance(facing, Facing) else None), outdoors
