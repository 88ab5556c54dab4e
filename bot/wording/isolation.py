"""Answers about isolation and release."""

from bot.actions.isolate import IsolatedThem
from bot.actions.lose_plant import Lost, PlantsGone
from bot.actions.move_plant import PlantsMoved
from bot.actions.release_plant import NotYet, ReleasedThem
from bot.actions.show_isolated import IsolatedList
from bot.actions.show_release import ReleaseInfo
from bot.domain.progress import Progress
from bot.wording.conditions import condition_words
from bot.wording.days import counted, day, listed, near_day
from bot.wording.labels import ask_of_eating
from bot.wording.saying import says
from bot.wording.voice import Voice


@says
def isolated_them(told: IsolatedThem) -> str:
    """Confirm that plants are kept apart, or their room, and ask what their treatment waits for."""
    return _kept_apart(told) + (f"\n{ask_of_eating(told.to_read)}" if told.to_read else "")


def _kept_apart(told: IsolatedThem) -> str:
    if told.rooms:
        return (
            f"Written: {listed(told.plants)} stays where it is, so {listed(told.rooms)} is the isolation room. "
            "Everything in it is on watch; carry nothing out of it unchecked."
        )
    if told.quarantine_until is not None:
        return (
            f"Written: {listed(told.plants)} in quarantine until {day(told.quarantine_until)}, with a look a week. "
            "“quarantine for 3 weeks” makes it shorter, on your word."
        )
    return f"Written: {listed(told.plants)} kept apart."


@says
def released(told: ReleasedThem) -> str:
    """Confirm a release."""
    lines = []
    for name, by_rule, until in told.plants:
        how = "by the rule" if by_rule else "against the rule, on your word"
        watch = f" On watch until {day(until)}: keep the weekly look." if until else ""
        lines.append(f"Written: {name} left isolation, {how}.{watch}")
    if told.not_isolated:
        lines.append(f"{listed(told.not_isolated)} was not isolated.")
    if told.asking is not None:
        lines.append(
            f"Where {'does it' if len(told.plants) == 1 else 'do they'} stand now? Another place can be typed."
        )
    return "\n".join(lines)


def release_words(states: tuple[Progress, ...], voice: Voice) -> str:
    """Say how far the cases of a plant are."""
    if len(states) == 1:
        return condition_words(states[0], voice.today)
    return " ".join(f"{state.pest.name}: {condition_words(state, voice.today)}" for state in states)


@says
def isolated(told: IsolatedList, voice: Voice) -> str:
    """List what is apart and what is on watch."""
    if not told.plants:
        text = "No plant is isolated."
    else:
        lines = [f"Isolated, {counted(len(told.plants), 'plant')}:"]
        for plant, place, states in told.plants:
            since = f" since {day(plant.isolated_on)}" if plant.isolated_on else ", still to be set apart"
            what = ", ".join([*(state.pest.name for state in states), *([place] if place else [])])
            earliest = max(
                (state.release.earliest_on for state in states if state.release.earliest_on), default=None
            )
            if plant.quarantine_until is not None:
                earliest = plant.quarantine_until
            back = f"; back {near_day(earliest, voice.today)} at the earliest" if earliest else ""
            lines.append(f"{plant.name} ({what}){since}{back}")
        text = "\n".join(lines)
    if told.watched:
        names = [
            f"{name} ({'until ' + day(watch.until) if watch.until else 'because of ' + cause})"
            for name, watch, cause in told.watched
        ]
        text += f"\nOn watch: {listed(names)}."
    return text


@says
def release_info(told: ReleaseInfo, voice: Voice) -> str:
    """Say when plants may go back."""
    lines = []
    for name, states, isolated_on in told.of:
        if states:
            lines.append(f"{name}: {release_words(states, voice)}")
        else:
            since = f" since {day(isolated_on)}" if isolated_on else ""
            lines.append(f"{name} is apart{since} without an open case: it may go back when you like.")
    lines += [
        f"{name} is in quarantine until {day(until)}; it may join the others then, after a look that finds none."
        for name, until in told.quarantined
    ]
    if names := [name for name, _, because in told.free if because is None]:
        lines.append(f"{listed(names)}: not isolated.")
    for name, until, because in told.free:
        if because is not None:
            end = (
                f"until {day(until)}"
                if until
                else f"as long as {because} has an open case"
                if because != name
                else ""
            )
            lines.append(f"{name}: not isolated; on watch {end}.".replace(" .", "."))
    return "\n".join(lines) or "No plant is isolated."


@says
def _plants_gone(told: PlantsGone) -> str:
    return (
        f"{listed(told.plants)} is gone by what you told me, so nothing is written. “undo” if that was wrong."
    )


@says
def _plants_moved(told: PlantsMoved) -> str:
    rest = f" Isolated there: {listed(told.still_isolated)}." if told.still_isolated else ""
    return f"Written: {listed(told.plants)} at {told.place}.{rest}{_beside(told)}"


@says
def _not_yet(told: NotYet, voice: Voice) -> str:
    if told.quarantine_until is not None:
        return (
            f"{told.plant} is in quarantine until {day(told.quarantine_until)}, and then needs a look that finds none. "
            "It may go earlier on your word."
        )
    return f"{told.plant} is not there yet: {release_words(told.progress, voice)}"


@says
def _lost(told: Lost) -> str:
    bag = " Old mix and leaves go into a closed bag, not on the compost." if told.was_infested else ""
    watch = f" Still on watch: {listed(told.watched)}." if told.watched else ""
    return f"Written: {listed(told.plants)} gone.{bag}{watch}"


def _beside(told: PlantsMoved) -> str:
    if not told.beside:
        return ""
    is_one = len(told.beside) == 1
    return (
        f" {listed(told.healthy)}, with no case, {'stands' if len(told.healthy) == 1 else 'stand'} at {told.place} too: "
        f"{'is' if is_one else 'are'} {listed(told.beside)} apart there?"
    )
