"""How a place is lit, in words: which way its window looks, its sun outdoors, a lamp and its hours."""

import re
from datetime import time

from bot.domain.window import Facing, Outdoors
from bot.phrases.lexicon import classes_of, listed, phrases_of, words_of_class
from bot.phrases.setup import lamp_at
from bot.phrases.text import words_of

Lit = Facing | Outdoors | tuple[time | None, time | None]
A_LAMP = (None, None)
"""A lamp of which no hours are told."""
WAYS = {spelt: way for way in classes_of("compass") for spelt in (way, *words_of_class("compass", way))}
_FACINGS: dict[tuple[str, ...], Facing] = {
    ("north",): Facing.N,
    ("south",): Facing.S,
    ("east",): Facing.E,
    ("west",): Facing.W,
    ("north", "east"): Facing.NE,
    ("north", "west"): Facing.NW,
    ("south", "east"): Facing.SE,
    ("south", "west"): Facing.SW,
}
_SUN: tuple[tuple[str, Facing | Outdoors], ...] = (
    ("none", Facing.NONE),
    ("all-day", Outdoors.ALL_DAY),
    ("morning", Outdoors.MORNING),
    ("afternoon", Outdoors.AFTERNOON),
    ("shade", Outdoors.SHADE),
)
_SUN_WORDS = {phrase: told for name, told in _SUN for phrase in phrases_of("sun", name)}
_LONGEST_SUN = max(map(len, _SUN_WORDS))
SPOKEN = (
    frozenset(word for phrase in _SUN_WORDS for word in phrase)
    | frozenset(WAYS)
    | listed("faces facing looks gets no idea unknown sure dunno know window")
)
"""Words known here, that a slip may be a slip of."""
_HALVES: dict[str, Outdoors] = {
    "morning": Outdoors.MORNING,
    "mornings": Outdoors.MORNING,
    "morn": Outdoors.MORNING,
    "eve": Outdoors.AFTERNOON,
    "afternoon": Outdoors.AFTERNOON,
    "afternoons": Outdoors.AFTERNOON,
    "evening": Outdoors.AFTERNOON,
    "evenings": Outdoors.AFTERNOON,
    "lunch": Outdoors.AFTERNOON,
    "early": Outdoors.MORNING,
    "late": Outdoors.AFTERNOON,
    "pm": Outdoors.AFTERNOON,
    "am": Outdoors.MORNING,
    "noon": Outdoors.AFTERNOON,
}
_SHADY = listed("shade shaded shady shadow shadows shadowy")
UNKNOWN = re.compile(
    r"\b(?:not (?:\w+ )?(?:sure|certain|know\w*)|do ?n.t (?:\w+ )?know|no idea|dunno|no clue"
    r"|can ?n.?t (?:\w+ )?(?:tell|say)|unable to (?:say|tell)|unknown|unsure|uncertain"
    r"|could(?:n.?t| not) (?:\w+ )?(?:tell|say)|no compass"
    r"|(?:which|what) (?:way|side|direction|exposure|aspect))\b"
)
LAMP = re.compile(r"\b(?:lamps?|bulbs?|lamplight|grow ?lights?)\b")
_DARK = re.compile(
    r"\b(?:no|without|not \w+|zero|lacks?|lacking) (?:\w+ )?(?:day)?(?:windows?|light|sunlight|glass)\b"
    rf"|\bwindowless\b|\bno win\b|{LAMP.pattern}"
)
_BY_THE_HOUR = re.compile(
    r"\bsun\w* (?:(?:\w+ ){0,2}(from|after|since|until|till|til|up to|before) (?:about |around )?"
    r"(\d{1,2}|noon|midday|lunch\w*)(?::\d\d)? ?(am|pm)?\b|([ap])\.? ?m\b\.?)",
    re.IGNORECASE,
)
_DOTTED = re.compile(r"\b([ns])\.? ?([ew])\b\.?")
"""“N.W.”"""
_WAY = r"(?:(?:north|south)?[- ]*(?:east|west)|north|south|(?:n|s)?(?:e|w)|n|s)"
_DENIED = re.compile(
    r"\b(?:not|never|neither|nor|isnt|rather than|instead of)\b[ ,]*"
    rf"(?:(?!only|just|sure)[a-z]+ ){{0,2}}?{_WAY}\b(?:(?:[ ,]*(?:and|or|nor))+ {_WAY}\b)*"
)
"""“Not east”, “does not face north”: which way a window does not look."""
_NOON = 12
_POINTS = re.compile(r"\b(north|south)?[- ]*(east|west)\b|\b(north|south)")
_LETTERS = re.compile(r"\b(n|s)?[- /]*(e|w)\b|\b(n|s)\b")


def sun_at(words: tuple[str, ...], at: int) -> tuple[Facing | Outdoors, int] | None:
    """Find what is listed of light at a word: "morning sun", "no window", "southeast", "north west"."""
    for size in range(min(_LONGEST_SUN, len(words) - at), 0, -1):
        told = _SUN_WORDS.get(words[at : at + size])
        if told is not None:
            return told, size
    compound = _POINTS.fullmatch(words[at].removesuffix("ern").removesuffix("erly"))
    if compound is not None and all(compound.groups()[:2]):
        return _FACINGS[compound[1], compound[2]], 1
    both = tuple(WAYS.get(word, "") for word in words[at : at + 2])
    found = next((one for one in (both, both[:1]) if one in _FACINGS), None)
    is_letter = len(words[at]) == 1
    return None if found is None or is_letter else (_FACINGS[found], len(found))


_ONLY = listed("only just under no nothing but single sole lone artificial lit by")
_LIGHTS = {("grow", "light"), ("grow", "lights"), ("grow", "lamp")}


def lamp_alone_at(words: tuple[str, ...], at: int) -> int:
    """Count the words of a lamp that is all the light there is: "lamp only", "just a sad little lamp"."""
    size = 2 if words[at : at + 2] in _LIGHTS else int(LAMP.fullmatch(words[at]) is not None)
    near = (*words[max(0, at - 4) : at], *words[at + size : at + size + 1])
    last = max((n for n, word in enumerate(near) if word in {",", ".", "\n", ":", ";"}), default=-1)
    return size if _ONLY & frozenset(near[last + 1 if last < len(near) - 1 else 0 :]) else 0


def sun_hours_at(words: tuple[str, ...], at: int) -> int:
    """Count the words of "sun from about 1 pm"."""
    behind = " ".join(words[at : at + 6])
    told = _BY_THE_HOUR.match(behind)
    return len(told[0].split()) if told is not None else 0


def facets_in(words: tuple[str, ...]) -> tuple[Facing | None, Outdoors | None] | None:
    """Find which way a place looks, or its sun outdoors, among other words; the last told counts."""
    said = " ".join(words)
    if UNKNOWN.search(said):
        return Facing.UNKNOWN, None
    spelt = " ".join(WAYS[word] if len(word) > 1 and word in WAYS else word for word in words)
    spelt, said = _DENIED.sub("", spelt), _DENIED.sub("", said)
    points = _POINTS.findall(spelt) or ([] if _DARK.search(said) else _LETTERS.findall(said))
    if points:
        return _FACINGS[tuple(WAYS[one] for one in points[-1] if one)], None
    told = [one[0] for at in range(len(words)) if (one := sun_at(words, at)) is not None]
    outdoors: list[Outdoors] = [
        one for one in told if isinstance(one, Outdoors) and one is not Outdoors.ALL_DAY
    ]
    outdoors += [_HALVES[word] for word in words if word in _HALVES]
    outdoors += [Outdoors.SHADE] if _SHADY.intersection(words) else []
    if outdoors or Outdoors.ALL_DAY in told or "sun" in words:
        return None, [Outdoors.ALL_DAY, *outdoors][-1]
    return (Facing.NONE, None) if Facing.NONE in told or _DARK.search(said) else None


def light_in(typed: str) -> list[Lit]:
    """Read what is marked as telling how a place is lit: "W win", "sun from 1 pm", "lamp 8 to 20"."""
    spelt = _DOTTED.sub(r"\1\2", typed.lower())
    words = words_of(_BY_THE_HOUR.sub(_half_of_the_day, spelt))
    if spelt[:1] == "w" and not spelt[1:2].isalpha() and words[:1] == ("with",):
        words = ("w", *words[1:])
    lamp = next((one for at in range(len(words)) if (one := lamp_at(words, at)) is not None), None)
    if lamp is not None:
        return [lamp[0]]
    told = facets_in(words)
    is_faced = told is not None and told[0] not in {None, Facing.NONE, Facing.UNKNOWN}
    if not is_faced and _DARK.search(" ".join(words)):
        return [Facing.NONE, *([A_LAMP] if LAMP.search(" ".join(words)) else [])]
    return [] if told is None else [one for one in told if one is not None]


def _half_of_the_day(told: re.Match[str]) -> str:
    """Say "sun from 1 pm" as afternoon sun, "sun until noon" as morning sun; any other hour as it is told."""
    lead, hour, half, alone = (one.lower() for one in told.groups(""))
    if alone:
        return "afternoon sun" if alone == "p" else "morning sun"
    noon = not hour.isdigit() or int(hour) == _NOON
    is_late = not noon and (half == "pm" or int(hour) > _NOON)
    if lead in {"until", "till", "til", "up to", "before"}:
        return told[0] if is_late else "morning sun"
    return "afternoon sun" if is_late or noon else told[0]
