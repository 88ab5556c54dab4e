"""Commands in one line of plain words: for tests, and for whoever asks what a message would do."""

from datetime import date, time
from decimal import Decimal

from bot.actions.action import Command
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.ask import Ask
from bot.actions.correct import Correct
from bot.actions.courtesy import Greet, Help, Thanks
from bot.actions.decline import Decline
from bot.actions.describe_pest import DescribePest
from bot.actions.explain_term import AskTerm
from bot.actions.export import Export
from bot.actions.forget import Forget
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.hold import Hold
from bot.actions.identify import Identify
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.isolate import Isolate
from bot.actions.keep_status import SetStatus
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.log_use import LogUse
from bot.actions.log_watering import LogWatering
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.not_understood import NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.read_temperature import ReadTemperature
from bot.actions.refuse_plan import ConsiderPlan
from bot.actions.release_plant import ReleasePlant
from bot.actions.remove_place import RemovePlace
from bot.actions.rename import Rename
from bot.actions.set_animals import SetAnimals
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_pot import SetPot
from bot.actions.set_repeats import SetRepeats
from bot.actions.set_routine import SetRoutine
from bot.actions.set_strict import SetStrict
from bot.actions.set_town import SetCoordinates, SetTown
from bot.actions.set_traits import SetTraits
from bot.actions.set_units import SetUnits
from bot.actions.share import HandOver, RemoveMember
from bot.actions.situation import Situation
from bot.actions.skip_question import SkipQuestion
from bot.actions.stock_product import StockProduct
from bot.actions.tell_how import AskHow
from bot.actions.tell_poison import AskPoison
from bot.actions.undo import Undo
from bot.actions.walk_through import BeginWalk, EndWalk, PassPlant
from bot.actions.work_through import BeginWork, EndWork, TickWork
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.label import Label
from bot.domain.trade import Form

_BARE: dict[type, str] = {
    Undo: "undo",
    Thanks: "thanks",
    Help: "help",
    GiveFirstAid: "exposure",
    Greet: "greet",
    Decline: "decline",
    SkipQuestion: "skip",
    NotUnderstood: "unclear",
}
_QUOTED = frozenset({Missing.ADD, Missing.UNKNOWN_PLANT})


def notation(commands: tuple[Command, ...], situation: Situation) -> str:
    """Write commands as intent, plants and options, several joined by " + "."""
    return " + ".join(_line(command, situation) for command in commands)


def _line(command: Command, situation: Situation) -> str:
    bare = _BARE.get(type(command))
    words = [bare] if bare else _words(command, situation)
    return " ".join(word for word in words if word)


def _words(command: Command, situation: Situation) -> list[str]:
    told = _told(command, situation)
    return told if told is not None else _kept(command, situation)


def _told(command: Command, situation: Situation) -> list[str] | None:
    """Write what was done, put off, seen."""
    write = _Writer(situation)
    match command:
        case LogRound():
            options = [_option("method", command.method and command.method.value)]
            options += [_option("product", write.product(command.product))]
            at = command.at and command.at.astimezone(situation.zone).strftime("%H:%M")
            return [
                "done",
                *write.plants(command.plants),
                *options,
                write.past(command.on),
                _option("at", at),
            ]
        case Postpone():
            at = command.at and command.at.astimezone(situation.zone).strftime("%H:%M")
            return ["later", *write.plants(command.plants), _option("on", command.on), _option("at", at)]
        case LogFind():
            amount = command.grade.value if command.grade else _option("", command.count)
            seen = [
                _option("pest", command.pest and _key(command.pest)),
                _option("where", command.where),
                write.past(command.on),
            ]
            return ["find", *write.plants(command.plants), amount, *seen]
        case LogSign():
            sign = _option("sign", command.sign.value)
            return ["sign", *write.plants(command.plants), sign, write.past(command.on)]
        case LogCheck():
            level = _option("level", command.level and command.level.value)
            return ["none", *write.plants(command.plants), level, write.past(command.on)]
        case LogWatering():
            return ["watered", *write.plants(command.plants), write.past(command.on)]
        case _:
            return None


def _kept(command: Command, situation: Situation) -> list[str]:  # noqa: C901 - one arm a command
    """Write what became of plants, and what was asked."""
    write = _Writer(situation)
    match command:
        case Correct():
            if command.pest is None and command.count is None:
                return ["correct", _option("plant", write.plant(command.plant))]
            right = [_option("pest", command.pest and _key(command.pest)), _option("count", command.count)]
            return ["correct", write.plant(command.plant) or "", *right]
        case Isolate():
            weeks = _option("days", command.quarantine_days)
            stays = "" if command.apart else "apart=no"
            return ["isolate", *write.plants(command.plants), write.past(command.on), stays, weeks]
        case MovePlant():
            place = _option("place", _key(command.room) or write.place(command.place))
            return ["move", *write.plants(command.plants), place, write.past(command.on)]
        case ReleasePlant():
            anyway = "anyway" if command.confirmed else ""
            return ["release", *write.plants(command.plants), write.past(command.on), anyway]
        case LosePlant():
            return ["lost", *write.plants(command.plants), write.past(command.on)]
        case SetPot():
            return ["pot", *write.plants(command.plants), _option("cm", _number(command.pot_cm))]
        case Rename():
            old = write.plant(command.plant) if command.place is None else write.place(command.place)
            return ["rename", old or "", _option("name", _key(command.name))]
        case Incomplete():
            text = command.text if command.missing in _QUOTED else ""
            return ["ask", command.missing.value, *write.plants(command.plants), text]
        case Ask():
            product, when = _option("product", write.product(command.product)), _option("when", command.when)
            place = _option("place", command.place and write.place(command.place))
            return ["ask", command.topic.value, *write.plants(command.plants), place, product, when]
        case _:
            return _of_the_household(command, situation)


def _of_the_household(command: Command, situation: Situation) -> list[str]:
    write = _Writer(situation)
    match command:
        case AddPlants(plants):
            added = [["+", "add", _key(one.name), *_standing(one)] for one in plants]
            return [word for words in added for word in words][1:]
        case StockProduct():
            return ["stock", _option("product", command.ingredient), *_label(command.label, command.stock_ml)]
        case ReadTemperature():
            warmth = _option("c", _number(command.celsius))
            months = _option("months", ",".join(str(month) for month in command.months) or None)
            ends = [
                _option(key, _number(end))
                for key, end in (("low", command.low), ("high", command.high))
                if end is not None
            ]
            return ["temperature", write.place(command.place), warmth, *ends, write.past(command.on), months]
        case SetRoutine():
            return ["routine", command.name, _option("rule", command.rule)]
        case Hold():
            return ["hold", _option("from", command.since), _option("until", command.until)]
        case Mix():
            volume = _option("ml", None if command.volume_ml is None else round(command.volume_ml))
            return ["mix", volume, _option("product", write.product(command.product) or command.ingredient)]
        case LogUse():
            return ["use", _option("ml", _number(float(command.ml))), write.past(command.on)]
        case Identify():
            return ["ask", "pest", *write.plants(command.plants)]
        case SetTraits():
            return ["tell", *write.plants(command.plants), command.trait]
        case _:
            return _looked_up(command, situation)


def _standing(plant: NewPlant) -> list[str]:
    place = plant.place and _key(plant.place)
    return [_option("place", place), _option("cm", _number(plant.pot_cm))]


def _label(label: Label, stock_ml: float | None) -> list[str]:
    told = {
        "form": "ready" if label.form is Form.READY else None,
        "gap": label.gap_days,
        "ml": _number(stock_ml),
        "rate": label.rate_ml_per_l,
        "most": label.most_ml_per_l,
        "percent": label.strength_percent,
        "uses": label.uses_a_year,
        "harvest": label.harvest_days,
        "indoors": _yes_or_no(label.is_for_indoors),
        "edibles": _yes_or_no(label.is_for_edibles),
    }
    return [_option(name, value) for name, value in told.items()]


def _looked_up(command: Command, situation: Situation) -> list[str]:
    """Write what was looked up."""
    write = _Writer(situation)
    match command:
        case AskPoison():
            names = [_key(name) for name in command.names]
            whom = ",".join((*(eater.value for eater in command.eaters), *command.others))
            return ["ask", "poison", *write.plants(command.plants), *names, _option("to", whom or None)]
        case AskHow():
            plants = () if command.plant is None else (command.plant,)
            pest = _option("pest", command.pest and _key(command.pest))
            return ["ask", "how", command.way, *write.plants(plants), pest]
        case DescribePest():
            return ["ask", "about", _key(command.pest)]
        case AskTerm():
            return ["ask", "term", command.term]
        case ConsiderPlan():
            return ["refuse", command.danger.value]
        case _:
            return _of_the_talk(command, situation)


def _of_the_talk(  # noqa: C901, PLR0912 - one arm a command
    command: Command, situation: Situation
) -> list[str]:
    """Write the setting-up, walks and work days, people and files."""
    write = _Writer(situation)
    match command:
        case SetTown():
            return ["town", _key(command.text)]
        case SetCoordinates():
            return ["town", _key(command.town or f"{command.latitude},{command.longitude}")]
        case SetHours():
            quiet = (command.quiet_from, command.quiet_until)
            span = "-".join(f"{at:%H:%M}" if at else "" for at in quiet) if any(quiet) else None
            return ["hours", _option("evening", _clock(command.evening)), _option("quiet", span)]
        case SetUnits():
            return [
                "units",
                command.units.value if command.units else "",
                _option("clock", command.clock_hours),
            ]
        case SetPlace():
            name = write.place(command.place_id) if command.place_id else _key(command.name)
            facing = _option("facing", command.facing and command.facing.value.lower())
            outdoors = _option("outdoors", command.outdoors and command.outdoors.value)
            return ["place", name, facing, outdoors, _option("lamp", _clock(command.lamp_until))]
        case RemovePlace():
            return ["unplace", write.place(command.place)]
        case SetAnimals():
            return ["animals", *command.animals, *(f"-{name}" for name in command.gone)]
        case BeginWalk():
            level = _option("level", command.level and command.level.value)
            return ["walk", *write.plants(command.plants), level]
        case PassPlant():
            return ["pass", *write.plants(command.plants)]
        case EndWalk():
            return ["endwalk", "for-good" if command.is_for_good else ""]
        case BeginWork():
            return ["work", *write.plants(command.plants)]
        case TickWork():
            but = [_option("but", write.plant(plant)) for plant in command.but]
            return ["tick", *but, "leave-out" if command.is_left_out else ""]
        case EndWork():
            return ["endwork", "for-good" if command.is_for_good else ""]
        case Export():
            return ["export", _option("kind", command.kind and command.kind.value)]
        case Forget():
            return ["forget", command.what.value]
        case RemoveMember() | HandOver():
            return [type(command).__name__.lower(), _key(command.name)]
        case SetStrict():
            return ["strict", _yes_or_no(command.is_strict) or ""]
        case SetStatus() | SetRepeats():
            word = "status" if isinstance(command, SetStatus) else "repeats"
            return [word, _yes_or_no(command.is_wanted) or ""]
        case _:
            return [type(command).__name__.lower()]


def _yes_or_no(value: bool | None) -> str | None:  # noqa: FBT001 - a label's word, as it stands in the command
    return None if value is None else "yes" if value else "no"


def _clock(at: time | None) -> str | None:
    return None if at is None else at.strftime("%H:%M")


def _option(name: str, value: object) -> str:
    if value is None:
        return ""
    text = value.isoformat() if isinstance(value, date) else str(value)
    return f"{name}={text}" if name else text


def _number(value: float | None) -> str | None:
    return None if value is None else f"{Decimal(str(value)).normalize():f}"


def _key(name: str) -> str:
    return name.lower().replace(" ", "_")


class _Writer:
    """Names of a household as keys."""

    def __init__(self, situation: Situation) -> None:
        self._situation = situation

    def plants(self, plants: tuple[PlantId, ...]) -> list[str]:
        return [self.plant(plant) or "" for plant in plants]

    def plant(self, plant: PlantId | None) -> str | None:
        return next((_key(known.names[0]) for known in self._situation.plants if known.id == plant), None)

    def place(self, place: PlaceId) -> str:
        return next((_key(known.name) for known in self._situation.places if known.id == place), "?")

    def product(self, product: ProductId | None) -> str | None:
        """Write a product of the shelf by its kind in the catalogue."""
        names = next((known.names for known in self._situation.shelf if known.id == product), None)
        if names is None:
            return None
        kinds = (key for key, words in self._situation.ingredients if names[0] in words)
        return next(kinds, _key(names[0]))

    def past(self, day: date | None) -> str:
        """Write a day behind us; today needs no saying."""
        return "" if day is None or day == self._situation.today else _option("on", day)
