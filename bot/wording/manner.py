"""How an answer comes: what stands out in it, whether it makes a sound, what it asks to be sent back."""

import sys
from collections.abc import Sequence

from bot.actions.action import Expecting, Outcome
from bot.actions.explain import Reasons
from bot.actions.give_first_aid import Exposed
from bot.actions.send_evening import NudgeText
from bot.actions.set_town import TownSet
from bot.actions.share import Invited
from bot.domain.value import replace
from bot.wording.answer import Answer, Invitation
from bot.wording.saying import MOST_LINES

SHARE_LOCATION = "Share my location"
HAND_ON = "Send it to somebody"
SHOWN_OF_REASONS = 3
"""Lines of long reasons that are seen without asking. Judgement. [1]"""
LONGEST_NOTICE = 60
"""As much as is read in the moment a notice is shown. Judgement. [1]"""


def most_lines(outcome: Outcome) -> int:
    """Give how many lines of a phone an answer may take before the rest waits behind [More]."""
    is_at_length = isinstance(outcome, Reasons) and outcome.in_full
    return sys.maxsize if is_at_length else MOST_LINES[type(outcome)]


def in_manner(answer: Answer, outcomes: Sequence[Outcome]) -> Answer:
    """Give an answer the manner of what it tells."""
    asking = next((one.asking for one in reversed(outcomes) if one.asking is not None), None)
    if asking is not None and not asking.choices and asking.expecting is not Expecting.CHOICE:
        label = SHARE_LOCATION if asking.expecting is Expecting.TOWN else ""
        answer = replace(answer, wants_words=True, location_label=label)
    for one in outcomes:
        match one:
            case NudgeText(count=count):
                answer = replace(answer, bold=_line(answer.text, 1), is_silent=count > 1)
            case Exposed(in_doubt=False):
                answer = replace(answer, bold=_line(answer.text, 0))
            case Reasons(in_full=True):
                answer = replace(answer, folded=_rest(answer.text))
            case Invited(code=code):
                answer = replace(answer, invitation=Invitation(code, HAND_ON))
            case TownSet():
                answer = replace(answer, is_location_settled=True)
            case _:
                pass
    return answer


def notice(answer: Answer) -> str:
    """Give what is shown for a moment where a button was pressed: how the answer begins."""
    first = _line(answer.text, 0)
    return first if len(first) <= LONGEST_NOTICE else first[: LONGEST_NOTICE - 1].rstrip() + "…"


def _line(text: str, number: int) -> str:
    lines = text.splitlines()
    return lines[number] if len(lines) > number else ""


def _rest(text: str) -> str:
    """Give what follows the first lines, where that is more than they are."""
    lines = text.split("\n")
    return "\n".join(lines[SHOWN_OF_REASONS:]) if len(lines) > 2 * SHOWN_OF_REASONS else ""
