"""What a bare "done" stands for: only what was announced for a plant, and only where that is one thing."""

from collections.abc import Iterable

from bot.actions.desk import Desk
from bot.domain.identity import PlantId, ProductId
from bot.domain.trade import Method

Part = tuple[PlantId, Method, ProductId | None]


def announced(plant: PlantId, desk: Desk) -> tuple[tuple[Part, ...], ...]:
    """
    Give what was announced for a plant this evening, once for each way it was announced.

    The evening's message announces, and so does the answer to a find told since: who did which is not
    known. A clean-out is more than a "done" says, so it never stands alone.
    """
    before = tuple(part for part in _treatments(desk.asked_tonight()) if part[0] == plant)
    nudge = desk.household.nudge
    if nudge is None or nudge.on != desk.today or plant not in desk.found_since(nudge.at):
        return _weighed(before)
    open_now = ((task.plant, task.method, task.product) for task in desk.tonight())
    since = tuple(part for part in _treatments(open_now) if part[0] == plant)
    return _weighed(before) if since in {(), before} else tuple(one for one in (before, since) if one)


def _weighed(parts: tuple[Part, ...]) -> tuple[tuple[Part, ...], ...]:
    out = [part for part in parts if part[1] is Method.CLEAN_OUT]
    if not out:
        return (parts,) if parts else ()
    by_hand = (out[0][0], Method.WIPE, None)
    return parts, (by_hand,)


def _treatments(asked: Iterable[tuple[PlantId, Method | None, ProductId | None]]) -> list[Part]:
    return [(plant, method, product) for plant, method, product in asked if method is not None]
