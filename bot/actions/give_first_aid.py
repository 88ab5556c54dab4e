"""Somebody or an animal got some: heard before everything else."""

from bot.actions.action import ButtonText, Choice, Command, Outcome, performs


class GiveFirstAid(Command):
    """Somebody or an animal got some: matched before everything else, writes nothing."""

    in_doubt: bool = False
    """Whether it may well be something else: said in one line, beside what else it may mean."""


class Exposed(Outcome):
    """First aid, in one line where it is in doubt; writes nothing."""

    in_doubt: bool = False


@performs
def give_first_aid(command: GiveFirstAid) -> Exposed:
    if command.in_doubt:
        return Exposed(in_doubt=True, offers=(Choice(ButtonText.SOMEBODY_HURT, (GiveFirstAid(),)),))
    return Exposed()
