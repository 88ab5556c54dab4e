"""Answers that teach: how a thing is done, what a word means, what must not be done."""

from bot.actions.explain_term import TermTold
from bot.actions.refuse_plan import PlanRefused
from bot.actions.tell_how import HowTold
from bot.wording.saying import says


@says
def how_told(told: HowTold) -> str:
    """List the steps, and what to mind."""
    heading = told.title if told.plant is None else f"{told.title}: {told.plant}"
    lines = [f"{heading}.", *(f"• {step}" for step in told.steps)]
    if told.cautions:
        lines.append("Mind:")
        lines += [f"• {caution}" for caution in told.cautions]
    return "\n".join(lines)


@says
def term_told(told: TermTold) -> str:
    """Say what a word means."""
    return f"{told.name.capitalize()}: {told.text}"


@says
def plan_refused(told: PlanRefused) -> str:
    """Say no, with the reason."""
    return told.text
