"""What is done to a plant in one evening, one thing after the other, in words."""

from collections.abc import Iterable, Sequence

from bot.domain.gathering import gathered
from bot.domain.trade import Method

Act = tuple[Method, str | None]
"""A method, and the shown name of the product where it takes one."""

DONE = {
    Method.SWAB: "swabbed",
    Method.WIPE: "wiped",
    Method.RINSE: "rinsed",
    Method.SPRAY: "sprayed",
    Method.DRENCH: "drenched",
    Method.NEMATODES: "watered with nematodes",
    Method.PREDATORS: "given predators",
    Method.DRY: "left to dry on top",
    Method.PRUNE: "pruned",
    Method.REPOT: "repotted",
    Method.CLEAN_OUT: "cleaned out",
}
_DRY = "let the top of the mix dry"


def by_acts(told: Iterable[tuple[str, Act]]) -> dict[tuple[Act, ...], list[str]]:
    """Gather what is told plant by plant, so that plants with the same work stand together."""
    return gathered((tuple(acts), name) for name, acts in gathered(told).items())


def asked(acts: Sequence[Act], names: str) -> str:
    """Ask for one evening's work on plants: wipe hoya, then soap."""
    first, *rest = acts
    if first[0] is Method.DRY:
        return f"{names}: {_in_turn([_DRY, *map(_put_on, rest)])}."
    opening = f"{first[0].value.capitalize()} {names}{_with(first)}"
    return f"{_in_turn([opening, *map(_put_on, rest)])}."


def planned(acts: Sequence[Act]) -> str:
    """Name one evening's work without plants: wipe, then soap; swab with alcohol."""
    first = _DRY if acts[0][0] is Method.DRY else _verb(acts[0])
    return _in_turn([first, *map(_put_on, acts[1:])])


def _put_on(act: Act) -> str:
    return act[1] if act[0] is Method.SPRAY and act[1] else _verb(act)


def done(acts: Sequence[Act], names: str) -> str:
    """Say what was done to plants: hoya wiped, then sprayed (soap)."""
    words = [f"{DONE[method]}{f' ({product})' if product else ''}" for method, product in acts]
    return f"{names} {_in_turn(words)}"


def _verb(act: Act) -> str:
    return f"{act[0].value}{_with(act)}"


def _with(act: Act) -> str:
    return f" with {act[1]}" if act[1] else ""


def _in_turn(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])}, then {words[-1]}"
