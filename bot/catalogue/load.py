"""Read the catalogue: facts in TOML become the domain's own values, or one error lists all that is wrong."""

import functools
from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from bot.catalogue.table import CatalogueError, Source, Table, entries
from bot.domain.campaign import Basis, Effect, Effects, Evidence, Fight, Life
from bot.domain.general import cautious_side
from bot.domain.key import Creature, Key, KeyQuestion, Nature
from bot.domain.knowledge import Knowledge
from bot.domain.pest import Pest, Stage
from bot.domain.plant_kind import HABITS, PlantKind, either
from bot.domain.product import ProductKind
from bot.domain.trade import Grade, Level, Method
from bot.domain.value import Value, cached_property

_FOLDER = Path(__file__).parent
_SLACK_DAYS = 3
"""A window opens this long before its upper end, where nothing else is said. Judgement. [d]"""
_TRADE = Evidence(Basis.MEMORY, (), "common practice, no source")
_TRIPLE = 3  # what a contact treatment hits well, partly, not at all
_USUAL_SIGHT = {"glance": [0.10, 0.20, 0.35], "plain": [0.30, 0.50, 0.70], "lens": [0.50, 0.70, 0.85]}
_USUAL_SIGHT_NOTE = "a light case of 1 to 3 animals of visible size"


class Catalogue(Value, dict=True):
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

    @cached_property
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
    names = ("pests", "products", "plants", "key", "sources", "general")
    return read(**{name: (_FOLDER / f"{name}.toml").read_text("utf-8") for name in names})


def read(  # noqa: PLR0913 - one text a file
    *, pests: str, sources: str, products: str = "", plants: str = "", key: str = "", general: str = ""
) -> Catalogue:
    """Read a catalogue from its TOML texts; CatalogueError lists every problem of every entry."""
    problems: list[str] = []
    known = entries("sources", sources, problems, lambda name, table: table.read(Source, key=name))
    found = entries("pests", pests, problems, _pest, known)
    words = entries("general", general, problems, functools.partial(_general, pests=found))
    kinds = entries("products", products, problems, _product, known)
    grown = entries("plants", plants, problems, functools.partial(_plant, products=kinds), known)
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
    table.check("of names {}, which is not in pests.toml", of, pests)
    meant = [pests[one] for one in of if one in pests]
    shared = set.intersection(*(set(pest.words) for pest in meant)) if meant else set[str]()
    name, tell = table.text("name"), table.text("tell")
    return (cautious_side(key, name, tuple(sorted(shared)), meant) if meant else None), tell


def _stage(table: Table, dd: str, t0: float) -> Stage:
    return Stage(dd=table.number(dd), t0=t0)


def _pest(key: str, table: Table) -> Pest:
    limits, gap, protected, clock = (table.table(name) for name in ("limits", "gap", "protected", "clock"))
    usual = {**_USUAL_SIGHT, "basis": "judgement", "sources": [], "note": _USUAL_SIGHT_NOTE}
    sight = table.table("sight", usual)
    egg_t0, instar_t0 = clock.number("egg_t0"), clock.number("instar_t0")
    first, second, third = (Stage(dd=dd, t0=instar_t0) for dd in clock.numbers("instars"))
    well, partly, not_at_all = (*table.texts("reached"), "", "", "")[:_TRIPLE]
    pest = table.read(
        Pest,
        key=key,
        reached=(well, partly, not_at_all),
        t_low=limits.number("t_low"),
        t_high=limits.number("t_high"),
        gap=_stage(gap, "dd", gap.number("t0")),
        gap_f=gap.number("f"),
        gap_cap_days=gap.number("cap_days", int),
        gap_slack_days=gap.number("slack_days", int) if "slack_days" in gap.left else _SLACK_DAYS,
        gap_steps=_steps(gap),
        gap_evidence=gap.evidence(),
        protected=_stage(protected, "dd", protected.number("t0")),
        protected_safety=protected.number("safety"),
        protected_evidence=protected.evidence(),
        egg_lo=_stage(clock, "egg_lo", egg_t0),
        egg_hi=_stage(clock, "egg_hi", egg_t0),
        instars=(first, second, third),
        clock_evidence=clock.evidence(),
        sight=_sight(sight),
        sight_evidence=sight.evidence(),
        fight=_fight(table.table("fight")),
        effects=_effects(table.table("effects", {})),
    )
    limits.evidence()
    for part in (limits, gap, protected, clock, sight):
        part.finish()
    if not not_at_all:
        table.problem("reached must be three texts")
    if pest.egg_lo.dd > pest.egg_hi.dd:
        clock.problem("egg_lo is longer than egg_hi")
    for level in sorted(set(pest.looking.needed) - set(pest.sight), key=lambda one: one.value):
        sight.problem(f"says nothing of {level.value}, which counts")
    return pest


def _steps(table: Table) -> tuple[tuple[float, int, int], ...]:
    """Read fixed windows: up to a temperature [degC], first and last day."""
    rows = table.rows("steps") if "steps" in table.left else []
    found = [(row.number("to_c"), row.number("opens", int), row.number("closes", int)) for row in rows]
    for row in rows:
        row.finish()
    return tuple(found)


def _fight(table: Table) -> Fight:
    handwork = table.text("handwork")
    start = table.value("strong_from", Grade) if "strong_from" in table.left else None
    weeks = table.table("between_a_week", {})
    a_week = tuple((float(one), weeks.number(one, int, "between_a_week")) for one in list(weeks.left))
    return table.read(
        Fight,
        handwork=None if handwork == "none" else table.member("handwork", handwork, Method),
        handwork_word=table.text("handwork_word") if "handwork_word" in table.left else handwork,
        strong_from=start,
        strong_from_at_roots=table.value("strong_from_at_roots", Grade)
        if "strong_from_at_roots" in table.left
        else start,
        between_a_week=a_week,
        is_set_apart=not table.flag("stays"),
        is_discarded=not table.flag("never_discarded"),
        is_room_wide=table.flag("room_wide"),
    )


def _effects(table: Table) -> Mapping[str, Effects]:
    """Read what ingredients do, each a table of stages with its sources."""
    found = {}
    for ingredient in list(table.left):
        row = table.table(ingredient)
        on = {life: row.value(life.value, Effect) for life in Life if life.value in row.left}
        found[ingredient] = Effects(MappingProxyType(on), row.evidence())
        row.finish()
    return MappingProxyType(found)


def _sight(table: Table) -> Mapping[Level, tuple[float, float, float]]:
    told = (level for level in Level if level.value in table.left)
    usual = (Level.GLANCE, Level.PLAIN, Level.LENS)
    found = {level: table.numbers(level.value) for level in dict.fromkeys((*usual, *told))}
    # Lifting the pot shows the blind spot; what is above the soil is seen as in a plain check.
    return MappingProxyType({Level.ROOTS: found[Level.PLAIN], **found})


def _product(key: str, table: Table) -> ProductKind:
    methods = table.value("methods", tuple[Method, ...])
    apart = table.value("not_within_days_of", Mapping[str, int]) if "not_within_days_of" in table.left else {}
    name = table.text("name")
    kind = table.read(
        ProductKind,
        key=key,
        name=name,
        short=table.text("short") if "short" in table.left else name,
        methods=tuple(item for item in Method if item in methods),
        not_within_days_of=tuple(apart.items()),
    )
    if kind.mix is not None and kind.mix.rate_ml_per_l > kind.mix.most_ml_per_l:
        table.problem("rate_ml_per_l is above most_ml_per_l")
    return kind


def _plant(key: str, table: Table, products: Mapping[str, ProductKind]) -> PlantKind:
    evidence = table.evidence() if "basis" in table.left else _TRADE
    kind = table.read(PlantKind, key=key, evidence=evidence, one_of=())
    table.check("sensitive to {}, which is not in products.toml", sorted(kind.sensitive), products)
    table.check(f"habit must be one of {', '.join(HABITS)}, got '{{}}'", (kind.habit,), HABITS)
    return kind


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
    parts: dict[str, Mapping[str, Table]] = entries(
        "key", text, problems, lambda _, table: {name: table.table(name) for name in list(table.left)}, known
    )
    questions = {
        name: table.read(KeyQuestion, key=name) for name, table in parts.get("questions", {}).items()
    }
    creatures = {
        name: _creature(name, table, questions, pests) for name, table in parts.get("creatures", {}).items()
    }
    missing = set(pests) - set(creatures) if creatures else set()
    problems.extend(f"key: pest {name} is missing" for name in sorted(missing))
    problems.extend(f"key: unknown key {name}" for name in parts if name not in {"questions", "creatures"})
    return Key(MappingProxyType(questions), MappingProxyType(creatures))


def _creature(
    name: str, table: Table, questions: Mapping[str, KeyQuestion], pests: Mapping[str, Pest]
) -> Creature:
    nature = table.member("kind", table.text("kind"), Nature)
    if (nature is Nature.PEST) is not (name in pests):
        table.problem(f"kind {nature.value!r} does not fit")
    shown = pests[name].name if name in pests else table.text("name")
    creature = table.read(Creature, key=name, name=shown, nature=nature)
    for question, given in creature.answers.items():
        if question not in questions or not given <= set(questions[question].options):
            table.problem(f"{question} has no such answers: {', '.join(sorted(given))}")
    return creature
