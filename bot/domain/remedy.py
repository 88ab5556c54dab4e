"""What a case is treated with next: the methods of an evening in their order, the products, and why."""

from collections.abc import Container, Sequence
from collections.abc import Set as AbstractSet
from datetime import date, timedelta
from enum import Enum

from bot.domain.campaign import Effect, Life
from bot.domain.household import Product
from bot.domain.knowledge import Knowledge
from bot.domain.outbreak import BY_HAND, Outbreak, allowed_on, once
from bot.domain.pest import Pest
from bot.domain.product import ProductKind
from bot.domain.refusal import Refusal, Use, does_good, is_edible, is_off_today, makes_worse, refusals
from bot.domain.trade import WORST_LAST, Grade, Method
from bot.domain.value import Value

STALL_DAYS = 14
"""
A round this long after the start or the last strong step takes the strong step, where living ones were seen
since and within as many days. Judgement, supported by a simulation with wide parameters. [d]
"""
FEW_SPRAYED = 2
"""Sprays that follow handwork alone where none was seen since. Judgement. [1]"""
AT_ROOTS_TWICE = 2
"""So many clean-outs a plant gets whatever is seen, where the pest may sit at its roots. Judgement. [1]"""
MOST_SOUGHT = 2
"""Kinds of product named at once. Judgement. [1]"""
CANNOT_WASH, CANNOT_WIPE, CANNOT_LIFT = "cannot-wash", "cannot-wipe", "cannot-lift"
"""Traits of a plant that bears no water, of one that bears no cloth either, of one that stays in its pot."""
_OF_A_DAY = frozenset({Refusal.TOO_HOT, Refusal.TOO_COLD})
_RANK = {Effect.GOOD: 0, Effect.SOME: 1, Effect.NONE: 2, Effect.WORSE: 3}


class Because(Enum):
    FEW = "few"
    FEW_STILL = "few-still"
    FEW_UNSEEN = "few-unseen"
    SOME = "some"
    MANY = "many"
    START = "start"
    STALL = "stall"
    STALL_HELD = "stall-held"
    NO_PRODUCT = "no-product"
    BETWEEN = "between"
    ROOTS = "roots"
    AT_ROOTS = "at-roots"
    DRY_FIRST = "dry-first"


class Act(Value):
    """One thing done to a plant: a method, and the product where it takes one."""

    method: Method
    product: Product | None = None


class Remedy(Value, kw_only=True):
    """What an evening does: acts that come before, the one that makes the round, and why."""

    before: tuple[Act, ...]
    main: Act | None
    """None where nothing at hand does any good: what kind of product to get is said instead."""
    because: Because
    is_hurried: bool = False
    """Whether the shortest gap is asked for."""


class Hard(Enum):
    """Why a case is hard to win: discarding, or a cooler place, is put plainly."""

    EXHAUSTED = "exhausted"
    WITHOUT_HELP = "without-help"
    TOO_WARM = "too-warm"


@once
def remedy(outbreak: Outbreak) -> Remedy:
    """
    Pick what is done next.

    Few by hand; after three such rounds two with a spray. Some: handwork and spray. Many, and pests
    that allow it from the first, begin with the strong step. Still alive after a fortnight: the strong step,
    or handwork and spray at the shortest gap. Common practice, no source; their order is a judgement that
    is supported by a simulation with wide parameters.
    """
    fight = outbreak.pest.fight
    strong = strong_days(outbreak)
    if is_stalled(outbreak):
        if may_be_strong(outbreak):
            return _strong(outbreak, Because.STALL)
        return _round(outbreak, Because.STALL_HELD)
    at_roots = fight.unpots and outbreak.is_root_prone and not outbreak.pest.rooted
    planned = AT_ROOTS_TWICE if at_roots else 1
    if len(strong) < planned and _starts_strong(outbreak) and may_be_strong(outbreak):
        is_early = at_roots and (bool(strong) or outbreak.case.worst is not Grade.MANY)
        many = Because.MANY if fight.strong_from is Grade.MANY else Because.START
        return _strong(outbreak, Because.AT_ROOTS if is_early else many)
    if outbreak.case.worst is Grade.FEW and fight.few_by_hand and fight.handwork is not None:
        return _by_hand(outbreak)
    return _round(outbreak, Because.ROOTS if outbreak.pest.drenched else Because.SOME)


@once
def strong_days(outbreak: Outbreak) -> list[date]:
    """Give the days of this case's strong steps: those of the method only a strong step has."""
    fight = outbreak.pest.fight
    marks = [method for method in fight.strong if method not in BY_HAND]
    return outbreak.days_of(marks[0]) if marks else []


def may_be_strong(outbreak: Outbreak) -> bool:
    """
    Whether a strong step is left that the plant bears, and the last one is long enough ago.

    Where it may sit at the roots one more is left, for no spray reaches it there. Judgement, supported by a
    simulation.
    """
    fight, done = outbreak.pest.fight, strong_days(outbreak)
    most = fight.strong_most + (fight.unpots and outbreak.is_root_prone)
    is_kept_in = Method.CLEAN_OUT in fight.strong and CANNOT_LIFT in outbreak.plant.traits
    if not fight.strong or len(done) >= most or is_kept_in:
        return False
    return not done or (outbreak.today - done[-1]).days >= fight.strong_apart_days


def is_stalled(outbreak: Outbreak) -> bool:
    """Whether living ones were seen lately, a fortnight and more after the start or the last strong step."""
    since = max([outbreak.case.opened_on, *strong_days(outbreak)])
    if (outbreak.today - since).days < STALL_DAYS:
        return False
    lately = outbreak.today - timedelta(days=STALL_DAYS)
    return any(find.on > since and find.on >= lately for find in outbreak.case.finds)


def handwork_of(outbreak: Outbreak) -> Method | None:
    """
    Give the handwork this plant bears against this pest, None where none does good or none is borne.

    Hair, bloom and spines are spoilt by water and cloth: a brush or sticky tape. What cannot be put under
    water is wiped with a damp cloth where it stands. Common practice, no source.
    """
    hand, traits = outbreak.pest.fight.handwork, outbreak.plant.traits
    if hand is None or CANNOT_WIPE in traits:
        return None
    if is_swabbed(outbreak):
        return Method.SWAB
    return Method.WIPE if CANNOT_WASH in traits else hand


def is_swabbed(outbreak: Outbreak) -> bool:
    """Whether its leaves bear neither water nor cloth: as told, else by the plant's kind."""
    traits, kind = outbreak.plant.traits, outbreak.kind
    if "hairy" in traits or "waxy" in traits:
        return True
    if kind is None or kind.is_washable:
        return False
    denied = ("not-hairy", kind.is_hairy), ("not-waxy", kind.has_bloom)
    return not any(trait in traits and holds for trait, holds in denied)


def _starts_strong(outbreak: Outbreak) -> bool:
    """Whether the first round takes the strong step: sooner where it may sit at the roots."""
    fight = outbreak.pest.fight
    from_grade = fight.strong_from_at_roots if outbreak.is_root_prone else fight.strong_from
    return from_grade is not None and WORST_LAST.index(outbreak.case.worst) >= WORST_LAST.index(from_grade)


def _strong(outbreak: Outbreak, because: Because) -> Remedy:
    """Take the strong step: a clean-out is the evening's work, washing and cutting go before the spray."""
    fight = outbreak.pest.fight
    if fight.unpots:
        first = [Act(method) for method in fight.start] if outbreak.last_on is None else []
        return Remedy(before=tuple(first), main=Act(Method.CLEAN_OUT), because=because)
    hand = handwork_of(outbreak)
    acts = [Act(method) for method in fight.strong if method not in BY_HAND]
    acts += [Act(hand)] if hand is not None else []
    found = _round(outbreak, because)
    if found.main is None or found.main.product is None:
        return Remedy(before=tuple(acts[:1]), main=found.main, because=found.because)
    return Remedy(before=tuple(acts), main=found.main, because=because)


def _by_hand(outbreak: Outbreak) -> Remedy:
    """
    Treat few by hand; after so many rounds a spray joins: twice, and for as long as living ones are seen.

    A hand takes what an eye sees, the spray the young that are too small for it, the second those that were
    eggs at the first. Judgement, supported by a simulation.
    """
    done, rounds = outbreak.round_days, outbreak.pest.fight.few_by_hand
    if len(done) >= rounds and any(find.on > done[rounds - 1] for find in outbreak.case.finds):
        return _round(outbreak, Because.FEW_STILL)
    if rounds <= len(done) < rounds + FEW_SPRAYED:
        return _round(outbreak, Because.FEW_UNSEEN)
    swab = choose_product(outbreak, Method.SWAB)
    if swab is not None and handwork_of(outbreak) is not None:
        return Remedy(before=(), main=Act(Method.SWAB, swab), because=Because.FEW)
    hand = handwork_of(outbreak)
    if hand is None:
        return _round(outbreak, Because.SOME)
    return Remedy(before=(), main=Act(hand), because=Because.FEW)


def _round(outbreak: Outbreak, because: Because) -> Remedy:
    """Give an ordinary round: what goes before it, then the product; handwork alone where nothing fits."""
    fight = outbreak.pest.fight
    hand = handwork_of(outbreak)
    first = [] if outbreak.last_on is not None else [Act(one) for one in fight.start if bears(outbreak, one)]
    product = choose_product(outbreak, fight.round_by)
    hurried = because is Because.STALL_HELD
    if product is None:
        if hand is not None:
            return Remedy(before=tuple(first), main=Act(hand), because=Because.NO_PRODUCT)
        dries = may_dry(outbreak) and not outbreak.days_of(Method.DRY)  # a habit from then on
        main = first[-1] if first else Act(Method.DRY) if dries else None
        return Remedy(before=tuple(first[:-1]), main=main, because=Because.NO_PRODUCT)
    before = [*first, *([Act(hand)] if hand is not None else []), *_with_round(outbreak, product)]
    main = Act(fight.round_by, product)
    return Remedy(before=tuple(before), main=main, because=because, is_hurried=hurried)


def _with_round(outbreak: Outbreak, round_product: Product) -> Sequence[Act]:
    """Give what goes with every round besides: what the plant bears, or shelf and label allow."""
    acts = []
    more = (Method.DRENCH,) if is_drenched_besides(outbreak) else ()
    for method in (*outbreak.pest.fight.with_round, *more):
        if not method.uses_product:
            acts += [Act(method)] if bears(outbreak, method) else []
            continue
        product = choose_product(outbreak, method)
        # one product put on leaves and mix would be two uses of its label
        is_twice = method in more and product is round_product
        allowed = allowed_on(outbreak.knowledge, outbreak.plant, product)
        if product is not None and not is_twice and (allowed is None or allowed <= outbreak.today):
            acts.append(Act(method, product))
    return acts


def is_drenched_besides(outbreak: Outbreak) -> bool:
    """Whether a drench goes with the round: alive after two clean-outs, it sits in the mix. Judgement."""
    strong = strong_days(outbreak)
    is_of_leaves = outbreak.pest.at_roots and not outbreak.pest.rooted
    return is_of_leaves and len(strong) > 1 and any(find.on > strong[1] for find in outbreak.case.finds)


def bears(outbreak: Outbreak, method: Method) -> bool:
    """Whether the plant bears a method that goes with the first round."""
    return method is not Method.DRY or may_dry(outbreak)


def may_dry(outbreak: Outbreak) -> bool:
    """Whether the top of the plant's mix is let dry against the pest: what must stay moist is not."""
    kind = outbreak.kind
    fight = outbreak.pest.fight
    return Method.DRY in (*fight.start, *fight.with_round) and (kind is None or not kind.needs_moist)


def choose_product(outbreak: Outbreak, method: Method) -> Product | None:
    """
    Pick from the shelf what the method can use and no rule forbids.

    By what it does to the young, the grown and the eggs, then by the shortest label.
    """
    return _best(outbreak, method, frozenset())


def label_to_read(outbreak: Outbreak) -> Product | None:
    """Give the product that would come first, if only its label were known to allow what is eaten."""
    if not is_edible(outbreak.knowledge, outbreak.plant):
        return None
    best = _best(outbreak, outbreak.pest.fight.round_by, frozenset({Refusal.EATING_UNTOLD}))
    return best if best is not None and _refused(outbreak, best) else None


def _best(outbreak: Outbreak, method: Method, let_pass: AbstractSet[Refusal]) -> Product | None:
    if not method.uses_product:
        return None
    fitting = [
        product
        for product in outbreak.household.products.values()
        if product.ingredient in outbreak.knowledge.products
        and method in outbreak.knowledge.products[product.ingredient].methods
        and _refused(outbreak, product) <= let_pass
    ]
    if len(fitting) == 1:
        return fitting[0]
    return min(fitting, key=lambda product: _rank(outbreak, product), default=None)


def _refused(outbreak: Outbreak, product: Product) -> frozenset[Refusal]:
    household, knowledge = outbreak.household, outbreak.knowledge
    use = Use(household, knowledge, outbreak.plant, product, outbreak.today, outbreak.pest)
    found = frozenset(refusals(use))
    return found - _OF_A_DAY if found & _OF_A_DAY and is_off_today(use) else found


def _rank(outbreak: Outbreak, product: Product) -> tuple[int, int, int, int, int]:
    young, adult, egg = (
        _RANK[effect_on(outbreak.pest, product.ingredient, life)]
        for life in (Life.YOUNG, Life.ADULT, Life.EGG)
    )
    return young, adult, egg, outbreak.label_days(product) or 0, product.id


def effect_on(pest: Pest, ingredient: str, life: Life) -> Effect:
    """Give what an ingredient does to a stage: as the table says, else some of what it reaches, no eggs."""
    known = pest.effects.get(ingredient)
    usual = Effect.NONE if life is Life.EGG else Effect.SOME
    return usual if known is None else known.on.get(life, usual)


def kinds_to_seek(
    knowledge: Knowledge,
    pest: str,
    *,
    by: Method | None = None,
    better_than: str | None = None,
    unfit: Container[str] = (),
) -> tuple[str, ...]:
    """
    Name at most two kinds of product that reach a pest indoors, the best and then the mildest first.

    What is drenched comes first where its label lets the next drench follow in time. None of those that do
    not fit, and beside an ingredient at hand only what does better, and is no harsher than need be.
    """
    known = knowledge.pests[pest]
    wanted = by or known.fight.round_by
    kinds = [
        kind
        for kind in knowledge.products.values()
        if does_good(known, kind)
        and not makes_worse(known, kind)
        and wanted in kind.methods
        and kind.is_for_indoors
        and kind.key not in unfit
        and (better_than is None or _does_better(known, kind, better_than))
    ]
    sought = known.fight.label_sought_days
    kinds.sort(
        key=lambda kind: (
            known.drenched and sought is not None and kind.gap_days > sought,
            _RANK[effect_on(known, kind.key, Life.YOUNG)],
            kind.group is not None,
            [_RANK[effect_on(known, kind.key, life)] for life in (Life.ADULT, Life.EGG)],
        )
    )
    return tuple(kind.name for kind in kinds[:MOST_SOUGHT])


def _does_better(pest: Pest, kind: ProductKind, other: str) -> bool:
    """
    Whether a kind is worth buying beside another: worse on no stage, and better on one.

    Eggs count where it kills them well, and for what acts on nerves (a group) only the young do. Judgement.
    """
    ranks = [
        (_RANK[effect_on(pest, kind.key, life)], _RANK[effect_on(pest, other, life)])
        for life in (Life.YOUNG, Life.ADULT, Life.EGG)
    ]
    reaches_eggs = effect_on(pest, kind.key, Life.EGG) is Effect.GOOD
    worth = ranks[: 1 if kind.group is not None else 3 if reaches_eggs else 2]
    return all(one <= its for one, its in ranks) and any(one < its for one, its in worth)


def why_hard(outbreak: Outbreak) -> Hard | None:
    """
    Say plainly what makes a case hard to win.

    No strong step is left though living ones were seen again; a plant bears no handwork and the label is too
    long for its pest, or none is at hand; it is so warm there that the pest outruns the rounds.
    """
    fight = outbreak.pest.fight
    if fight.strong and is_stalled(outbreak) and len(strong_days(outbreak)) >= fight.strong_most:
        return Hard.EXHAUSTED
    is_bare = fight.handwork is not None and handwork_of(outbreak) is None
    if fight.label_sought_days is not None and is_bare:
        found = remedy(outbreak).main
        days = None if found is None else outbreak.label_days(found.product)
        if days is None or days > fight.label_sought_days:
            return Hard.WITHOUT_HELP
    is_warm = fight.warm_from_c is not None and (outbreak.warm or 0) >= fight.warm_from_c
    return Hard.TOO_WARM if is_warm else None
