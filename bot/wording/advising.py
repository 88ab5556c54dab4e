"""Words for what is asked before anything is done: what fits, when the sun is off, what to buy."""

from bot.actions.advise import Fit, Fits, PlaceSun, Shopping, SunTold
from bot.domain.trade import Method
from bot.wording.days import day, listed
from bot.wording.labels import against
from bot.wording.nudge import CARE
from bot.wording.saying import says
from bot.wording.setting_up import place_words
from bot.wording.voice import Voice

_MOST = 12


@says
def _fits(told: Fits) -> str:
    if told.is_shelf_empty:
        return "Nothing is on your shelf yet. Say for instance “got soap, ready to use, every 7 days”, and I tell what it is for."
    if not told.fits:
        return "No case is open. Ask of a plant, like “can I use soap on the hoya?”"
    lines = [_fit(one) for one in told.fits[:_MOST]]
    return "\n".join([*lines, "By my notes and the usual label of its kind; the label you hold decides."])


def _fit(one: Fit) -> str:
    if one.refusals:
        return f"{one.product} on {one.plant}: no, {against(one.refusals)}."
    when = f"yes, from {day(one.allowed_on)} on" if one.allowed_on else "yes"
    if one.method is not Method.SPRAY:
        when += f", to {one.method.value} with"
    more = [CARE[care].rstrip(".") for care in one.care]
    if one.needs_shade:
        more.append("out of direct sun")
    if one.is_first_use:
        more.append("one leaf first, look after 24 to 48 hours")
    return f"{one.product} on {one.plant}: {'; '.join([when, *more])}."


@says
def _sun_told(told: SunTold, voice: Voice) -> str:
    if not told.places:
        return "I know no place yet. Tell me one, like “kitchen faces west”."
    if not told.has_town:
        return "I know no town yet, so no sun either. Say for instance “I live in Ghent”."
    lines = [_place_sun(one, voice) for one in told.places[:_MOST]]
    return "\n".join(
        [
            *lines,
            "Reckoned without clouds or houses opposite, each window 22 degrees wider than told, to be safe.",
        ]
    )


def _place_sun(one: PlaceSun, voice: Voice) -> str:
    where = place_words(one.place, voice)
    if not one.spans:
        return f"{where}: no direct sun today."
    spans = [f"{voice.clock(start)} to {voice.clock(end)}" for start, end in one.spans]
    return f"{where}: sun at most {listed(spans)} today."


@says
def _shopping(told: Shopping, voice: Voice) -> str:
    lines = [
        f"For {listed(plants)} nothing on the shelf fits. "
        + (
            f"Look for {listed(kinds, 'or')}, labelled for houseplants indoors."
            if kinds
            else "Handwork until then."
        )
        for kinds, plants in told.lacking
    ]
    lines += [
        f"{one.product}: about {voice.volume(one.left_ml)} left, and one evening for {listed(one.plants)} takes "
        f"{voice.volume(one.takes_ml)}."
        for one in told.low
    ]
    return (
        "\n".join(lines)
        or "By my notes nothing is missing for the next treatments. “shelf” tells what is there."
    )
