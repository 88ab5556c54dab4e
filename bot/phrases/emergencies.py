"""What went wrong, and what must not be done: recognised before everything else, rather once too often."""

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from bot.actions.command import Command
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.phrases.names import OneOf, Plants, names_of
from bot.phrases.slips import slips_between
from bot.phrases.text import plain, words_of

_WORDS = Path(__file__).with_name("emergencies.toml")
_ENDINGS = ("ing", "ed", "es", "s", "d")
_SHORTEST_STEM = 3
_SHORTEST_SLIP = 6
_NEAR = 6
"""Words between who did it and what was done. Judgement."""
_CLOSE = 4
_BREAK = frozenset(".!?;\n")
_INTO = frozenset(
    {"in", "into", "on", "onto", "up", "down", "over", "inside", "at", "to", "through", "from", "near"}
)
_OWN = frozenset({"my", "his", "her", "their", "our", "the", "its", "your", "both", "one", "me", "baby"})
_NOT = frozenset({"not", "never", "no", "nothing", "without"})
_NO_EYES = (
    ("eye", "on"),
    ("eye", "out"),
    ("an", "eye"),
    ("on", "hand"),
    ("by", "hand"),
    ("hand", "lens"),
    ("out", "of"),
)
_UNKNOWN = frozenset(
    {"it", "some", "something", "one", "that", "this", "bit", "piece", "them", "part", "lot"}
)
_WASHED = frozenset({"washed", "wash", "washing", "cleaned", "dried"})
_BLAMELESS = frozenset(
    {"mite", "mites", "bug", "bugs", "thrips", "slug", "slugs", "snail", "snails", "caterpillar", "something"}
    | {
        "caterpillars",
        "insect",
        "insects",
        "pest",
        "pests",
        "aphids",
        "mealybugs",
        "larvae",
        "gnats",
        "worms",
    }
    | {"beetle", "beetles", "ladybird", "ladybirds", "predators", "ants", "birds", "squirrel", "squirrels"}
)
_OF_PLANTS_TOO = frozenset(
    {"red", "weak", "water", "burn", "burnt", "burned", "limp", "dies", "sick", "shot"}
)
_LETTERS = re.compile(r"(.)\1{2,}")


def hear_emergency(text: str, situation: Situation) -> Command | None:
    """
    Tell an exposure, or a plan that is one soon, from whatever was typed.

    A victim and what was done with a product, a leaf or a part of the body make one, whatever is being asked
    just then; a question about what may happen does not.
    """
    names = names_of(situation)
    words = names.without_plants(words_of(_LETTERS.sub(r"\1", plain(text))))
    if not words:
        return None
    plants = frozenset(
        words[at]
        for at in range(len(words))
        if (found := names.exact_at(words, at)) is not None and isinstance(found[0], Plants | OneOf)
    )
    told = _Told(words, tuple(_classes(word, is_plant=word in plants) for word in words))
    if told.is_exposure():
        return GiveFirstAid()
    danger = told.danger()
    return None if danger is None else NotUnderstood(text, reason=danger)


@cache
def _listed() -> dict[str, frozenset[str]]:
    """Give each form of each listed word the classes it belongs to."""
    classes: dict[str, set[str]] = {}
    for name, listed in tomllib.loads(_WORDS.read_text(encoding="utf-8")).items():
        if name == "called":
            continue
        for word in listed.split():
            for form in {word, *_stems(word)}:
                classes.setdefault(form, set()).add(name)
    return {form: frozenset(names) for form, names in classes.items()}


@cache
def _called() -> tuple[tuple[str, ...], ...]:
    told = tomllib.loads(_WORDS.read_text(encoding="utf-8"))["called"]
    return tuple(tuple(phrase.split()) for phrase in told.split("|"))


@cache
def _verbs() -> tuple[str, ...]:
    told = tomllib.loads(_WORDS.read_text(encoding="utf-8"))
    verbs = f"{told['eating']} {told['swallowing']} {told['symptoms']}".split()
    forms = [form for verb in verbs for form in (verb, f"{verb}ed", f"{verb}ing", f"{verb.rstrip('e')}ed")]
    return tuple(form for form in forms if len(form) >= _SHORTEST_SLIP)


def _stems(word: str) -> set[str]:
    """Cut the endings that a form of a word may have: "licking", "chewed", "vomits"."""
    stems: set[str] = set()
    for ending in _ENDINGS:
        stem = word.removesuffix(ending)
        if stem != word and len(stem) >= _SHORTEST_STEM:
            stems |= {stem, f"{stem}e"}
            if stem[-1] == stem[-2]:
                stems.add(stem[:-1])
    return stems


@cache
def _known_classes(word: str) -> frozenset[str]:
    listed = _listed()
    if word in listed:
        return listed[word]
    found = [listed[stem] for stem in sorted(_stems(word), key=len, reverse=True) if stem in listed]
    if found:
        return found[0]
    if len(word) >= _SHORTEST_SLIP and word.isalpha():
        for verb in _verbs():
            if verb[0] == word[0] and slips_between(word, verb, 1) <= 1:
                return listed.get(verb) or _known_classes(verb)
    return frozenset()


def _classes(word: str, *, is_plant: bool) -> frozenset[str]:
    found = _known_classes(word)
    return (found | {"plants_people_keep"}) if is_plant else found


@dataclass(frozen=True, slots=True)
class _Told:
    """The words of a message and what each may stand for."""

    words: tuple[str, ...]
    classes: tuple[frozenset[str], ...]

    def is_exposure(self) -> bool:
        return (
            self._is_called()
            or self._is_swallowed()
            or self._is_on_a_body()
            or self._is_harmed()
            or self._has_met_an_animal()
            or self._is_ill_of_it()
        )

    def danger(self) -> str | None:
        """Name a plan that harms: bleach with what makes gas of it, or oil in the air near a flame."""
        bleach, acid = self._at("bleaches"), self._at("acids")
        is_warned = self._holds(("not", "mix")) or self._holds(("never", "mix"))
        is_shopping = self.words[0] in {"got", "bought", "ordered"}
        if bleach and acid and not is_warned and not is_shopping and self._are_together(bleach, acid):
            return "bleach"
        if self._holds(("is", "off")) or self._holds(("are", "off")):
            return None
        if self._at("flames") and self._at("burning") and self._at("fogging"):
            is_lamp = {self.words[at] for at in self._at("flames")} & {"lamp", "bulb", "radiator", "match"}
            return None if is_lamp and not self._is_near_a_flame() else "flame"
        return None

    def _is_near_a_flame(self) -> bool:
        """Whether the lamp is spoken of as near: a grow light is a lamp too."""
        near = frozenset({"near", "next", "beside", "by", "under", "close", "hot", "lit", "around", "over"})
        return bool(near & frozenset(self.words)) and bool(
            {"fog", "fogged", "fogging", "oil", "lit", "mist", "alcohol", "hot"} & frozenset(self.words)
        )

    def _are_together(self, first: list[int], second: list[int]) -> bool:
        joints = {"and", "with", "plus", "to", "add", "mix", "together", "in", "into", "&", "+"}
        return any(
            one != other
            and joints & frozenset(between := self.words[min(one, other) : max(one, other)])
            and not frozenset({",", "then", *_BREAK}) & frozenset(between)
            for one in first
            for other in second
        ) or bool({"mix", "mixed", "mixing", "together", "combine"} & frozenset(self.words))

    def _is_called(self) -> bool:
        if any(self._holds(phrase) for phrase in _called()) or self._at("calls"):
            return True
        return any(not self._is_denied(at) and not self._is_of_a_plant(at) for at in self._at("symptoms"))

    def _is_swallowed(self) -> bool:
        for at in (*self._at("eating"), *self._at("swallowing")):
            if self._is_denied(at) or self._is_ahead(at) or not self._is_by_a_victim(at):
                continue
            if self._has_harmful_object(at):
                return True
        return False

    def _is_by_a_victim(self, at: int) -> bool:
        before = range(max(0, at - _NEAR), at)
        if any(self.words[one] in _BLAMELESS for one in before) and not self._named_victims():
            return False
        if any(self.classes[one] & {"people", "animals"} for one in before):
            return True
        if "by" in self.words[at : at + _CLOSE]:
            return any(self.classes[one] & {"people", "animals"} for one in self._after(at))
        is_bare = not frozenset(self.words) & _BLAMELESS and not self._is_of_a_plant(at)
        return is_bare and (bool(self._named_victims()) or at <= len(("oh", "no")))

    def _named_victims(self) -> list[int]:
        return [
            at
            for at, one in enumerate(self.classes)
            if "animals" in one or ("people" in one and len(self.words[at]) > len("them"))
        ]

    def _has_harmful_object(self, at: int) -> bool:
        said = frozenset(self.words)
        after = [self.classes[one] for one in self._after(at)]
        around = [one for place, one in enumerate(self.classes) if place != at]
        is_animal = bool(self._at("animals"))
        if "swallowing" in self.classes[at]:
            harm = {"substances", "treated"}
            if any("benign_drinks" in one for one in after) and not any(one & harm for one in around):
                return False
            return any(one & {"substances", "plant_parts", "plants_people_keep"} for one in around) or (
                self.words[at].startswith(("swallow", "ingest", "inhal"))
                or bool(said & _UNKNOWN & frozenset(self.words[at + 1 :]))
            )
        if any("foods" in one for one in after) and not is_animal and not self._at("small_people"):
            is_treated = any(one & {"treated", "substances"} for one in around)
            return is_treated and not frozenset({"dinner", "lunch", "supper", "pizza"}) & said
        harmful = {"substances", "plant_parts", "plants_people_keep", "treated", "foods"}
        if any(one & harmful for one in around):
            return True
        return is_animal or bool(self._at("small_people")) or bool(said & (_UNKNOWN - {"lot"}))

    def _is_on_a_body(self) -> bool:
        if self._asks_ahead():
            return False
        has_agent = any(
            self._at(kind) for kind in ("substances", "plant_parts", "treated", "plants_people_keep")
        )
        return any(
            self._is_in_the_head(at, has_agent=has_agent)
            if "parts_of_the_head" in one
            else self._is_on_the_skin(at, has_agent=has_agent)
            for at, one in enumerate(self.classes)
            if one & {"parts_of_the_head", "parts_of_the_body"} and not self._is_no_body(at)
        )

    def _is_in_the_head(self, at: int, *, has_agent: bool) -> bool:
        before = frozenset(self.words[max(0, at - _CLOSE) : at])
        landed = bool(self._at("landing"))
        is_in = bool(before & _INTO) and "out" not in before
        if (is_in and (has_agent or landed)) or self._is_hurt(at) or self._is_sprayed(at):
            return True
        is_rinsed = self.words[at].startswith("eye") and bool(
            frozenset(self.words) & (_WASHED | {"rinsed", "rinse"})
        )
        return self._is_somebodys(at) and (is_rinsed or (has_agent and landed))

    def _is_on_the_skin(self, at: int, *, has_agent: bool) -> bool:
        before = frozenset(self.words[max(0, at - _CLOSE) : at])
        is_own = self._is_somebodys(at)
        if self._is_sprayed(at) or ((is_own or self.words[at] == "skin") and self._is_hurt(at)):
            return True
        is_on = is_own and bool(before & _INTO) and has_agent and bool(self._at("landing"))
        return is_on and not frozenset(self.words) & _WASHED

    def _is_somebodys(self, at: int) -> bool:
        before = frozenset(self.words[max(0, at - _CLOSE) : at])
        return bool(before & _OWN or self._at("animals") or self._at("small_people"))

    def _is_sprayed(self, at: int) -> bool:
        """Whether it is what was hit: "sprayed my face"."""
        is_touched = any("landing" in self.classes[near] for near in range(max(0, at - 2), at))
        return is_touched and self.words[at - 1] in _OWN - {"the", "both", "one"}

    def _is_hurt(self, at: int) -> bool:
        near = range(max(0, at - _NEAR), min(len(self.words), at + _NEAR))
        if any(
            "signs_of_harm" in self.classes[one] and self.words[one] not in {"red", "water"} for one in near
        ):
            return True
        return self._is_somebodys(at) and "red" in self.words[max(0, at - 1) : at + _CLOSE + 1]

    def _is_no_body(self, at: int) -> bool:
        """Whether it is an eye kept on something, a window's face, a plant's foot."""
        if any(self._holds(phrase, near=at) for phrase in _NO_EYES):
            return True
        word = self.words[at]
        if any("plant" in one or one in {"fern", "palm", "scale"} for one in self.words[at + 1 : at + 2]):
            return True
        if frozenset(self.words[at + 1 : at + 4]) & {"plant", "fern", "ivy"} and "of" in self.words[at:]:
            return True
        return (
            word in {"faces", "facing", "handed", "hair", "handing"} and "my" not in self.words[:at][-_CLOSE:]
        )

    def _is_harmed(self) -> bool:
        said = frozenset(self.words)
        agents = {"substances", "treated", "plant_parts", "plants_people_keep"}
        for at in self._at("signs_of_harm"):
            if self._is_denied(at) or self._is_of_a_plant(at) or self._asks_ahead():
                continue
            before = frozenset(self.words[max(0, at - _CLOSE) : at])
            has_agent = any(one & agents for place, one in enumerate(self.classes) if place != at)
            is_ill = self.words[at] not in {
                "red",
                "burn",
                "burnt",
                "burned",
                "water",
                "watery",
                "weak",
                "raw",
            }
            if has_agent and is_ill and before & {"i", "me", "am", "we", "feel", "he", "she", "my", "got"}:
                return not said & {"tonight", "tomorrow"} or bool(said & {"spray", "fumes", "after", "since"})
            is_skin = self.words[at] in {"rash", "blister", "blisters", "hives"}
            if is_skin and any("people" in one for one in self.classes):
                return True
            if has_agent and is_ill and self._named_victims() and self._is_by_a_victim(at):
                return True
        return any(
            self._at("animals")
            and "signs_in_animals" in self.classes[at]
            and self._is_by_a_victim(at)
            and not self._is_denied(at)
            and not self._asks_ahead()
            for at in range(len(self.words))
        )

    def _has_met_an_animal(self) -> bool:
        victims = [*self._at("animals"), *self._at("small_people")]
        if not victims or self._asks_ahead():
            return False
        agents = {"substances", "treated"}
        for at in victims:
            before = range(max(0, at - _CLOSE), at)
            wet = [one for one in before if "landing" in self.classes[one] and not self._is_denied(one)]
            if any(
                self.words[one][:5] in {"spray", "sprit", "douse", "soake", "miste", "drenc"} for one in wet
            ):
                led = frozenset(self.words[wet[-1] + 1 : at])
                if led <= {"the", "my", "our", "a", "his", "her", "on", "over", "poor", "accidentally", "by"}:
                    return True
            has_agent = any(one & agents for one in self.classes)
            if wet and has_agent and _INTO & frozenset(self.words[wet[0] : at]):
                return True
            behind = self.words[at + 1 : at + 3]
            if behind[:1] in {("got",), ("was",)} and behind[1:] and "landing" in _known_classes(behind[1]):
                return True  # "the dog got sprayed"
            acts = [one for one in self._after(at)[:_CLOSE] if "getting_at" in self.classes[one]]
            has_reached = _INTO | {"of", "hold", "over"}
            for act in acts:
                led = frozenset(self.words[act + 1 : act + 1 + _CLOSE])
                if has_agent and led & has_reached and not self._is_denied(act):
                    return True
        return False

    def _is_ill_of_it(self) -> bool:
        """Whether harm is told beside a product and somebody, in whatever order."""
        if self._asks_ahead():
            return False
        has_agent = bool(self._at("substances") or self._at("treated"))
        harms = [
            at
            for at, one in enumerate(self.classes)
            if one & {"signs_of_harm", "signs_in_animals"}
            and self.words[at] not in _OF_PLANTS_TOO
            and not self._is_denied(at)
            and not self._is_of_a_plant(at)
        ]
        is_fumes = bool({"fumes", "gas", "smell", "vapour"} & frozenset(self.words)) and bool(harms)
        small = self._at("small_people")
        reached = has_agent and bool(small) and bool({"on", "over", "where", "from"} & frozenset(self.words))
        has_reached = reached and (
            bool(self._at("landing") or self._at("getting_at")) or self._holds(("all", "over"))
        )
        is_still = any(
            self._holds(("not", verb)) for verb in ("move", "wake", "eat", "stand", "moving", "eating")
        )
        if has_agent and is_still and self._at("animals") and not self._holds(("not", "eat", "the")):
            return True
        return (has_agent and bool(harms) and bool(self._at("animals") or small)) or is_fumes or has_reached

    def _is_ahead(self, at: int) -> bool:
        """Whether the verb is of what may happen: "can the cat eat it", "safe if she licks it"."""
        word = self.words[at]
        is_past = word.endswith(("ed", "ced")) or word in {"ate", "eaten", "drank", "drunk", "bit", "bitten"}
        is_going_on = word.endswith("ing") and bool(
            frozenset(self.words[max(0, at - _CLOSE) : at]) & {"is", "was", "been", "are", "keeps", "started"}
        )
        if is_past or is_going_on:
            return self.words[:2] == ("what", "if") and not is_past
        return self._asks_ahead() or self._holds(("so", "that")) or bool({"not"} & frozenset(self.words[:at]))

    def _asks_ahead(self) -> bool:
        """Whether it asks what may be, or speaks of care taken, and nothing has happened."""
        said = frozenset(self.words)
        if {"accidentally", "accident", "help", "just"} & said or self._holds(("what", "now")):
            return False
        opener = self.words[0] if self.words[0] != "is" or self.words[1:2] != ("there",) else ""
        ahead = {
            at
            for at in self._at("asking_ahead")
            if self.words[at] not in {"is", "are", "has", "do"} and self.words[at + 1 : at + 2] != ("not",)
        }
        asks = (
            "asking_ahead" in _known_classes(opener) or "?" in said or self.words[:1] in {("how",), ("when",)}
        )
        is_told = any(
            word in {"got", "ate", "drank", "licked", "swallowed", "splashed", "chewed", "went", "landed"}
            or word
            in {"burns", "burning", "stings", "stinging", "hurts", "eaten", "spilled", "spilt", "hurting"}
            for word in self.words
        )
        return bool(asks and not is_told) or bool(ahead and not is_told)

    def _is_denied(self, at: int) -> bool:
        before = self.words[max(0, at - 3) : at]
        return bool(frozenset(before) & _NOT) and not frozenset(before) & {"stop", "only", "help"}

    def _is_of_a_plant(self, at: int) -> bool:
        """Whether the nearest thing named before it is a plant, a leaf or a pest."""
        for one in range(at - 1, max(-1, at - _NEAR), -1):
            if self.words[one] in _BREAK:
                return False
            if self.classes[one] & {"people", "animals"} and self.words[one] not in {
                "my",
                "our",
                "his",
                "their",
            }:
                return False
            if self.words[one] in _BLAMELESS:
                return True
            if self.classes[one] & {"plants_people_keep", "plant_parts", "foods"}:
                return not self._named_victims()
        return False

    def _after(self, at: int) -> list[int]:
        """Give the places of the words behind, up to the end of the sentence."""
        end = next((n for n in range(at + 1, len(self.words)) if self.words[n] in _BREAK), len(self.words))
        return list(range(at + 1, min(end, at + 1 + 2 * _NEAR)))

    def _at(self, name: str) -> list[int]:
        return [at for at, one in enumerate(self.classes) if name in one]

    def _holds(self, phrase: tuple[str, ...], near: int | None = None) -> bool:
        size = len(phrase)
        starts = range(len(self.words) - size + 1)
        if near is not None:
            starts = range(max(0, near - size), min(len(self.words) - size, near) + 1)
        return any(self.words[at : at + size] == phrase for at in starts)
