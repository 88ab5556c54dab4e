"""What a wash at this home takes off one leaf: published nowhere we found, so it is counted once."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.journal import LeafCounted

MOST_ON_A_LEAF = 10_000
"""More than that nobody counts. Judgement. [1]"""


class CountLeaf(Command):
    """Living pests on one leaf before and after a wash. [1]."""

    before: int
    after: int


class LeafNoted(Outcome):
    """The count, and what washes here took off so far. [1]."""

    before: int
    after: int
    removed: float
    counts: int


class LeafDoubted(Outcome):
    """A count that cannot be meant: nothing before, more after, or past counting."""

    before: int
    after: int


@performs
def count_leaf(command: CountLeaf, desk: Desk) -> LeafNoted | LeafDoubted:
    """Keep a count of one leaf before and after a wash."""
    if not 0 < command.before <= MOST_ON_A_LEAF or not 0 <= command.after <= command.before:
        return LeafDoubted(command.before, command.after)
    desk.write([desk.draft(LeafCounted(command.before, command.after))])
    removed = desk.household.washed_off
    assert removed is not None
    return LeafNoted(command.before, command.after, removed, len(desk.household.leaves))
