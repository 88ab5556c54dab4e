"""The rows: each form by its name, and what fills it."""

from collections.abc import Callable
from functools import partial

from bot.actions.action import Command
from bot.actions.add_plants import AddPlants
from bot.actions.ask import Ask, Topic
from bot.actions.correct import Correct
from bot.actions.courtesy import Help
from bot.actions.explain_term import AskTerm
from bot.actions.hold import Hold
from bot.actions.identify import Identify
from bot.actions.isolate import Isolate
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.log_sign import LogSign
from bot.actions.log_use import LogUse
from bot.actions.lose_plant import LosePlant
from bot.actions.mix_batch import Mix
from bot.actions.move_plant import MovePlant
from bot.actions.postpone import Postpone
from bot.actions.read_anew import Subject
from bot.actions.read_temperature import ReadTemperature
from bot.actions.release_plant import ReleasePlant
from bot.actions.rename import Rename
from bot.actions.set_animals import SetAnimals
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_pot import SetPot
from bot.actions.set_routine import SetRoutine
from bot.actions.set_town import SetTown
from bot.actions.set_traits import SetTraits
from bot.actions.skip_question import SkipQuestion
from bot.actions.stock_product import StockProduct
from bot.actions.undo import Undo
from bot.actions.walk_through import BeginWalk, EndWalk, PassPlant
from bot.actions.work_through import BeginWork, EndWork, TickWork
from bot.phrases.forms import filling
from bot.phrases.forms.filling import SIMPLE, Filled
from bot.phrases.lexicon import listed
from bot.phrases.mentions import Mentions

Fill = Callable[[Mentions], Filled]

ASKED_IN_MANY_WORDS = listed("spread eggs survival origin strength feeding trip reuse moving quarantine")
"""Terms that no word stands for: "will it jump to the ivy"."""
ROWS: dict[str, Fill] = {
    "done": filling.done,
    "find": filling.find,
    "sign": filling.sign,
    "none": filling.none,
    "later": filling.later,
    "isolate": filling.isolate,
    "isolate.stays": filling.stays,
    "move": filling.move,
    "release": filling.release,
    "lost": filling.lost,
    "stock": filling.stock,
    "temperature": filling.temperature,
    "hold": filling.hold,
    "routine": filling.routine,
    "mix": filling.mix,
    "use": filling.use,
    "pot": filling.pot,
    "tick": filling.tick,
    "pass": filling.passed,
    "animals": filling.animals,
    "tell": filling.tell,
    "undo": filling.undo,
    "correct.plant": filling.correct_plant,
    "correct.pest": filling.correct_pest,
    "correct.count": filling.correct_count,
    "add": filling.add,
    "town": filling.town,
    "hours.evening": filling.hours_evening,
    "hours.quiet": filling.quiet,
    "place": filling.place,
    "skip": filling.skip,
    "ask.pest": filling.identify,
    **{f"ask.{topic.value}": partial(filling.ask, topic) for topic in Topic},
    **{f"ask.term.{key}": partial(filling.plainly, AskTerm(key)) for key in ASKED_IN_MANY_WORDS},
    **{name: partial(filling.plainly, command) for name, command in SIMPLE.items()},
}

REPORTS = listed(
    "done find none later sign isolate isolate.stays move release lost temperature pot use stock tell rename"
)
"""Forms of which several may be told in one message."""
SAYS_NOTHING = frozenset({"nothing", "thanks", "greet"})
"""Forms of chatter."""


_SUBJECTS = {
    Subject.DONE: "done use tick endwork pass endwalk",
    Subject.SEEN: "find sign none correct.count correct.pest",
    Subject.LATER: "later hold skip",
    Subject.MOVED: "isolate isolate.stays move release lost",
    Subject.SHELF: "stock",
    Subject.HOME: "add place town rename animals tell temperature pot routine hours.evening hours.quiet",
    Subject.QUESTION: "help mix walk work",
}
_SUBJECT_OF = {form: subject for subject, forms in _SUBJECTS.items() for form in forms.split()}


def subject_of(form: str) -> Subject | None:
    """Tell what a message of this form is about; of two forms, what the first is about."""
    first = form.partition("+")[0]
    return Subject.QUESTION if first.startswith("ask.") else _SUBJECT_OF.get(first)


_FORMS: dict[type[Command], str] = {
    LogRound: "done", LogFind: "find", LogCheck: "none", LogSign: "sign", Postpone: "later",
    MovePlant: "move",
    ReleasePlant: "release", LosePlant: "lost", StockProduct: "stock", ReadTemperature: "temperature",
    Hold: "hold",
    SetRoutine: "routine", Mix: "mix", LogUse: "use", SetPot: "pot", SetAnimals: "animals", SetTraits: "tell",
    Undo: "undo", Rename: "rename", AddPlants: "add", SetTown: "town", SetPlace: "place", BeginWalk: "walk",
    EndWalk: "endwalk", BeginWork: "work", EndWork: "endwork", TickWork: "tick", PassPlant: "pass",
    Help: "help",
    Identify: "ask.pest", SkipQuestion: "skip",
}  # fmt: skip


def forms_of(command: Command) -> frozenset[str]:
    """Name the forms that a command may be of; none where it is of no form that is guessed."""
    match command:
        case Ask(topic=topic):
            return frozenset({f"ask.{topic.value}"})
        case AskTerm(term=term):
            return frozenset({f"ask.term.{term}"})
        case Isolate(apart=apart):
            return frozenset({"isolate" if apart else "isolate.stays"})
        case Correct():
            return frozenset({"correct.plant", "correct.pest", "correct.count"})
        case SetHours():
            return frozenset({"hours.evening", "hours.quiet"})
        case _:
            form = _FORMS.get(type(command))
            return frozenset() if form is None else frozenset({form})
