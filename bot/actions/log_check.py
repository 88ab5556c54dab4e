"""Write down looks with none seen: what closes in on a case's end."""

from datetime import date

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.log_find import LogFind
from bot.actions.lose_plant import asked_back
from bot.domain.identity import PlantId
from bot.domain.journal import CheckedClean
from bot.domain.progress import Progress
from bot.domain.release import can_show
from bot.domain.trade import Level
from bot.domain.value import replace

BY_WAY = {
    Level.LENS: ButtonText.NONE_BY_LENS,
    Level.TAP: ButtonText.NONE_TAPPED,
    Level.CARD: ButtonText.NONE_ON_CARD,
    Level.TAPE: ButtonText.NONE_BY_TAPE,
    Level.PLAIN: ButtonText.PLAIN_LOOK,
}
"""What tells a look by its way."""
_OF_FEW = frozenset({Level.CARD, Level.TAPE, Level.POTATO})  # ways that show some pests only


class LogCheck(Command, kw_only=True):
    plants: tuple[PlantId, ...]
    level: Level | None = None
    on: date | None = None


class CheckLogged(Outcome, kw_only=True):
    on: date
    level: Level
    plants: tuple[str, ...]
    cases: tuple[tuple[str, Progress], ...]
    ready: tuple[str, ...]
    left_out: tuple[str, ...] = ()
    """Asked to be looked at as well, with pests, and not spoken of where several were."""


class UnfitLook(Outcome):
    """A card, tape or potato says nothing of what is on the plants: asked how else they were looked at."""

    level: Level
    plants: tuple[str, ...]
    pest: str


@performs
def log_check(command: LogCheck, desk: Desk) -> CheckLogged | UnfitLook:
    """
    Write looks with none seen; the same plant and day told twice is one look.

    What shows none of their pests is asked back: written it would stand for the look that is due.
    """
    level = command.level or Level.PLAIN
    on: date = command.on or desk.today
    plants = tuple(dict.fromkeys(command.plants))
    pests = [desk.knowledge.pests[case.pest] for plant in plants for case in desk.plant(plant).open_cases]
    is_unfit = level in _OF_FEW and all(desk.plant(plant).open_cases for plant in plants)
    if is_unfit and not any(can_show(pest, level) for pest in pests):
        ways = dict.fromkeys((pests[0].looking.ask, pests[0].looking.also, Level.PLAIN))
        choices = tuple(
            Choice(BY_WAY[way], (replace(command, level=way),))
            for way in ways
            if way is not None and way in BY_WAY
        )
        return UnfitLook(level, desk.names(plants), pests[0].name, asking=Asking(choices))
    doubted = asked_back(desk, LogFind) if len(plants) > 1 else frozenset()
    plants = tuple(one for one in plants if one not in doubted) or plants
    desk.write(desk.draft(CheckedClean(level), plant=plant, on=command.on) for plant in plants)
    left = _with_pests_left(plants, on, desk) if len(command.plants) > 1 else ()
    left = (*left, *(one for one in command.plants if one not in {*plants, *left}))
    too = LogCheck(plants=left, level=command.level, on=command.on)
    return CheckLogged(
        on=on,
        level=level,
        plants=desk.names(plants),
        cases=tuple(
            (desk.plant(plant).name, state)
            for plant in plants
            for state in desk.agenda.progress.get(plant, ())
        ),
        ready=desk.names(plant for plant in desk.agenda.ready if plant in command.plants),
        left_out=desk.names(left),
        offers=(Choice(ButtonText.CLEAN_TOO, (too,), ", ".join(desk.names(left))),) if left else (),
    )


def _with_pests_left(plants: tuple[PlantId, ...], on: date, desk: Desk) -> tuple[PlantId, ...]:
    """Give plants with pests that are asked to be looked at: "others" never means them, so it is said."""
    looks = desk.evening.looks if on == desk.evening.on and not desk.evening.is_past else ()
    asked = (line.plant for line in looks if line.left and line.plant is not None)
    return tuple(one for one in asked if one not in plants and desk.plant(one).open_cases)
