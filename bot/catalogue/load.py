"""Read the catalogue: facts in TOML become the domain's own values, or one error lists all that is wrong."""

import functools
import tomllib
from collections import defaultdict
from collections.abc import Mapping
from enum import Enum
from pathlib import Path
from types import MappingProxyType
from typing import Literal, TypeVar

from bot.catalogue.table import CatalogueError, Source, Table, entries, evidence_of, source_of
from bot.domain.campaign import Basis, Effect, Effects, Evidence, Fight, Least, Leaving, Life, Looking, Wait
from bot.domain.general import cautious_side
from bot.domain.key import Creature, Key, KeyQuestion, Nature
from bot.domain.knowledge import Knowledge
from bot.domain.pest import Mistaken, Pest, Stage
from bot.domain.plant_kind import HABITS, TRAITS, PlantKind, either
from bot.domain.product import MixDefault, ProductKind
from bot.domain.trade import Grade, Level, Method
from bot.domain.value import Value

_E = TypeVar("_E", bound=Enum)
_FOLDER = Path(__file__).parent
_SLACK_DAYS = 3
"""A window opens this long before its upper end, where nothing else is said. Judgement. [d]"""
_TRADE = Evidence(Basis.MEMORY, (), "common practice, no source")
_TRIPLE = 3  # what a contact treatment hits well, partly, not at all
_USUAL_SIGHT = {"glance": [0.10, 0.20, 0.35], "plain": [0.30, 0.50, 0.70], "lens": [0.50, 0.70, 0.85]}
_USUAL_SIGHT_NOTE = "a light case of 1 to 3 animals of visible size"


class Catalogue(Value):
    """All facts the bot ships with."""

    pests: Mapping[str, Pest]
    general: Mapping[str, Pest]
    """What a word for several pests stands for: the cautious side of each."""
    tell: Mapping[str, str]
    """What tells the pests of a general word apart."""
    products: Mapping[str, ProductKind]
    sources: Mapping[str, Source]
    kinds: Mapping[str, PlantKind]
    key: Key

    @property
    def knowledge(self) -> Knowledge:
        """What the rules need of it."""
        return Knowledge(
            {**self.pests, **self.general},
            self.products,
            kinds=self.kinds,
            key=self.key,
            kind_by_word=_by_word(self.kinds),
            tell=self.tell,
            cited={key: one.quoted for key, one in self.sources.items()},
        )


def _by_word(kinds: Mapping[str, PlantKind]) -> Mapping[str, PlantKind]:
    """Give each word its kind; a word that several bear stands for each of them."""
    shared: defaultdict[str, list[PlantKind]] = defaultdict(list)
    for kind in kinds.values():
        for word in kind.shared:
            shared[word].append(kind)
    own = {word: kind for kind in kinds.values() for word in kind.words}
    return own | {word: either(word, tuple(bearers)) for word, bearers in shared.items()}


@functools.cache
def load() -> Catalogue:
    """Give the shipped catalogue, read once."""
    return read(
        pests=(_FOLDER / "pests.toml").read_text("utf-8"),
        products=(_FOLDER / "products.toml").read_text("utf-8"),
        plants=(_FOLDER / "plants.toml").read_text("utf-8"),
        key=(_FOLDER / "key.toml").read_text("utf-8"),
        sources=(_FOLDER / "sources.toml").read_text("utf-8"),
        general=(_FOLDER / "general.toml").read_text("utf-8"),
    )


def read(  # noqa: PLR0913 - one text a file
    *, pests: str, sources: str, products: str = "", plants: str = "", key: str = "", general: str = ""
) -> Catalogue:
    """
    Read a catalogue from its TOML texts.

    Raises
    ------
    CatalogueError
        With every problem of every entry.
    """
    problems: list[str] = []
    known = entries("sources", sources, problems, source_of)
    found = entries("pests", pests, problems, functools.partial(_pest, known=known))
    words = entries("general", general, problems, functools.partial(_general, pests=found))
    kinds = entries("products", products, problems, functools.partial(_product, known=known))
    grown = entries("plants", plants, problems, functools.partial(_plant, known=known, products=kinds))
    _check_words(grown, problems)
    asked = _key(key, problems, known, found)
    for pest in found.values() if kinds else ():
        unknown = sorted(set(pest.effects) - set(kinds))
        problems.extend(f"pests.{pest.key}.effects: {one} is not in products.toml" for one in unknown)
    problems += _unknown_in_mistaken(found, grown)
    if problems:
        raise CatalogueError(tuple(problems))
    return Catalogue(
        pests=MappingProxyType(found),
        general=MappingProxyType({one.key: one for one, _ in words.values() if one is not None}),
        tell=MappingProxyType({name: tell for name, (_, tell) in words.items()}),
        products=MappingProxyType(kinds),
        sources=MappingProxyType(known),
        kinds=MappingProxyType(grown),
        key=asked,
    )


def _unknown_in_mistaken(pests: Mapping[str, Pest], kinds: Mapping[str, PlantKind]) -> list[str]:
    told = [(pest.key, pest.mistaken) for pest in pests.values() if pest.mistaken is not None]
    unknown = [(key, one) for key, each in told for one in sorted(set(each.pests) - set(pests))]
    if kinds:
        unknown += [(key, one) for key, each in told for one in sorted(each.kinds - set(kinds))]
    return [f"pests.{key}.mistaken names {one}, which no file has" for key, one in unknown]


def _general(key: str, table: Table, pests: Mapping[str, Pest]) -> tuple[Pest | None, str]:
    """Read a word that names several pests, and what tells them apart."""
    of = table.texts("of")
    for one in of:
        if one not in pests:
            table.problem(f"of names {one}, which is not in pests.toml")
    meant = [pests[one] for one in of if one in pests]
    shared = set.intersection(*(set(pest.words) for pest in meant)) if meant else set[str]()
    name, tell = table.text("name"), table.text("tell")
    return (cautious_side(key, name, tuple(sorted(shared)), meant) if meant else None), tell


def _stage(table: Table, dd: str, t0: str) -> Stage:
    return Stage(dd=table.number(dd, 0, 5000), t0=table.number(t0, -5, 20))


def _pest(key: str, table: Table, known: Mapping[str, Source]) -> Pest:
    limits, gap, protected, clock = (table.table(name) for name in ("limits", "gap", "protected", "clock"))
    usual = {**_USUAL_SIGHT, "basis": "judgement", "sources": [], "note": _USUAL_SIGHT_NOTE}
    sight = table.table("sight", usual)
    egg_t0, instar_t0 = clock.number("egg_t0", -5, 20), clock.number("instar_t0", -5, 20)
    instars = clock.numbers("instars", 1, 5000)
    pest = Pest(
        key=key,
        name=table.text("name"),
        latin=table.text("latin"),
        hides=table.text("hides"),
        spreads=table.text("spreads"),
        reached=_three(table, "reached"),
        words=table.texts("words"),
        t_low=limits.number("t_low", -5, 20),
        t_high=limits.number("t_high", 20, 45),
        gap=_stage(gap, "dd", "t0"),
        gap_f=gap.number("f", 0.1, 1),
        gap_cap_days=int(gap.number("cap_days", 1, 60)),
        gap_slack_days=int(gap.number("slack_days", 0, 30)) if "slack_days" in gap.left else _SLACK_DAYS,
        gap_steps=_steps(gap),
        gap_evidence=evidence_of(gap, known),
        protected=_stage(protected, "dd", "t0"),
        protected_safety=protected.number("safety", 1, 3),
        protected_evidence=evidence_of(protected, known),
        egg_lo=Stage(dd=clock.number("egg_lo", 0, 5000), t0=egg_t0),
        egg_hi=Stage(dd=clock.number("egg_hi", 0, 5000), t0=egg_t0),
        instars=(
            Stage(dd=instars[0], t0=instar_t0),
            Stage(dd=instars[1], t0=instar_t0),
            Stage(dd=instars[2], t0=instar_t0),
        ),
        clock_evidence=evidence_of(clock, known),
        sight=_sight(sight),
        sight_evidence=evidence_of(sight, known),
        at_roots=table.flag("at_roots"),
        mistaken=_mistaken(table.table("mistaken"), known) if "mistaken" in table.left else None,
        of=table.texts("of") if "of" in table.left else (),
        fight=_fight(table.table("fight"), known),
        least=_least(table.table("least"), known),
        looking=_looking(table.table("looking"), known),
        leaving=_leaving(table.table("leaving"), known),
        effects=_effects(table.table("effects", {}), known),
    )
    evidence_of(limits, known)
    for part in (limits, gap, protected, clock, sight):
        part.finish()
    if pest.egg_lo.dd > pest.egg_hi.dd:
        clock.problem("egg_lo is longer than egg_hi")
    for level in sorted(set(pest.looking.needed) - set(pest.sight), key=lambda one: one.value):
        sight.problem(f"says nothing of {level.value}, which counts")
    return pest


def _mistaken(table: Table, known: Mapping[str, Source]) -> Mistaken:
    return Mistaken(
        pests=table.texts("pests"),
        kinds=frozenset(table.texts("kinds")),
        habits=frozenset(table.texts("habits")),
        tell=table.text("tell"),
        evidence=evidence_of(table, known),
    )


def _steps(table: Table) -> tuple[tuple[float, int, int], ...]:
    """Read fixed windows: up to a temperature [degC], first and last day."""
    rows = table.left.pop("steps", [])
    items = rows if isinstance(rows, list) else []
    found = []
    for index, row in enumerate(items):
        one = Table(f"{table.where}.steps[{index}]", row, table.problems)
        found.append(
            (one.number("to_c", -5, 60), int(one.number("opens", 1, 60)), int(one.number("closes", 1, 90)))
        )
        one.finish()
    return tuple(found)


def _methods(table: Table, key: str) -> tuple[Method, ...]:
    return tuple(_member(table, key, Method, text) for text in table.texts(key)) if key in table.left else ()


def _member(table: Table, key: str, kind: type[_E], text: str) -> _E:
    for one in kind:
        if one.value == text:
            return one
    table.problem(f"{key} must be one of {', '.join(str(one.value) for one in kind)}, got {text!r}")
    return next(iter(kind))


def _wait(table: Table, key: str) -> Wait | None:
    """Read days to wait, None where the key is left out: so many times the clock, or three figures."""
    if key not in table.left:
        return None
    one = table.table(key)
    if "days" in one.left:
        found = Wait(days=one.numbers("days", 1, 1000))
    else:
        clock = one.text("clock")
        if clock not in {"h1", "h2", "h3"}:
            one.problem(f"clock must be h1, h2 or h3, got {clock!r}")
        end: Literal["h1", "h2", "h3"] = "h1" if clock == "h1" else "h2" if clock == "h2" else "h3"
        found = Wait(clock=end, times=one.number("times", 0.1, 5) if "times" in one.left else 1.0)
    one.finish()
    return found


def _fight(table: Table, known: Mapping[str, Source]) -> Fight:
    handwork = table.text("handwork")
    start = table.text("strong_from") if "strong_from" in table.left else ""
    at_roots = table.text("strong_from_at_roots") if "strong_from_at_roots" in table.left else start
    weeks = table.table("between_a_week", {})
    fight = Fight(
        round_by=_member(table, "round_by", Method, table.text("round_by")),
        handwork=None if handwork == "none" else _member(table, "handwork", Method, handwork),
        handwork_word=table.text("handwork_word") if "handwork_word" in table.left else handwork,
        with_round=_methods(table, "with_round"),
        start=_methods(table, "start"),
        few_by_hand=table.whole("few_by_hand", 0, 20) or 0,
        strong=_methods(table, "strong"),
        strong_from=_member(table, "strong_from", Grade, start) if start else None,
        strong_from_at_roots=_member(table, "strong_from_at_roots", Grade, at_roots) if at_roots else None,
        strong_most=table.whole("strong_most", 0, 20) or 0,
        strong_apart_days=table.whole("strong_apart_days", 0, 365) or 0,
        label_sought_days=table.whole("label_sought_days", 1, 60),
        warm_from_c=table.number("warm_from_c", 0, 45) if "warm_from_c" in table.left else None,
        between_least=table.whole("between_least", 0, 10) or 0,
        between_a_week=tuple(
            (float(degrees), int(weeks.number(degrees, 0, 7))) for degrees in list(weeks.left)
        ),
        is_set_apart=not table.flag("stays"),
        is_discarded=not table.flag("never_discarded"),
        is_room_wide=table.flag("room_wide"),
        flies=table.flag("flies"),
        shares_clock=table.flag("shares_clock"),
        evidence=evidence_of(table, known),
    )
    weeks.finish()
    table.finish()
    return fight


def _least(table: Table, known: Mapping[str, Source]) -> Least:
    least = Least(
        rounds=table.whole("rounds", 1, 40),
        nematodes=table.whole("nematodes", 1, 10) or 1,
        after_find=int(table.number("after_find", 0, 40)),
        clean_looks=int(table.number("clean_looks", 0, 40)),
        since_find=_wait(table, "since_find"),
        since_start=_wait(table, "since_start"),
        evidence=evidence_of(table, known),
    )
    table.finish()
    return least


def _looking(table: Table, known: Mapping[str, Source]) -> Looking:
    needed = table.table("needed")
    looking = Looking(
        needed=MappingProxyType(
            {_member(needed, way, Level, way): int(needed.number(way, 1, 40)) for way in list(needed.left)}
        ),
        apart_days=int(table.number("apart_days", 1, 60)),
        late=table.whole("late", 0, 10) or 0,
        first_after_unpotting_days=table.whole("first_after_unpotting_days", 0, 90) or 0,
        has_chance=table.flag("has_chance"),
        ask=_member(table, "ask", Level, table.text("ask")),
        also=_member(table, "also", Level, table.text("also")) if "also" in table.left else None,
        where=table.text("where"),
        evidence=evidence_of(table, known),
    )
    needed.finish()
    table.finish()
    return looking


def _leaving(table: Table, known: Mapping[str, Source]) -> Leaving:
    since = _wait(table, "since_find")
    if since is None:
        table.problem("since_find is missing")
    leaving = Leaving(
        since_find=since or Wait(clock="h3"),
        contact_free=_wait(table, "contact_free"),
        contact_free_strict=_wait(table, "contact_free_strict"),
        clock_most_c=table.number("clock_most_c", 15, 45) if "clock_most_c" in table.left else None,
        evidence=evidence_of(table, known),
    )
    table.finish()
    return leaving


def _effects(table: Table, known: Mapping[str, Source]) -> Mapping[str, Effects]:
    """Read what ingredients do, each a table of stages with its sources."""
    found = {}
    for ingredient in list(table.left):
        row = table.table(ingredient)
        on = {
            life: _member(row, life.value, Effect, row.text(life.value))
            for life in Life
            if life.value in row.left
        }
        found[ingredient] = Effects(MappingProxyType(on), evidence_of(row, known))
        row.finish()
    return MappingProxyType(found)


def _three(table: Table, key: str) -> tuple[str, str, str]:
    texts = table.texts(key)
    if len(texts) != _TRIPLE:
        table.problem(f"{key} must be three texts, got {len(texts)}")
        return "", "", ""
    return texts[0], texts[1], texts[2]


def _sight(table: Table) -> Mapping[Level, tuple[float, float, float]]:
    told = (level for level in Level if level.value in table.left)
    usual = (Level.GLANCE, Level.PLAIN, Level.LENS)
    found = {level: table.numbers(level.value, 0, 1) for level in dict.fromkeys((*usual, *told))}
    # Lifting the pot shows the blind spot; what is above the soil is seen as in a plain check.
    return MappingProxyType({Level.ROOTS: found[Level.PLAIN], **found})


def _product(key: str, table: Table, known: Mapping[str, Source]) -> ProductKind:
    methods = table.texts("methods")
    for method in methods:
        if method not in {item.value for item in Method}:
            table.problem(f"method {method} is unknown")
    apart = table.table("not_within_days_of", {})
    name = table.text("name")
    kind = ProductKind(
        key=key,
        name=name,
        short=table.text("short") if "short" in table.left else name,
        words=table.texts("words"),
        methods=tuple(item for item in Method if item.value in methods),
        gap_days=int(table.number("gap_days", 1, 365)),
        uses_a_year=table.whole("uses_a_year", 1, 60),
        harvest_days=table.whole("harvest_days", 0, 365),
        is_for_indoors=table.flag("is_for_indoors"),
        coldest=table.number("coldest", -5, 20),
        hottest=table.number("hottest", 20, 45),
        group=table.text("group") if "group" in table.left else None,
        harms_cats_and_fish=table.flag("harms_cats_and_fish"),
        harms_bees=table.flag("harms_bees"),
        not_within_days_of=tuple((other, int(apart.number(other, 1, 365))) for other in list(apart.left)),
        needs_shade=table.flag("needs_shade"),
        mix=_mix(table.table("mix"), known) if "mix" in table.left else None,
        caution=table.text("caution"),
        evidence=evidence_of(table, known),
    )
    apart.finish()
    return kind


def _plant(
    key: str, table: Table, known: Mapping[str, Source], products: Mapping[str, ProductKind]
) -> PlantKind:
    sensitive = table.texts("sensitive") if "sensitive" in table.left else ()
    for product in sensitive:
        if product not in products:
            table.problem(f"sensitive to {product}, which is not in products.toml")
    habit = table.text("habit")
    if habit not in HABITS:
        table.problem(f"habit must be one of {', '.join(HABITS)}, got {habit!r}")
    return PlantKind(
        key=key,
        name=table.text("name"),
        words=table.texts("words"),
        shared=table.texts("shared") if "shared" in table.left else (),
        habit=habit,
        **{trait: table.flag(trait) for trait in TRAITS},
        sensitive=frozenset(sensitive),
        evidence=evidence_of(table, known) if "basis" in table.left else _TRADE,
        one_of=(),
    )


def _check_words(kinds: Mapping[str, PlantKind], problems: list[str]) -> None:
    """Name the words of two kinds that are not marked as shared, and the shared ones that nobody shares."""
    own: dict[str, str] = {}
    for key, kind in kinds.items():
        for word in kind.words:
            if word in own:
                problems.append(f"plants.{key}: word {word} is {own[word]}'s too, mark it shared in both")
            own[word] = key
    bearers = [word for kind in kinds.values() for word in kind.shared]
    problems.extend(
        f"plants: shared word {word} must be shared by two kinds, and nobody's own"
        for word in dict.fromkeys(bearers)
        if word in own or bearers.count(word) == 1
    )


def _key(text: str, problems: list[str], known: Mapping[str, Source], pests: Mapping[str, Pest]) -> Key:
    """Read the identification key; its creatures of kind pest are those of pests.toml."""
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as broken:
        problems.append(f"key: {broken}")
        return Key({}, {})
    whole = Table("key", content, problems)
    questions = {
        name: _question(name, body, problems) for name, body in _tables(whole.left.pop("questions", {}))
    }
    creatures = {
        name: _creature(name, Table(f"key.creatures.{name}", body, problems), questions, known, pests)
        for name, body in _tables(whole.left.pop("creatures", {}))
    }
    whole.finish()
    missing = set(pests) - set(creatures) if creatures else set()
    problems.extend(f"key: pest {name} is missing" for name in sorted(missing))
    return Key(MappingProxyType(questions), MappingProxyType(creatures))


def _tables(value: object) -> list[tuple[str, object]]:
    return list(value.items()) if isinstance(value, dict) else []


def _question(name: str, body: object, problems: list[str]) -> KeyQuestion:
    table = Table(f"key.questions.{name}", body, problems)
    options = table.table("options")
    when = table.table("when", {})
    found = KeyQuestion(
        name,
        table.text("text"),
        {option: options.text(option) for option in list(options.left)},
        {question: frozenset(when.texts(question)) for question in list(when.left)},
    )
    table.finish()
    return found


def _creature(
    name: str,
    table: Table,
    questions: Mapping[str, KeyQuestion],
    known: Mapping[str, Source],
    pests: Mapping[str, Pest],
) -> Creature:
    nature = table.text("kind")
    if nature not in {item.value for item in Nature} or (nature == Nature.PEST.value) is not (name in pests):
        table.problem(f"kind {nature!r} does not fit")
        nature = Nature.OTHER.value
    answers = table.table("answers")
    fitting = {}
    for question in list(answers.left):
        given = answers.texts(question)
        if question not in questions or not set(given) <= set(questions[question].options):
            answers.problem(f"{question} has no such answers: {', '.join(given)}")
        fitting[question] = frozenset(given)
    creature = Creature(
        key=name,
        name=pests[name].name if name in pests else table.text("name"),
        nature=Nature(nature),
        tell=table.text("tell"),
        answers=fitting,
        evidence=evidence_of(table, known),
    )
    table.finish()
    return creature


def _mix(table: Table, known: Mapping[str, Source]) -> MixDefault:
    mix = MixDefault(
        rate_ml_per_l=table.exact("rate_ml_per_l", 0, 1000),
        most_ml_per_l=table.exact("most_ml_per_l", 0, 1000),
        strength_percent=table.exact("strength_percent", 0, 100),
        needs_emulsifier=table.flag("needs_emulsifier"),
        keeps_hours=int(table.number("keeps_hours", 1, 24 * 30)),
        evidence=evidence_of(table, known),
    )
    if mix.rate_ml_per_l > mix.most_ml_per_l:
        table.problem("rate_ml_per_l is above most_ml_per_l")
    table.finish()
    return mix
