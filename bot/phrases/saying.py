"""A command back into one plain sentence: what an offer says, and the strict reader must read the same."""

from collections.abc import Callable, Iterable
from datetime import date, datetime, timedelta

from bot.actions.action import Command
from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask, Topic
from bot.actions.correct import Correct
from bot.actions.courtesy import Help
from bot.actions.export import Export
from bot.actions.hold import Hold
from bot.actions.identify import Identify
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.log_use import LogUse
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.postpone import Postpone
from bot.actions.read_temperature import ReadTemperature
from bot.actions.release_plant import ReleasePlant
from bot.actions.rename import Rename
from bot.actions.set_animals import SetAnimals
from bot.actions.set_hours import SetHours
from bot.actions.set_kind import SetKind
from bot.actions.set_place import SetPlace
from bot.actions.set_pot import SetPot
from bot.actions.set_routine import SetRoutine
from bot.actions.set_town import SetTown
from bot.actions.set_traits import SetTraits
from bot.actions.share import Invite
from bot.actions.situation import Situation
from bot.actions.skip_question import SkipQuestion
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.actions.walk_through import BeginWalk, EndWalk, PassPlant
from bot.actions.work_through import BeginWork, EndWork, TickWork
from bot.catalogue.load import load
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.measure import Units
from bot.domain.refusal import BURNT_BY
from bot.domain.trade import Form, Grade, Level, Method, Sign
from bot.domain.window import Outdoors
from bot.phrases.days import BYDAY, DAYS_OF_THE_WEEK, MONTHS_OF_THE_YEAR
from bot.phrases.names import Names, names_of

_DONE = {
    Method.SPRAY: "sprayed",
    Method.SWAB: "swabbed",
    Method.WIPE: "wiped",
    Method.RINSE: "rinsed",
    Method.DRENCH: "drenched",
    Method.PRUNE: "pruned",
    Method.REPOT: "repotted",
}
_GRADES = {Grade.FEW: "a few", Grade.SOME: "some", Grade.MANY: "lots of"}
_LEVELS = {
    Level.LENS: " with a lens",
    Level.GLANCE: " at a glance",
    Level.TAP: ", tapped over paper",
    Level.CARD: ", sticky card",
    Level.TAPE: ", tape",
    Level.POTATO: ", potato slice",
}
_SIGNS = {
    Sign.WEBBING: "webbing",
    Sign.HONEYDEW: "sticky leaves",
    Sign.FLUFF: "white fluff",
    Sign.PITS: "pits",
    Sign.SPECKS: "black specks",
    Sign.CAST_SKINS: "cast skins",
}
_ABOUT_PLANTS = {
    Topic.WHY: "why {}?",
    Topic.RELEASE: "when can {} go back?",
    Topic.LOG: "history of {}",
    Topic.TREND: "is {} getting better?",
    Topic.PHOTOS: "photos of {}",
    Topic.FIT: "what can i use on {}?",
    Topic.EATING: "when can we eat {}?",
    Topic.WITH: "what do i treat {} with?",
    Topic.STEPS: "how do i treat {}?",
    Topic.LATE: "can {} wait?",
    Topic.INSTEAD: "is wiping {} enough?",
    Topic.HEAT: "is it too hot for {}?",
    Topic.LOOKING: "what do i look for on {}?",
}
_ABOUT_ALL = {
    Topic.DUE: "what is due?",
    Topic.ISOLATED: "who is isolated?",
    Topic.WHY: "why?",
    Topic.RELEASE: "when is it over?",
    Topic.LOG: "history",
    Topic.TREND: "is it getting better?",
    Topic.ANTS: "what about ants?",
    Topic.DISH_SOAP: "can i use dish soap?",
    Topic.SAFETY: "is it safe for pets?",
    Topic.EATING: "when can we eat?",
    Topic.STOCK: "what is on my shelf?",
    Topic.SETTINGS: "settings",
    Topic.ROUTINES: "when do we check?",
    Topic.MEMBERS: "who is in our home?",
    Topic.PHOTOS: "photos",
    Topic.PLANTS: "my plants",
    Topic.PESTS: "what pests do you know?",
    Topic.PLACES: "where are my plants?",
    Topic.BUY: "what should i buy?",
    Topic.SUN: "when is there sun?",
    Topic.WITH: "what do i use tonight?",
    Topic.STEPS: "how do i do it?",
    Topic.ORDER: "which one first?",
    Topic.LATE: "can it wait?",
    Topic.INSTEAD: "is wiping enough?",
    Topic.HEAT: "is it too hot?",
    Topic.AFTER: "what comes after the spray?",
    Topic.WASTE: "where does the rest go?",
    Topic.LOOKING: "what do i look for?",
}
_TRAITS = {
    "edible": "{} is edible",
    "hairy": "{} is hairy",
    "waxy": "{} is waxy",
    "not-edible": "{} is not edible",
    "not-hairy": "{} is not hairy",
    "not-waxy": "{} is not waxy",
    "cannot-wash": "{} cannot be washed",
    "cannot-wipe": "{} cannot be wiped",
    "cannot-lift": "{} cannot be unpotted",
}
_NEAR = timedelta(days=6)
_SHORTEST_RUN = 3
_FAHRENHEIT = 9 / 5


def say_all(commands: Iterable[Command], situation: Situation) -> tuple[str, ...] | None:
    """Say several commands, each as a sentence; None where one of them cannot be said."""
    said = tuple(say_command(command, situation) for command in commands)
    return None if any(one is None for one in said) else tuple(one for one in said if one)


def say_command(command: Command, situation: Situation) -> str | None:
    """Say what a command would do as a person would tell it; None where there are no words for it."""
    say = _SAYERS.get(type(command))
    return None if say is None else say(command, _Speaker(situation))


class _Speaker:
    """Names, days and amounts of one household in words."""

    def __init__(self, situation: Situation) -> None:
        self.situation = situation

    def plants(self, plants: tuple[PlantId, ...]) -> str:
        """Name plants; three and more numbers of one name in a row as "phal 1 to 6"."""
        names = names_of(self.situation)
        runs: list[list[PlantId]] = []
        for plant in dict.fromkeys(plants):
            last, this = (names.number_of(one) for one in (runs[-1][-1] if runs else plant, plant))
            if last and this and last[0] == this[0] and this[1] == last[1] + 1:
                runs[-1].append(plant)
            else:
                runs.append([plant])
        return _listed([one for run in runs for one in self._run(run, names)])

    def _run(self, run: list[PlantId], names: Names) -> list[str]:
        last = names.number_of(run[-1])
        if last is None or len(run) < _SHORTEST_RUN:
            return [self.plant(plant) for plant in run]
        return [f"{self.plant(run[0])} to {last[1]}"]

    def plant(self, plant: PlantId) -> str:
        return next((known.names[0] for known in self.situation.plants if known.id == plant), "?")

    def place(self, place: PlaceId) -> str:
        return next((known.name for known in self.situation.places if known.id == place), "?")

    def product(self, product: ProductId | None) -> str:
        return next((known.names[0] for known in self.situation.shelf if known.id == product), "")

    def ingredient(self, key: str) -> str:
        return next((words[0] for known, words in self.situation.ingredients if known == key and words), key)

    def pest(self, key: str) -> str:
        return next((words[0] for known, words in self.situation.pests if known == key and words), key)

    def behind(self, on: date | None) -> str:
        today = self.situation.today
        if on is None or on == today:
            return ""
        if on == today - timedelta(days=1):
            return " yesterday"
        if today - _NEAR <= on < today:
            return f" on {DAYS_OF_THE_WEEK[on.weekday()]}"
        return f" on {_date(on)}"

    def ahead(self, on: date) -> str:
        today = self.situation.today
        if on == today + timedelta(days=1):
            return "tomorrow"
        if today < on <= today + _NEAR:
            return f"on {DAYS_OF_THE_WEEK[on.weekday()]}"
        return f"on {_date(on)}"

    def clock(self, at: datetime) -> str:
        return at.astimezone(self.situation.zone).strftime("%H:%M")


def _date(on: date) -> str:
    return f"{on.day} {MONTHS_OF_THE_YEAR[on.month - 1]}"


def _listed(names: list[str]) -> str:
    return " and ".join(filter(None, [", ".join(names[:-1]), names[-1]])) if names else ""


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _round(told: LogRound, speak: _Speaker) -> str | None:
    names = speak.plants(told.plants)
    when = f" at {speak.clock(told.at)}" if told.at else speak.behind(told.on)
    product = speak.product(told.product) or speak.ingredient(told.ingredient)
    using = f" with {product}" if product else ""
    if told.method is None:
        return f"{names} done{using}{when}"
    if told.method is Method.CLEAN_OUT:
        return f"{names} got the full clean-out{when}"
    verb = _DONE.get(told.method)
    return None if verb is None else f"{verb} {names}{using}{when}"


def _postponed(told: Postpone, speak: _Speaker) -> str:
    when = f"at {speak.clock(told.at)}" if told.at else speak.ahead(told.on or speak.situation.today)
    return f"{speak.plants(told.plants)} later {when}"


def _found(told: LogFind, speak: _Speaker) -> str | None:
    amount = str(told.count) if told.count is not None else _GRADES.get(told.grade) if told.grade else None
    if amount is None:
        return None
    what = _several(speak.pest(told.pest), told.count) if told.pest else "bugs"
    where = f" {_where(told.where)}" if told.where else ""
    each = " each" if told.count is not None and len(told.plants) > 1 else ""
    return f"{amount} {what}{each} on {speak.plants(told.plants)}{where}{speak.behind(told.on)}"


def _where(spot: str) -> str:
    return {"axils": "in the axils", "underside": "under the leaves"}.get(spot, f"on the {spot}")


def _several(name: str, count: int | None) -> str:
    if count == 1 or name.endswith(("s", "ies")):
        return name
    return f"{name[:-1]}ies" if name.endswith("fly") else f"{name}s"


def _looked(told: LogCheck, speak: _Speaker) -> str:
    if told.level is Level.ROOTS:
        return f"checked the roots of {speak.plants(told.plants)}{speak.behind(told.on)}, none seen"
    level = _LEVELS.get(told.level, "") if told.level else ""
    return f"{speak.plants(told.plants)} clean{level}{speak.behind(told.on)}"


def _corrected(told: Correct, speak: _Speaker) -> str | None:
    if told.pest is not None:
        on = "" if told.plant is None else f" on {speak.plant(told.plant)}"
        return f"it is {speak.pest(told.pest)}{on}"
    if told.count is not None:
        return f"no, {told.count}" if told.plant is None else f"no, {speak.plant(told.plant)} {told.count}"
    return None if told.plant is None else f"I meant {speak.plant(told.plant)}"


def _isolated(told: Isolate, speak: _Speaker) -> str:
    names = speak.plants(told.plants)
    if not told.apart:
        return f"{names} can not be moved"
    if told.quarantine_days is not None:
        return f"quarantine {names} for {told.quarantine_days} days"
    return f"isolated {names}{speak.behind(told.on)}"


def _released(told: ReleasePlant, speak: _Speaker) -> str:
    anyway = " anyway" if told.confirmed else ""
    return f"put {speak.plants(told.plants)} back{speak.behind(told.on)}{anyway}"


def _added(told: AddPlants, _speak: _Speaker) -> str | None:
    if told.unread:
        return None
    lines = []
    for one in told.plants:
        pot = f"{_number(one.pot_cm)} cm" if one.pot_cm else None
        lines.append(", ".join(filter(None, [one.name, one.place, pot])))
    return "new plant: " + lines[0] if len(lines) == 1 else "new plants:\n" + "\n".join(lines)


def _stocked(told: StockProduct, speak: _Speaker) -> str:
    label, name = told.label, speak.ingredient(told.ingredient)
    parts = [f"no {name} left" if told.stock_ml == 0 else f"got {name}"]
    if label.form is not None:
        parts.append("ready to use" if label.form is Form.READY else "concentrate")
    if label.strength_percent is not None:
        parts.append(f"{label.strength_percent} %")
    if label.gap_days is not None:
        parts.append(f"every {label.gap_days} days")
    if label.rate_ml_per_l is not None:
        most = label.most_ml_per_l
        upper = "" if most is None or most == label.rate_ml_per_l else f" to {_number(float(most))}"
        parts.append(f"{_number(float(label.rate_ml_per_l))}{upper} ml per litre")
    if told.stock_ml:
        parts.append(f"{_number(told.stock_ml)} ml")
    if label.uses_a_year is not None:
        parts.append(f"max {label.uses_a_year} uses a year")
    if label.harvest_days is not None:
        parts.append(f"{label.harvest_days} days before harvest")
    if label.is_for_edibles is not None:
        parts.append("for edibles" if label.is_for_edibles else "not for edibles")
    if label.is_for_indoors is not None:
        parts.append("for indoor use" if label.is_for_indoors else "not for indoor use")
    return ", ".join(parts)


def _warm(told: ReadTemperature, speak: _Speaker) -> str | None:
    if told.months:
        return None
    is_us = speak.situation.units is Units.US
    ends = (told.celsius,) if told.low is None or told.high is None else (told.low, told.high)
    said = (_number(round(end * _FAHRENHEIT + 32, 1) if is_us else end) for end in ends)
    warmth = f"{' to '.join(said)} degrees {'f' if is_us else 'c'}"
    return f"{speak.place(told.place)} is {warmth}{speak.behind(told.on)}"


def _routine(told: SetRoutine, _speak: _Speaker) -> str | None:
    parts = dict(part.split("=", 1) for part in told.rule.split(";") if "=" in part)
    frequency, every = parts.pop("FREQ", ""), int(parts.pop("INTERVAL", "1"))
    days = dict(zip(BYDAY, DAYS_OF_THE_WEEK, strict=True))
    keys = [key for key in parts.pop("BYDAY", "").split(",") if key]
    unit = {"DAILY": "day", "WEEKLY": "week"}.get(frequency)
    if told.name != "check" or parts or unit is None or not all(key in days for key in keys):
        return None
    if keys:
        other = {1: "", 2: "other "}.get(every) if frequency == "WEEKLY" else None
        is_sayable = other is not None and (not other or len(keys) == 1)
        return f"check every {other}{' and '.join(days[key] for key in keys)}" if is_sayable else None
    return f"check every {unit}" if every == 1 else f"check every {every} {unit}s"


def _held(told: Hold, speak: _Speaker) -> str:
    if told.until is None:
        return "stop"
    since = f" from {_date(told.since)}" if told.since else ""
    return "I am back" if told.until <= speak.situation.today else f"away{since} until {_date(told.until)}"


def _mixed(told: Mix, speak: _Speaker) -> str | None:
    if told.rate_ml_per_l or told.percent or told.parts or told.stock_percent or told.tool or told.plants:
        return None
    product = speak.product(told.product)
    of = f" of {product}" if product else ""
    if told.volume_ml is None:
        return f"mix for tonight{of}" if told.is_for_tonight else None
    return f"mix {_number(told.volume_ml)} ml{of}"


def _hours(told: SetHours, _speak: _Speaker) -> str | None:
    if told.evening is not None:
        return f"nudge me at {told.evening:%H:%M}"
    if told.quiet_from is not None and told.quiet_until is not None:
        return f"quiet from {told.quiet_from:%H:%M} to {told.quiet_until:%H:%M}"
    return None


def _stands(told: SetPlace, speak: _Speaker) -> str | None:
    name = speak.place(told.place_id) if told.place_id else told.name
    if told.facing is not None:
        lamp = ", lamp" if told.has_lamp else ""
        return f"place {name}, {FACINGS_IN_WORDS.get(told.facing.name, '')}{lamp}"
    if told.outdoors is not None:
        when = {Outdoors.ALL_DAY: ", all day"}.get(told.outdoors, f", {told.outdoors.value} sun")
        return f"place {name}, outdoors{when}"
    return None


FACINGS_IN_WORDS = {
    "N": "north",
    "NE": "north east",
    "E": "east",
    "SE": "south east",
    "S": "south",
    "SW": "south west",
    "W": "west",
    "NW": "north west",
    "NONE": "no window",
    "UNKNOWN": "not sure",
}


def _asked(told: Ask, speak: _Speaker) -> str | None:
    if told.topic is Topic.STOCK and told.product is not None:
        return f"how much {speak.product(told.product)} is left?"
    if told.topic is Topic.DUE and told.when:
        return {
            "week": "what is due this week?",
            "tomorrow": "what is due tomorrow?",
            "weekend": "what is due this weekend?",
            "next-week": "what is due next week?",
        }.get(told.when)
    if told.topic is Topic.LOG and told.when:
        return {"last-week": "what did I do last week?", "yesterday": "what did I do yesterday?"}.get(
            told.when
        )
    if told.in_full:
        return "why in full"
    if told.topic is Topic.FIT and told.product is not None:
        where = f" on {speak.plants(told.plants)}" if told.plants else ""
        return f"can i use {speak.product(told.product)}{where}?"
    if told.plants:
        words = _ABOUT_PLANTS.get(told.topic)
        return None if words is None else words.format(speak.plants(told.plants))
    return _ABOUT_ALL.get(told.topic)


def _trait(told: SetTraits, speak: _Speaker) -> str:
    plants = speak.plants(told.plants)
    if not told.trait.startswith(BURNT_BY):
        return _TRAITS[told.trait].format(plants)
    product = told.trait.removeprefix(BURNT_BY)
    names = (words[0] for key, words in speak.situation.ingredients if key == product)
    return f"{plants} is burnt by {next(names, 'what it was treated with')}"


def _animals(told: SetAnimals, _speak: _Speaker) -> str | None:
    names = {"cat": "a cat", "dog": "a dog", "fish": "an aquarium", "bird": "a bird"}
    if told.gone:
        return None
    return f"we have {_listed([names.get(one, one) for one in told.animals])}"


_SAYERS: dict[type[Command], Callable[..., str | None]] = {
    LogRound: _round,
    Postpone: _postponed,
    LogFind: _found,
    LogSign: lambda told, speak: ", ".join(
        f"{_SIGNS[told.sign]} on {speak.plant(plant)}{speak.behind(told.on)}" for plant in told.plants
    ),
    LogCheck: _looked,
    Correct: _corrected,
    Undo: lambda _told, _speak: "undo",
    Isolate: _isolated,
    MovePlant: lambda told, speak: (
        f"moved {speak.plants(told.plants)} to the "
        f"{told.room or speak.place(told.place)}{speak.behind(told.on)}"
    ),
    ReleasePlant: _released,
    LosePlant: lambda told, speak: f"{speak.plants(told.plants)} died{speak.behind(told.on)}",
    AddPlants: _added,
    StockProduct: _stocked,
    ReadTemperature: _warm,
    SetRoutine: _routine,
    Hold: _held,
    Mix: _mixed,
    LogUse: lambda told, speak: f"used {_number(float(told.ml))} ml{speak.behind(told.on)}",
    SetHours: _hours,
    SetPlace: _stands,
    SetTown: lambda told, _speak: f"I live in {told.text}",
    SetAnimals: _animals,
    SetTraits: _trait,
    SetKind: lambda told, speak: (
        f"{speak.plants(told.plants)} is a {load().knowledge.kinds[told.kind].name.lower()}"
    ),
    SetPot: lambda told, speak: f"{speak.plants(told.plants)} pot is {_number(told.pot_cm)} cm",
    Rename: lambda told, speak: (
        f"rename {speak.place(told.place)} to {told.name}"
        if told.plant is None
        else f"{speak.plant(told.plant)} is called {told.name}"
    ),
    Ask: _asked,
    Identify: lambda told, speak: (
        f"what is it on {speak.plants(told.plants)}?" if told.plants else "what is it?"
    ),
    BeginWalk: lambda told, _speak: None if told.plants else "walk",
    EndWalk: lambda _told, _speak: "stop the walk",
    BeginWork: lambda told, _speak: None if told.plants else "work day",
    EndWork: lambda _told, _speak: "stop for today",
    TickWork: lambda told, speak: (
        "leave it out"
        if told.is_left_out
        else f"done except {speak.plants(told.but)}"
        if told.but
        else "done"
    ),
    PassPlant: lambda _told, _speak: "not today",
    SkipQuestion: lambda _told, _speak: "skip",
    Export: lambda _told, _speak: "export",
    Invite: lambda _told, _speak: "invite",
    Help: lambda _told, _speak: "help",
}
