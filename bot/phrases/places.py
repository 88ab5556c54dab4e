"""Sentences about places: which way their windows look, several in one message."""

import re

from bot.actions.set_place import SetPlace
from bot.actions.situation import Situation
from bot.domain.window import Facing, Outdoors
from bot.phrases.lexicon import listed
from bot.phrases.text import tidy

_CUT = re.compile(r"\s*(?:[.;\n]+|,\s*(?:and|but|while)\s+|,|\s(?:and|but|while)\s)\s*", re.IGNORECASE)
_OPENING = re.compile(
    r"^(?:(?:sorry|no|oh|ok|okay|so|well|also|and|actually|then|hi|hey)\b[,!:]?\s*)+", re.IGNORECASE
)
_ARTICLE = re.compile(r"^(?:the|my|our|a)\s+", re.IGNORECASE)
_WINDOW = re.compile(r"(?:['\u2019]s)?\s+(?:windows?|side|one|sill windows?)$", re.IGNORECASE)
_VERB = re.compile(
    r"\s+(?:is|are|faces|face|looks|look|points|point|gets|get|has|have|opens|goes)\b|\s*:\s+", re.IGNORECASE
)
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
_LOOSE = listed(
    "a the an is are it its it's at to towards toward facing faces looks window windows side big large"
    " small huge"
    " wide little one ones"
    " only direct of with very mostly has gets there and pretty quite bright out in on"
)
_SUN_FROM = re.compile(r"sun (?:from|after|since) (?:about |around )?(\d{1,2})(?::\d\d)? ?(am|pm)?")
_SUN_UNTIL = re.compile(
    r"sun (?:until|till|up to) (?:about |around )?(\d{1,2}|noon|midday)(?::\d\d)? ?(am|pm)?"
)
_LONGEST_NAME_WORDS = 4
_MOST_PLACES = 12
_NOON = 12
_NO_NAME = listed(
    "i we he she it that this there they sun light plant plants everything all both you today tonight"
    " tomorrow done clean not no is are was were what which where who why how when if in on at by from"
    " for with"
)


def read_places(text: str, situation: Situation) -> tuple[SetPlace, ...] | None:
    """
    Read "the living room faces south, big window. bedroom is north": all of it, or None.

    Every piece is a place with which way it looks, or says more of the place before. A place is named by one
    to four words, none of them a plant's name; nothing is written where any piece is anything else.
    """
    typed = _OPENING.sub("", tidy(text).strip(" .!"))
    if "?" in typed:
        return None
    told: list[tuple[str, list[Facing | Outdoors]]] = []
    for piece in (one for one in _CUT.split(typed) if one.strip()):
        extra = _facets(piece)
        if extra is not None and told:
            told[-1][1].extend(extra)
            continue
        place = _place(piece, is_first=not told)
        if place is None:
            return None
        told.append(place)
    names = {name.casefold() for plant in situation.plants for name in plant.names}
    is_clear = all(facets and name.casefold() not in names for name, facets in told)
    if not told or not is_clear or len(told) > _MOST_PLACES:
        return None
    return tuple(_command(name, facets, situation) for name, facets in told)


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


def _place(piece: str, *, is_first: bool) -> tuple[str, list[Facing | Outdoors]] | None:
    bare = _ARTICLE.sub("", _OPENING.sub("", piece.strip()))
    verb = _VERB.search(bare)
    if verb is not None:
        name, facets = bare[: verb.start()], _facets(bare[verb.end() :], verb=verb[0].strip().lower())
    elif is_first:
        return None
    else:  # "and the bedroom one north"
        words = bare.split()
        name, facets = " ".join(words[:-1]), _facets(words[-1]) if words else None
    name = _WINDOW.sub("", name.strip(" ,'\u2019"))
    words = name.casefold().split()
    is_name = 0 < len(words) <= _LONGEST_NAME_WORDS and not frozenset(words) & _NO_NAME
    return (name, facets) if facets and is_name else None


def _facets(text: str, verb: str = "") -> list[Facing | Outdoors] | None:
    """Give what a piece tells of a place; empty for a manner of speaking, None where it is more."""
    plain = re.sub(r"[-\s]+", " ", text.casefold()).strip(" ,.!")
    for pattern, since, until in (
        (_SUN_FROM, Outdoors.AFTERNOON, None),
        (_SUN_UNTIL, None, Outdoors.MORNING),
    ):
        timed = pattern.fullmatch(plain)
        if timed is not None:
            is_after_noon = timed[2] == "pm" or (timed[1].isdigit() and int(timed[1]) >= _NOON)
            if since is not None:
                return [since] if is_after_noon else None
            return [until] if until is not None and not (timed[2] == "pm" and timed[1] != "12") else None
    if verb in {"has", "have"} and plain in {"no window", "no windows", "no sun"}:
        return [FACETS[plain]]
    if plain in FACETS:
        return [FACETS[plain]]
    words = [word for word in plain.split() if word not in _LOOSE]
    if not words:
        return []
    joined = " ".join(words)
    found = FACETS.get(joined) or FACETS.get(joined.replace(" ", ""))
    if found is None and len(words) > 1:  # "outside south west": both
        first, rest = FACETS.get(words[0]), FACETS.get("".join(words[1:]))
        return [first, rest] if first is not None and rest is not None else None
    return None if found is None else [found]


def _command(name: str, facets: list[Facing | Outdoors], situation: Situation) -> SetPlace:
    known = next((one for one in situation.places if one.name.casefold() == name.casefold()), None)
    outdoors = [one for one in facets if isinstance(one, Outdoors)]
    return SetPlace(
        name=name if known is None else known.name,
        place_id=None if known is None else known.id,
        facing=next((one for one in reversed(facets) if isinstance(one, Facing)), None),
        # "outside, sun from 1 pm": what is told more closely counts
        outdoors=next(
            (one for one in reversed(outdoors) if one is not Outdoors.ALL_DAY), next(iter(outdoors), None)
        ),
    )
