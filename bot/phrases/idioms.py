"""
Manners of speaking put into the words that clauses are read by: "passed away", "had better be isolated".

Only tried on what is not understood as it was said. Each rewriting keeps the meaning, whole; none turns a
question, a wish or a denial into something told.
"""

import re

_DAYS = r"tomorrow|today|tonight|monday|tuesday|wednesday|thursday|friday|saturday|sunday"
_WITH_US = r"husband|wife|partner|boyfriend|girlfriend|flatmate|roommate"
_DID = r"sprayed|did|wiped|rinsed|washed|swabbed|repotted|checked"
_NAME = r"(?:[a-z]+ ){0,2}[a-z]+"
_SOUNDS = r"um+|uh+|er+m*|lol|rn|tbh|nvm|hurrah|goodness|wait|bloody|blasted|ever so|would you believe"
_ASIDES = r"silly me|there we are|as far as i can (?:see|tell)|if you do not mind|most unpleasant"
_WHILE = r"while i was at it|while (?:i|he|she|we) (?:was|were) (?:out|away)|as of (?:today|now)"
_ENDLESS = r"for the time being|from now on|until i say so|until further notice|for a while|for now"
_BUSY = r"watching|having|eating|cooking"
_THE_LAST = (
    r"what i (?:just )?(?:told|said|wrote)(?: you)?|(?:the|that|my) last(?: one| thing| message| entry)?"
)
_WE_MAKE = r"do|set|make|we will make|we will do|we make|i make|we (?:should|would) like to do|we want to do"
_AWAY = r"off|camping|hiking|skiing|sailing|in (?:the )?(?:vacation|holidays?)"
_BIN = r"garbage|trash|rubbish|bin"
_GOOD = r"(?:good |quick |thorough |gentle )?"
_BOTHERING = r"pinging|texting|messaging|bothering|reminding|writing to|writing"
_NUDGES = r"messages|reminders|nudges"
_APART_NO_MORE = (
    r"back among (?:its|it is|her|his) friends|again with the others|back together with the others"
)
_TABLE: tuple[tuple[str, str], ...] = (
    # what a telephone writes when it is spoken to
    (r"\bcomm?a\b", ","),
    (r"\bfull stop\b|\bperiod$", "."),
    (r"\bquestion mark\b", "?"),
    # said around the matter
    (rf"\b(?:{_SOUNDS}|{_ASIDES}|{_WHILE}|{_ENDLESS})\b", ""),
    (r", a bit (?:chilly|cold|warm|hot|cool)\b", ""),
    (r", sorry (?:about|for) [a-z ]{1,30}$|, my (?:back|arms?|hands?) [a-z ]{3,20}$", ""),
    (rf"^(?:just |i am |we are )?(?:{_BUSY}) [a-z ]{{2,30}}?, (?=do ask|ask|remind)", ""),
    (rf"\b(?:my|our) (?:{_WITH_US}) (?=(?:has |have )?(?:{_DID})\b(?! her| his| their))", "i "),
    # short for
    (r"\b(?:tmrw|tmr|tmw|tomoz|tmrow|tmmrw)\b", "tomorrow"),
    (r"\b(?:evrything|everthing|evryting)\b", "everything"),
    (r"\bcept\b", "except"),
    (r"\bwut\b", "what"),
    (r"\bgimme\b", "give me"),
    (r"\btheyre\b", "they are"),
    (r"\b2 do\b", "to do"),
    # take back, set right
    (rf"^(?:.{{0,30}}, )?(?:please )?(?:take back|undo|cancel|scratch) (?:{_THE_LAST})$", "undo"),
    (r"\bi wanted to say (?=(?:the )?[a-z]+$)", "i meant "),
    (r"^(?:no )?(?:sorry )?wrong plant i meant\b", "i meant"),
    (rf"\bi meant (?:the )?({_NAME}) , not (?:the )?({_NAME})$", r"i meant \1 not \2"),
    (rf"\bwhat is on (?:the )?({_NAME}) is ([a-z ]{{3,30}}?) ,? ?not\b", r"it is \2 on \1 not"),
    # habits
    (rf"^(?:please )?(?:{_WE_MAKE}) (?:the|our|my) checks? always (?:on )?", "check every "),
    (rf"^(?:please )?(?:{_WE_MAKE}) (?:the|our|my) checks?(?: for)?\b", "check"),
    # done
    (r"\bi have all made\b|\bi have made (?:it )?all\b|\ball is (?:made|finish)\b|^all made\b", "all done"),
    (r"\b(is|are) (?:made|finish)\b", r"\1 done"),
    (r"\bi have (?:also )?(?:now )?(?:made|done)(?= the | an? )", "i did"),
    (r"\b(?:managed|got through|got (?:a)?round to)(?= all| both| the| every)", "did"),
    (r"\bgot (them all|everything|both|it all) done\b", r"\1 done"),
    (r"\bdone without (?=the )", "done except "),
    # not done
    (r"\b(?:can not be bothered|cba|no energy)(?: tonight| today)?\b", "not tonight"),
    (r"\b(?:today|tonight) (?:is )?not possible\b", "not tonight"),
    (r"^(?:no )?i (?:still )?have not (?:started|begun|got(?:ten)? a?round to it)(?: yet)?$", "not yet"),
    (r"^(?:until now )?i had not the time$", "not yet"),
    # another evening
    (r"\b(?:let us |we |i )?put off (?:the )?", "postpone "),
    (r"\b(?:let us )?leave (?:it all|them all|everything) (?=until|till|for)", "postpone everything "),
    (rf"\b(?:i|we) (?:will |shall )?(?:do|make)(?: it| that)? (?=(?:on )?(?:{_DAYS})\b)", "later "),
    (r"\bi shall leave (?:the )?", "postpone "),
    (r"\bpostpone (.{1,40}?) (?:until|till|til|to) ", r"postpone \1 "),
    (r"\b(?:remind me (?:about|of)|do remind me|do ask me|ask me again)\b", "remind me"),
    (r"\bthree quarters of an hour\b", "45 minutes"),
    (r"\ba quarter of an hour\b", "15 minutes"),
    (r"^give me (?:another )?(?=\d+ (?:min|mins|minutes|hours?)\b)", "later in "),
    (rf"^((?:the )?{_NAME} (?:on )?(?:{_DAYS}|fri|sat|sun|mon|tue|wed|thu)) instead$", r"later \1"),
    # no nudges
    (rf"^(?:please )?do not send (?:me |us )?(?:any )?(?:more )?(?:{_NUDGES})(?: please)?$", "stop"),
    (rf"^(?:please )?stop (?:{_BOTHERING}) (?:me|us)$", "stop"),
    (rf"^(?:please )?make a (?:pause|break)(?: with the (?:{_NUDGES}))?$", "pause"),
    (rf"^(?:please )?pause (?:everything|all|(?:the |all )?(?:{_NUDGES}))$", "pause"),
    (rf"^(?:(?:we|i) (?:are|am|will be) )?(?:{_AWAY})(?: [a-z]+){{0,5}} (?:until|till|til) ", "away until "),
    # gone for good
    (r"\b(?:has |have )?passed away\b|\bdid not (?:make it|survive)\b|\bhas not made it\b", "has died"),
    (rf"\b(?:have )?(?:thrown|threw|put) (?:the )?({_NAME}) in(?:to)? the (?:{_BIN})\b", r"binned \1"),
    (r"\b(?:the )?poor (?=[a-z])", ""),
    # looks and work
    (r"\bcontrolled\b", "checked"),
    (r"\b(?:with|w) (?:my|our) (?:magnifying glass|loupe|lens|hand lens)\b", "with a lens"),
    (r"\b(?:every one|each one|each) of (?:our|my|the) plants\b|\bevery plant\b", "all plants"),
    (r"\b(?:spotless|perfectly clean|squeaky clean|pristine)\b", "clean"),
    (r"\bnot a single (?:bug|one|insect|pest)(?: seen)?\b", "no bugs"),
    (r"\b(?:it has|there were|there was|there is|there are|i counted)(?: now)?(?= \d+| [a-z]+ on )", "found"),
    (r"\bit stayed (?=\d)", "still "),
    (r"\bbeasts\b", "bugs"),
    (r"\btucked (?:away )?in\b", "in"),
    (rf"\bgave (?:the )?(.{{2,30}}?) an? {_GOOD}wipe\b", r"wiped \1"),
    (rf"\bgave (?:the )?(.{{2,30}}?) an? {_GOOD}spray\b", r"sprayed \1"),
    (rf"\bgave (?:the )?(.{{2,30}}?) an? {_GOOD}(?:rinse|wash|shower)\b", r"rinsed \1"),
    (r"\ball over (?=the |my |our |it)", "on "),
    (r"\bspider webs?\b", "webs"),
    (r"\b(?:feel|feels) (?:very |so |all )?sticky\b", "are sticky"),
    # warmth
    (r"^the thermometer (?:in|on|at) (?:the )?([a-z ]{2,30}?) (?:reads|says|shows|is at)\b", r"\1 is"),
    # apart and together
    (rf"^(?:i think )?(?:the )?({_NAME}) had better be isolated(?: , please| please)?$", r"isolate \1"),
    (rf"\b(?:{_APART_NO_MORE})\b", "back with the others"),
    (r"\bthrough to\b", "to"),
    # asked
    (r"^i was wondering (?=when|why|how|what|which)", ""),
    (r"^how come the (?:gap|wait|interval) is .{1,20}$", "why"),
    (r"\bhow come\b", "why"),
    (r"\bhow (?:are we|am i|do we stand) off for\b", "how much is left of"),
    (r"\bmay (?:rejoin|join|go again to) the others\b", "go back to the others"),
    (rf"^(?:the )?({_NAME}) getting (?:better|worse)(?: or (?:better|worse))?$", r"is \1 getting better ?"),
    (r"^anything to do(?: now| tonight)?$", "what is due"),
    (rf"^did (?:{_WITH_US}|mum|mom|dad) do (?:the )?", "did anybody do the "),
    (r"^(?:tell me )?what things i can say(?: to you)?$", "what can i say"),
    (r"^i do not (?:understand|know) how (?:i must|to|i) use you\b.*", "help"),
    (r"^what can you do$", "what can i say"),
    (r"^would you work out (.{3,60}?)(?: spray)?(?: for me)?$", r"mix \1"),
    (r"^mix (.{3,60}?) spray$", r"mix \1"),
    # plants that came
    (r"\badd a plant (?:called|named) ([a-z ]{2,30}?)(?: ,)? it is (?:in|on|at) (?:the )?", r"add \1 , "),
    (r"^new one : ", "new plant : "),
)
_COMPILED = tuple((re.compile(pattern), put) for pattern, put in _TABLE)
_SPACES = re.compile(r"\s+")
_STRAY = re.compile(r"^(?:[,.;:] ?)+|(?: ?[,;:])+$|(?<=[,;:]) [,;:]")


def in_usual_words(words: tuple[str, ...]) -> tuple[str, ...]:
    """Put manners of speaking into usual words; the same words where there are none."""
    said = " ".join(words)
    for pattern, put in _COMPILED:
        said = _STRAY.sub("", _SPACES.sub(" ", pattern.sub(put, said)).strip()).strip()
    return tuple(said.split(" ")) if said else words
