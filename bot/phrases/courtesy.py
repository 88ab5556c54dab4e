"""What people say around the matter: "hi, could you please ...", "phew", "..., have a nice evening"."""

from bot.phrases.lexicon import listed

_MARKS = listed(", . ! ; : -")
_OPENINGS = tuple(
    tuple(one.split())
    for one in (
        *("hi", "hello", "hey", "hi there", "hello there", "good evening", "good morning", "good afternoon"),
        *("quick question", "one question", "a question", "question", "good news", "great news", "bad news"),
        *(
            "by the way",
            "btw",
            "fyi",
            "just so you know",
            "oops",
            "whoops",
            "phew",
            "ah",
            "aha",
            "so",
            "well",
        ),
        *("hmm", "hm", "oh", "oh dear", "oh my", "okay so", "ok so", "okay", "ok", "right", "right then"),
        *("sadly", "unfortunately", "luckily", "thankfully", "yay", "hurray", "hooray", "ugh", "sorry"),
        *(
            "i forgot to tell you",
            "i forgot to say",
            "forgot to tell you",
            "forgot to say",
            "forgot to mention",
        ),
        *(
            "i forgot to mention",
            "i am afraid",
            "i have to say",
            "and",
            "but",
            "dear",
            "please",
            "do you think",
        ),
        *("you are a treasure", "you are a star", "you are a gem", "you are an angel", "you are a legend"),
        *("i am sorry to say that", "i am sorry to say", "i beg your pardon", "i beg your pardon , but"),
        *("i can tell you", "let me tell you", "i wanted to tell you", "i wanted to say", "just to say"),
        *(
            "i would like to know",
            "i want to know",
            "do you know",
            "please tell me",
            "can i ask",
            "may i ask",
        ),
    )
)
_ENDINGS = tuple(
    tuple(one.split())
    for one in (
        *(
            "sorry",
            "so sorry",
            "promise",
            "i promise",
            "i am afraid",
            "yay",
            "ugh",
            "phew",
            "please",
            "thanks",
        ),
        *("thank you", "have a nice evening", "have a lovely evening", "have a good evening", "cheers"),
        *("have a good night", "have a nice day", "have a good one", "see you then", "see you", "good night"),
        *(
            "bye",
            "so happy",
            "i am so happy",
            "i am happy",
            "dear",
            "as you said",
            "as planned",
            "as promised",
        ),
        *("if you can", "if you could", "if possible", "if that is ok", "you are the best", "you are great"),
        *("ok", "okay", "right", "haha", "lol", "too tired", "i think that is all", "that is all"),
    )
)
_OPENINGS, _ENDINGS = (tuple(sorted(one, key=len, reverse=True)) for one in (_OPENINGS, _ENDINGS))
_REQUESTS = tuple(
    (modal, "you", *more)
    for modal in ("could", "can", "would", "will")
    for more in (("please",), ("kindly",), ())
)
_DOING = listed(
    "isolate quarantine remind postpone snooze delay push move put add undo stop skip delete remove release"
    " record note write log mark take cancel"
)
_TELLING = listed("tell show give list explain mix make say help check what which when")


def without_courtesy(words: tuple[str, ...]) -> tuple[str, ...]:
    """Leave out what is said around the matter, and the polite words before what is to be told."""
    kept = _stripped(words)
    asked = _requested(kept)
    if asked[:1] and asked[0] in _TELLING:
        return _stripped(asked[2:] if asked[:2] == ("tell", "me") else asked)
    if asked[:1] and asked[0] in _DOING and "?" not in asked:
        return _stripped(asked)
    return kept


def deed_requested(words: tuple[str, ...]) -> tuple[str, ...] | None:
    """Give the deed of "could you please isolate the ivy?": yet it is a question, so it is only offered."""
    asked = _requested(_stripped(words))
    if not (asked[:1] and asked[0] in _DOING and asked[-1] == "?"):
        return None
    return _stripped(asked[:-1])


def _requested(words: tuple[str, ...]) -> tuple[str, ...]:
    request = next((one for one in _REQUESTS if words[: len(one)] == one), None)
    return () if request is None else words[len(request) :]


def _stripped(words: tuple[str, ...]) -> tuple[str, ...]:
    """Take openings and endings off, as many as there are."""
    kept = _without_ending(_without_opening(words))
    return kept if kept == words else _stripped(kept)


def _without_opening(words: tuple[str, ...]) -> tuple[str, ...]:
    for opening in _OPENINGS:
        if words[: len(opening)] == opening and len(words) > len(opening):
            rest = words[len(opening) :]
            while rest[:1] and rest[0] in _MARKS:
                rest = rest[1:]
            return rest or words
    return words


def _without_ending(words: tuple[str, ...]) -> tuple[str, ...]:
    question = words[-1:] if words[-1:] == ("?",) else ()
    core = words[: len(words) - len(question)]
    while core and core[-1] in _MARKS:
        core = core[:-1]
    for ending in _ENDINGS:
        if core[-len(ending) :] == ending and len(core) > len(ending):
            core = core[: -len(ending)]
            while core and core[-1] in _MARKS:
                core = core[:-1]
            return (*core, *question) if core else words
    return (*core, *question) if core else words
