"""Answers about poisonous plants: who is not in a list is unknown, and treated as poisonous."""

from collections.abc import Iterable, Mapping

from bot.actions.tell_poison import Judged, PoisonTold
from bot.domain.poison import Eater, PoisonOf
from bot.wording.days import listed
from bot.wording.saying import says

_UNKNOWN = "I do not know, so treat it as poisonous"
_GRAVE = " (a little can kill)"
_MOST_CITED = 2
_MOST_WARNED = 8
"""So many names fit a line that somebody did not ask for. Judgement. [1]"""
_IF_EATEN = (
    "If some of it was eaten, ring {whom} now, with the plant’s name. Sprayed leaves are food for nobody."
)


@says
def _poison_told(told: PoisonTold) -> str:
    names = {one.name for one in told.judged}
    lines = [f"For {animal} I have read no list: treat every plant as poisonous." for animal in told.others]
    if len(names) == 1:
        lines += [_one(one, told.cited) for one in told.judged]
    else:
        for eater in Eater:
            lines += _grouped([one for one in told.judged if one.eater is eater], eater)
    if told.judged or told.others:
        has_animals = bool(told.others) or any(one.eater is not Eater.PEOPLE for one in told.judged)
        has_people = any(one.eater is Eater.PEOPLE for one in told.judged)
        whom = ["a vet"] * has_animals + ["a poison centre"] * has_people
        lines.append(_IF_EATEN.format(whom=listed(whom, "or")))
    return "\n".join(lines) or "No plants yet, so I cannot say. Ask by name, like “is ivy poisonous to cats”."


def warning(judged: Iterable[Judged]) -> str:
    """Name what is poisonous to the animals that were told of, for one line; empty where nothing is."""
    lines = []
    for eater in Eater:
        bad = [
            one
            for one in judged
            if one.eater is eater and any(found.verdict.is_poisonous for found in one.found)
        ]
        names = sorted((_named(one) for one in bad), key=lambda name: not name.endswith(_GRAVE))
        more = [f"{len(names) - _MOST_WARNED} more"] if len(names) > _MOST_WARNED else []
        if names:
            lines.append(f" Poisonous to {eater.value}: {listed([*names[:_MOST_WARNED], *more])}.")
    return "".join(lines)


def _one(one: Judged, cited: Mapping[str, str]) -> str:
    to = f"to {one.eater.value}"
    if not one.found:
        return f"{one.name} {to}: no kind of plant that I know. {_UNKNOWN}."
    if len(one.found) == 1:
        return f"{one.name} {to}: {_verdict(one.found[0], one.eater, cited)}."
    each = "; ".join(f"{found.kind.name}: {_verdict(found, one.eater, cited)}" for found in one.found)
    return f"{one.name} {to}: the name stands for {len(one.found)} plants. {each}."


def _verdict(found: PoisonOf, eater: Eater, cited: Mapping[str, str]) -> str:
    note = f" ({found.note})" if found.note else ""
    sources = [cited.get(key, key).partition(",")[0] for key in found.verdict.sources[:_MOST_CITED]]
    by = f" ({listed(sources)})" if sources else " (from memory)"
    if found.verdict.is_poisonous:
        grave = ", and a little can kill" if found.verdict.is_grave else ""
        return f"poisonous{grave}{note}{by}"
    if found.verdict.is_poisonous is None:
        if eater is Eater.PEOPLE and found.kind.is_edible:
            return f"grown to be eaten, other parts may not be{note}"
        return f"{_UNKNOWN}{note}"
    return f"called not poisonous{note}{by}"


def _grouped(judged: list[Judged], eater: Eater) -> list[str]:
    """List names by their worst verdict."""
    bad, unknown, good = [], [], []
    for one in judged:
        verdicts = {found.verdict.is_poisonous for found in one.found} or {None}
        is_food = all(found.kind.is_edible or found.verdict.is_poisonous is False for found in one.found)
        if True in verdicts:
            bad.append(_named(one))
        elif None in verdicts and not (eater is Eater.PEOPLE and is_food):
            unknown.append(one.name)
        else:
            good.append(one.name)
    lines = []
    if bad:
        lines.append(f"Poisonous to {eater.value}: {listed(bad)}.")
    if unknown:
        lines.append(f"Unknown, so treat as poisonous to {eater.value}: {listed(unknown)}.")
    if good and eater is Eater.PEOPLE:
        lines.append(f"Called not poisonous to people, or grown to be eaten: {listed(good)}.")
    elif good:
        lines.append(f"Called not poisonous to {eater.value}: {listed(good)}.")
    return lines


def _named(one: Judged) -> str:
    is_grave = any(found.verdict.is_grave for found in one.found)
    return f"{one.name}{_GRAVE}" if is_grave else one.name
