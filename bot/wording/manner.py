"""How an answer comes: what stands out in it, whether it makes a sound, what it asks to be sent back."""

import sys
from collections.abc import Sequence
from dataclasses import replace

from bot.actions.action import Expecting, Outcome
from bot.actions.add_plants import PlantsAdded
from bot.actions.begin_talk import Founded
from bot.actions.courtesy import Welcomed
from bot.actions.decline import Declined
from bot.actions.explain import Reasons
from bot.actions.give_first_aid import Exposed
from bot.actions.incomplete import Asks
from bot.actions.isolate import IsolatedThem
from bot.actions.log_check import CheckLogged
from bot.actions.log_find import FindLogged
from bot.actions.log_round import NothingDue, RoundLogged, WhichEvening, WhichTreatment
from bot.actions.not_understood import Unclear
from bot.actions.pass_on import NoteForOthers
from bot.actions.postpone import PutOff
from bot.actions.read_temperature import TemperatureNoted
from bot.actions.release_plant import ReleasedThem
from bot.actions.send_evening import NudgeText
from bot.actions.set_place import PlacesSaved
from bot.actions.set_town import TownSet
from bot.actions.share import Invited, OwnerNow, SomebodyJoined
from bot.actions.show_due import DueList
from bot.actions.show_history import History
from bot.actions.show_isolated import IsolatedList
from bot.actions.show_more import MoreText
from bot.actions.show_plants import PlantList
from bot.actions.stock_product import Stocked
from bot.actions.undo import Undone
from bot.actions.walk_through import WalkDone, WalkStep
from bot.actions.work_through import WorkStage
from bot.wording.answer import Answer, Invitation
from bot.wording.lines import LONG, SHORT

SHARE_LOCATION = "Share my location"
HAND_ON = "Send it to somebody"
SHOWN_OF_REASONS = 3
"""Lines of long reasons that are seen without asking. Judgement. [1]"""
LONGEST_NOTICE = 60
"""As much as is read in the moment a notice is shown. Judgement. [1]"""

OFTEN = (
    Asks,
    CheckLogged,
    Declined,
    DueList,
    FindLogged,
    Founded,
    Invited,
    IsolatedList,
    IsolatedThem,
    NothingDue,
    NudgeText,
    OwnerNow,
    PlacesSaved,
    PlantsAdded,
    PutOff,
    Reasons,
    ReleasedThem,
    RoundLogged,
    SomebodyJoined,
    Stocked,
    TemperatureNoted,
    TownSet,
    Unclear,
    Undone,
    WalkDone,
    WalkStep,
    Welcomed,
    WhichEvening,
    WhichTreatment,
    WorkStage,
)
"""The answers given most, by count; each fits six lines of a phone."""
AT_LENGTH = (History, MoreText, NoteForOthers, PlantList, Exposed)
"""What is read at length, or must never wait."""


def most_lines(outcome: Outcome) -> int:
    """Give how many lines of a phone an answer may take before the rest waits behind [More]."""
    if isinstance(outcome, AT_LENGTH) or (isinstance(outcome, Reasons) and outcome.in_full):
        return sys.maxsize
    return SHORT if isinstance(outcome, OFTEN) else LONG


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
