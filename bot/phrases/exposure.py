"""Somebody got some of it: recognised before everything else, rather once too often."""

from bot.phrases.words import listed

_PEOPLE = listed("my his her our their me him baby child kid toddler son daughter")
_BODY = listed("eye eyes mouth skin face lungs throat nose lips tongue hand hands lung ear")
_ANIMALS = listed(
    "cat cats kitten kittens dog dogs puppy pup hamster rabbit bird parrot budgie "
    "tortoise fish pet pets child kid kids baby toddler son daughter boy girl grandson "
    "granddaughter guinea lizard gecko ferret horse children"
)
_TAKEN = listed(
    "lapped laps licked lick licking licks ate eaten eat eating drank drunk drink drinking chewed "
    "chewing swallowed swallow nibbled inhaled breathed bit bitten sprayed soaked sick "
    "vomiting vomited tasted licekd likced got threw"
)
_SUBSTANCES = listed(
    "bleach alcohol isopropyl soap neem oil spray pesticide insecticide pyrethrin "
    "pyrethrum chemical chemicals fumes mist concentrate sap solution mixture peroxide "
    "sulphur sulfur poison stuff"
)
_SYMPTOMS = listed(
    "dizzy nauseous nausea vomiting vomited faint fainted fainting poisoned poisoning "
    "swallowed choking wheezing unconscious collapsed suffocating lightheaded convulsions "
    "seizure"
)
_HURT = listed(
    "burn burns burning burnt sting stings stinging stung itchy itching hurts hurt red rash blister"
)
_ON_SELF = listed("i we he she me somebody someone child kid baby")
_ASKING = listed("can may could when is should")
_NEARING = listed("near go in back touch room stay play by around")
_PHRASES = (
    ("can", "not", "breathe"),
    ("hard", "to", "breathe"),
    ("trouble", "breathing"),
    ("difficulty", "breathing"),
    ("short", "of", "breath"),
    ("threw", "up"),
    ("feel", "sick"),
    ("feeling", "sick"),
    ("feels", "sick"),
    ("breathed", "in"),
    ("in", "my", "eye"),
    ("in", "my", "eyes"),
    ("light", "headed"),
    ("poison", "control"),
    ("poison", "centre"),
    ("poison", "center"),
)


def is_exposure(words: tuple[str, ...]) -> bool:
    """Whether the message tells of a person or an animal that got, ate or breathed something."""
    said = frozenset(words)
    if said & _SYMPTOMS or any(phrase[0] in said and _holds(words, phrase) for phrase in _PHRASES):
        return True
    if said & _BODY and said & _PEOPLE and said & (_SUBSTANCES | _HURT):
        return True
    if {"eye", "eyes"} & said and said & (_HURT | {"bleach", "alcohol", "rinsed", "rinse", "washed"}):
        return True
    if said & _ANIMALS and said & _TAKEN and not _asks_ahead(words):
        return _animal_acts(words)
    return bool(said & _ON_SELF and said & {"inhaled", "drank", "swallowed"}) or _is_burnt(said)


def _asks_ahead(words: tuple[str, ...]) -> bool:
    """Whether it asks what an animal may do near a treated plant: "can the cat go near the sprayed ivy"."""
    said = frozenset(words)
    return words[0] in _ASKING and said & _TAKEN == {"sprayed"} and bool(said & _NEARING)


def _animal_acts(words: tuple[str, ...]) -> bool:
    """Whether the animal is the one that acts, as in "the cat licked it", not part of a plant's name."""
    animal = min(at for at, word in enumerate(words) if word in _ANIMALS)
    acts = [at for at, word in enumerate(words) if word in _TAKEN - {"sprayed", "got", "soaked", "threw"}]
    if any(at > animal for at in acts):
        return True
    return bool(frozenset(words) & _SUBSTANCES) or (animal > 0 and words[animal - 1] in {"the", "my", "our"})


def _is_burnt(said: frozenset[str]) -> bool:
    return bool(said & {"rash", "blister", "blisters"} and said & _PEOPLE)


def _holds(words: tuple[str, ...], phrase: tuple[str, ...]) -> bool:
    return any(words[at : at + len(phrase)] == phrase for at in range(len(words) - len(phrase) + 1))
