"""What is done to a plant in one evening, one thing after the other, in words."""

from collections.abc import Iterable, Sequence

from bot.domain.trade import Method
from bot.wording.days import listed

Act = tuple[Method, str | None]
"""A method, and the shown name of the product where it takes one."""

DONE = {
    Method.SWAB: "swabbed",
    Method.WIPE: "wiped",
    Method.RINSE: "rinsed",
    Method.SPRAY: "sprayed",
    Method.DRENCH: "drenched",
    Method.NEMATODES: "watered with nematodes",
    Method.DRY: "left to dry on top",
    Method.PRUNE: "pruned",
    Method.REPOT: "repotted",
    Method.CLEAN_OUT: "cleaned out",
}
_DRY = "let the top of the mix dry"


def by_acts(told: Iterable[tuple[str, Act]]) -> dict[tuple[Act, ...], list[str]]:
    """Gather what is told plant by plant, so that plants with the same work stand together."""
    works: dict[str, list[Act]] = {}
    for name, act in told:
        works.setdefault(name, []).append(act)
    gathered: dict[tuple[Act, ...], list[str]] = {}
    for name, acts in works.items():
        gathered.setdefault(tuple(acts), []).append(name)
    return gathered


def asked(acts: Sequence[Act], names: Sequence[str]) -> str:
    """Ask for one evening's work on plants: wipe hoya, then spray with soap."""
    first, *rest = acts
    if first[0] is Method.DRY:
        return f"{listed(names)}: {_in_turn([_DRY, *(_verb(act) for act in rest)])}."
    opening = f"{first[0].value.capitalize()} {listed(names)}{_with(first)}"
    return f"{_in_turn([opening, *(_verb(act) for act in rest)])}."


def planned(acts: Sequence[Act]) -> str:
    """Name one evening's work, without plants and products: wipe, then spray."""
    return _in_turn([_DRY if method is Method.DRY else method.value for method, _ in acts])


def done(acts: Sequence[Act], names: Sequence[str]) -> str:
    """Say what was done to plants: hoya wiped, then sprayed (soap)."""
    words = [f"{DONE[method]}{f' ({product})' if product else ''}" for method, product in acts]
    return f"{listed(names)} {_in_turn(words)}"


def _verb(act: Act) -> str:
    return f"{act[0].value}{_with(act)}"


def _with(act: Act) -> str:
    return f" with {act[1]}" if act[1] else ""


def _in_turn(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])}, then {words[-1]}"
