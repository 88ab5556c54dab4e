"""The household's preferences."""

from datetime import time

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.domain.household import Household


class SettingsTold(Outcome):
    home: Household
    quiet: tuple[time, time]
    """The speaker's own quiet hours."""


@answers(Topic.SETTINGS)
def show_settings(_: Ask, desk: Desk) -> SettingsTold:
    return SettingsTold(desk.household, desk.household.quiet_hours(desk.member.id))
