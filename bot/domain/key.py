"""
The identification key: from what somebody sees to a pest, a look-alike, or a short list.

Each question has a few answers; a creature that does not fit an answer drops out, "not sure" drops nobody.
The next question is the one that leaves the fewest on average; after four the list is short enough to be told
apart in words.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from enum import Enum

from bot.domain.campaign import Evidence
from bot.domain.value import Value, field

MOST_QUESTIONS = 4
UNSURE = "unsure"


class Nature(Enum):
    """What a creature is to the plant."""

    PEST = "pest"
    FRIEND = "friend"
    HARMLESS = "harmless"
    OTHER = "other"


class KeyQuestion(Value):
    """A question and its answers, key and words."""

    key: str
    text: str
    options: Mapping[str, str]
    when: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Answers to earlier questions without which this one makes no sense."""

    def makes_sense(self, answers: "Answers") -> bool:
        """Whether what was answered before lets it be asked."""
        told = dict(answers)
        return all(
            told.get(question, UNSURE) in {UNSURE, *fitting} for question, fitting in self.when.items()
        )


class Creature(Value, kw_only=True):
    """A pest, by its catalogue key, or a look-alike; tell is what tells it apart."""

    key: str
    name: str
    nature: Nature
    tell: str
    answers: Mapping[str, frozenset[str]]
    evidence: Evidence

    def fits(self, question: str, answer: str) -> bool:
        """Whether an answer may be given of it; one it says nothing of fits."""
        return answer == UNSURE or question not in self.answers or answer in self.answers[question]


class Key(Value):
    questions: Mapping[str, KeyQuestion]
    creatures: Mapping[str, Creature]


Answers = Sequence[tuple[str, str]]


def remaining(key: Key, answers: Answers) -> tuple[Creature, ...]:
    """Give the creatures that fit every answer, those that say most of it first."""
    fitting = [
        creature
        for creature in key.creatures.values()
        if all(creature.fits(question, answer) for question, answer in answers)
    ]
    return tuple(sorted(fitting, key=lambda creature: -_named(creature, answers)))


def _named(creature: Creature, answers: Answers) -> int:
    """Count the answers that the creature is known by, not only not excluded by."""
    return sum(answer in creature.answers.get(question, frozenset()) for question, answer in answers)


def next_question(key: Key, answers: Answers) -> KeyQuestion | None:
    """Give the question that narrows most; None when one is left, none helps, or four were asked."""
    left = remaining(key, answers)
    if len(left) <= 1 or len(answers) >= MOST_QUESTIONS:
        return None
    asked = {question for question, _ in answers}
    open_questions = [
        question
        for question in key.questions.values()
        if question.key not in asked and question.makes_sense(answers)
    ]
    best = min(open_questions, key=lambda question: _left_after(question, left), default=None)
    return best if best is not None and _left_after(best, left)[0] < len(left) else None


def _left_after(question: KeyQuestion, left: Sequence[Creature]) -> tuple[float, int]:
    """How many stay on average and at worst, each creature as likely and each answer of its own as well."""
    counts = Counter(
        option for option in question.options for creature in left if creature.fits(question.key, option)
    )
    if not counts:
        return float(len(left)), len(left)
    expected = 0.0
    for creature in left:
        fitting = [option for option in question.options if creature.fits(question.key, option)]
        expected += sum(counts[option] for option in fitting) / len(fitting) if fitting else len(left)
    return expected / len(left), max(counts.values())
