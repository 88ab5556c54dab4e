"""Who shares the plants, what is exported, what is erased."""

from bot.actions.ask import Ask, Topic
from bot.actions.erasing import Erasing
from bot.actions.export import Export, ExportKind
from bot.actions.forget import Forget
from bot.actions.share import HandOver, RemoveMember
from bot.phrases.asking import Meant
from bot.phrases.lexicon import any_of, each_of, listed, words_in
from bot.phrases.text import tidy, words_of

_MEMBERS = any_of(
    "members | who else | who are the members | list members | who shares | who shares the plants"
    " | who shares my plants | who is here | who else is here | who is in | who is in the household"
    " | who is in our household | who is in this household | who is in the group | who can see this"
)
_EXPORTS = each_of(
    ("export | export my data | export data | my data | download | download my data", None),
    ("calendar | calendar file | export calendar | export the calendar", ExportKind.CALENDAR),
    ("ics | ical | export ics | export ical", ExportKind.CALENDAR),
    ("csv | export csv | table | export table | spreadsheet | export spreadsheet", ExportKind.TABLE),
    ("excel | export as csv", ExportKind.TABLE),
    ("json | export json | export everything | export all | export as json", ExportKind.ALL),
)
_AROUND_A_FILE = listed("send me the a an as to my give i want can get please how do you for file you")
_FORGET = any_of("forget me | delete me | erase me | delete my account | erase my data | delete my data")
_FORGET_HOME = any_of(
    "erase this home | delete this home | erase everything | delete everything | erase the home"
    " | forget everything"
)
FORGET_SENTENCE = "forget me for good"
ERASE_SENTENCE = "erase this home for good"
_HOMES: tuple[str, ...] = (" from this home", " from the home", " from our home", " from home")
_HOMES += (" from the household", " from this household")
_TO_OTHERS = ("hand over to ", "hand the home over to ", "hand it over to ", "hand this home over to ")

SPOKEN = words_in((*_MEMBERS, *_EXPORTS, *_AROUND_A_FILE, *_HOMES, *_TO_OTHERS))
"""Words known here, that a slip may be a slip of."""


def read_sharing(text: str, words: tuple[str, ...]) -> Meant | None:
    """Read what is about members, files or erasing; names keep the case they are typed in."""
    said = " ".join(word for word in words if word not in {".", "!", "please", "?"})
    if said in _MEMBERS:
        return (Ask(topic=Topic.MEMBERS),)
    core = " ".join(word for word in said.split() if word not in _AROUND_A_FILE)
    if core in _EXPORTS and (said != core or "?" not in words):
        return (Export(_EXPORTS[core]),)
    if "?" in words:
        return None
    if said in _EXPORTS:
        return (Export(_EXPORTS[said]),)
    if said in _FORGET or said in _FORGET_HOME:
        return (Forget(Erasing.ME if said in _FORGET else Erasing.HOME),)
    if said == FORGET_SENTENCE:
        return (Forget(Erasing.ME, is_typed=True),)
    if said == ERASE_SENTENCE:
        return (Forget(Erasing.HOME, is_typed=True),)
    return _about_somebody(tidy(text).strip(" .!"))


def _about_somebody(typed: str) -> Meant | None:
    """Read "remove Bo from this home", "remove member Bo", "hand over to Bo", "make Bo the owner"."""
    lowered = typed.lower()
    for ending in _HOMES:
        if lowered.startswith("remove ") and lowered.endswith(ending):
            return _named(typed[len("remove ") : -len(ending)], RemoveMember)
    if lowered.startswith("remove member "):
        return _named(typed[len("remove member ") :], RemoveMember)
    for opening in _TO_OTHERS:
        if lowered.startswith(opening):
            return _named(typed[len(opening) :], HandOver)
    if lowered.startswith("make ") and lowered.endswith(" the owner"):
        return _named(typed[len("make ") : -len(" the owner")], HandOver)
    return None


def _named(name: str, meant: type[RemoveMember | HandOver]) -> Meant | None:
    name = name.strip()
    return (
        (meant(name),)
        if name and "\n" not in name and len(words_of(name)) <= len(("three", "word", "name"))
        else None
    )
