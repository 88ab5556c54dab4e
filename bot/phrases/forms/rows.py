"""The rows: each form by its name, and what fills it."""

from collections.abc import Callable
from functools import partial

from bot.actions.ask import Topic
from bot.phrases.forms import filling
from bot.phrases.forms.filling import SIMPLE, Filled
from bot.phrases.mentions import Mentions

Fill = Callable[[Mentions], Filled]

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
    "hours.evening": filling.hours_evening,
    **{f"ask.{topic.value}": partial(filling.ask, topic) for topic in Topic},
    **{name: partial(filling.plainly, command) for name, command in SIMPLE.items()},
}

SAYS_NOTHING = frozenset({"nothing", "thanks", "greet"})
"""Forms of chatter."""
EMERGENCY = "exposure"
