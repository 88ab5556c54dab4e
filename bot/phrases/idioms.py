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
_SOUNDS = (
    r"um+|uh+|er+m*|lol|rn|tbh|nvm|hurrah|goodness|ever so|would you believe|wo+|even|idk|bro|mate"
    r"|bloody|blasted|damn|damned|wretched|horrid things|horrid|af|ffs|wtf|crap|shit|exactly|finally|at all"
)
_ASIDES = (
    r"if you would|i am glad to say|forgot to say|for this evening|under the tap|silly me|there we are"
    r"|as far as i can (?:see|tell)|if you do not mind|most unpleasant"
)
_WHILE = r"while i was at it|while (?:i|he|she|we) (?:was|were) (?:out|away)|as of (?:today|now)"
_ENDLESS = r"for the time being|from now on|until i say so|until further notice|for a while|for now"
_BUSY = r"watching|having|eating|cooking"
_THE_LAST = (
    r"what i (?:just )?(?:told|said|wrote)(?: you)?|(?:the|that|my) last(?: one| thing| message| entry)?"
)
_WE_MAKE = (
    r"schedule|do|set|make|we will make|we will do|we make|i make|we want to do"
    r"|we (?:should|would) like to do"
)
_AWAY = r"travelling|traveling|off|camping|hiking|skiing|sailing|in (?:the )?(?:vacation|holidays?)"
_BIN = r"garbage|trash|rubbish|bin"
_GOOD = r"(?:good |quick |thorough |gentle )?"
_BOTHERING = r"msging|pinging|texting|messaging|bothering|reminding|writing to|writing"
_NUDGES = r"messages|reminders|nudges"
_APART_NO_MORE = (
    r"back among (?:its|it is|her|his) friends|again with the others|back together with the others"
)
_BACK = "is back with the others"
_PESTS = r"(?:pests?|bugs?|insects?) on"
_ANY = r"([a-z ]{3,30}?)"
_TABLE: tuple[tuple[str, str], ...] = (
    # what a telephone writes when it is spoken to
    (r"\bcomm?a\b", ","),
    (r"\bfull stop\b|\bperiod$", "."),
    (r"\bquestion mark\b", "?"),
    # said around the matter
    (rf"\b(?:{_SOUNDS}|{_ASIDES}|{_WHILE}|{_ENDLESS})\b", ""),
    (r"^((?:oh |no |sorry )*)wait(?: ,)? ", r"\1"),
    (r"\b(to|til|till|until|on) sat\b", r"\1 saturday"),
    (r"\b(to|til|till|until|on) sun\b", r"\1 sunday"),
    (r", a bit (?:chilly|cold|warm|hot|cool)\b", ""),
    (r", sorry (?:about|for) [a-z ]{1,30}$|, my (?:back|arms?|hands?) [a-z ]{3,20}$", ""),
    (rf"^(?:just |i am |we are )?(?:{_BUSY}) [a-z ]{{2,30}}?, (?=do ask|ask|remind)", ""),
    (rf"\b(?:my|our) (?:{_WITH_US}) (?=(?:has |have )?(?:{_DID})\b(?! her| his| their))", "i "),
    (r"\blike (?=\d|a few\b|two\b|three\b|four\b|five\b)", ""),
    (rf" ?[;,.] please (?:suspend|pause|stop) (?:the |your )?(?:{_NUDGES})$", ""),
    # short for
    (r"\b(?:wat)\b", "what"),
    (r"\bwats\b", "what is"),
    (r"\bwen\b", "when"),
    (r"\bhw\b", "how"),
    (r"^y tho$", "why"),
    (r"\bthru\b", "through"),
    (r"\b(?:ystd|yest|ystday)\b", "yesterday"),
    (r"\bl8r\b", "later"),
    (r"\bsmol\b", "small"),
    (r"\btheres\b", "there is"),
    (r"\bur\b", "you are"),
    (r"\bhr\b", "hour"),
    (r"\b4 (?=tonight|today|tomorrow)", "for "),
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
    (r"^(?:please )?revert (?:my )?last (?:entry|message|one)$", "undo"),
    (r"^(?:(?:no|wrong button|sorry|oh) )*undo that(?: one)?$", "undo"),
    (rf"^it was (?:the )?({_NAME}) i meant$", r"i meant \1"),
    (rf"^my (?:previous|last) message (?:referred to|was about) (?:the )?({_NAME})$", r"i meant \1"),
    (
        rf"^(?:correction : )?(?:the )?{_PESTS} (?:the )?({_NAME}) (?:is|are) {_ANY} , not\b",
        r"it is \2 on \1 not",
    ),
    (
        rf"^(?:the )?({_NAME}) has ([a-z ]{{3,30}}?) , not ([a-z ]{{3,30}}?)(?: , on closer inspection)?$",
        r"it is \2 on \1 not \3",
    ),
    # habits
    (r"^let us (?=inspect|check)", ""),
    (rf"^(?:please )?(?:{_WE_MAKE}) (?:the|our|my) checks? always (?:on )?", "check every "),
    (rf"^(?:please )?(?:{_WE_MAKE}) (?:the |our |my )?checks(?: for)?\b", "check"),
    # done
    (r"\bi have all made\b|\bi have made (?:it )?all\b|\ball is (?:made|finish)\b|^all made\b", "all done"),
    (r"\b(is|are) (?:made|finish)\b", r"\1 done"),
    (r"\bi have (?:also )?(?:now )?(?:made|done)(?= the | an? )", "i did"),
    (r"\b(?:managed|got through|got (?:a)?round to)(?= all| both| the| every)", "did"),
    (r"\bgot (them all|everything|both|it all) done\b", r"\1 done"),
    (r"\bdone without (?=the )", "done except "),
    (r"\bwith the exception of\b", "except"),
    (r"\b(?:all|both|everything) (?:is |has been )?seen to\b(?:, dear)?", "all done"),
    (r"^(?:the )?jobs all finished$|^all (?:the )?jobs (?:done|finished)$", "all done"),
    (rf"\b(?:have )?given (?:the )?({_NAME}) its treatment\b", r"did \1"),
    (r"^i have completed all (?:three |of )*(?:of )?tonight(?:'s)? treatments$", "all done"),
    (rf"\bon ({_DAYS}) last\b", r"last \1"),
    # not done
    (rf"^could not get to (?:the )?({_NAME}?)(?: today| tonight)?$", r"\1 not done"),
    (rf"^i will not be able to (?:treat|do|spray) (?:the )?({_NAME}?)(?: today| tonight)?$", r"\1 not done"),
    (
        r"^(?:i )?have not (?:yet )?(?:started|begun)(?: on)? tonight(?:'s)? (?:treatments|work|tasks)$",
        "not yet",
    ),
    (r"^(?:i )?have not (?:sprayed|done|treated) anything yet$", "not yet"),
    (r"\b(?:can not be bothered|cba|no energy)(?: tonight| today)?\b", "not tonight"),
    (r"\b(?:today|tonight) (?:is )?not possible\b", "not tonight"),
    (r"^(?:no )?i (?:still )?have not (?:started|begun|got(?:ten)? a?round to it)(?: yet)?$", "not yet"),
    (r"^(?:until now )?i had not the time$", "not yet"),
    # another evening
    (r"\b(?:can|must|has to|have to|will have to) wait (?:until|till|til) ", "later "),
    (r"^(?:please )?move all (?:of )?tonight(?:'s)? (?:tasks|work|treatments) to ", "postpone everything "),
    (r"^give me an hour\b", "later in an hour"),
    (r"\btoo knackered\b", "too tired"),
    (r", i shall see to (?:the )?|, shall see to (?:the )?", ", later "),
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
    (r"^(?:please )?pause (?:everything|all) (?:until|till|til) ", "away until "),
    (rf"^(?:please )?do not send (?:me |us )?(?:any )?(?:more )?(?:{_NUDGES})(?: please)?$", "stop"),
    (rf"^(?:please )?stop (?:{_BOTHERING}) (?:me|us)$", "stop"),
    (rf"^(?:please )?make a (?:pause|break)(?: with the (?:{_NUDGES}))?$", "pause"),
    (rf"^(?:please )?pause (?:everything|all|(?:the |all )?(?:{_NUDGES}))$", "pause"),
    (rf"^(?:(?:we|i) (?:are|am|will be) )?(?:{_AWAY})(?: [a-z]+){{0,5}} (?:until|till|til) ", "away until "),
    # gone for good
    (r"\b(?:has |have )?passed away\b|\bdid not (?:make it|survive)\b|\bhas not made it\b", "has died"),
    (rf"\b(?:have )?(?:thrown|threw|put) (?:the )?({_NAME}) in(?:to)? the (?:{_BIN})\b", r"binned \1"),
    (r"\b(?:the )?poor (?=[a-z])", ""),
    (rf"^rip (?:the )?({_NAME})$", r"\1 has died"),
    (r"\bcould not be saved\b", "has died"),
    (r" , and i have discarded it$", ""),
    # moved
    (
        rf"\b(?:shoved|chucked|stuck|plonked|popped) (?:the )?({_NAME}) in(?:to)? the (?!bin|trash)",
        r"moved \1 to the ",
    ),
    (r" in from the [a-z ]{2,20}? to the ", " to the "),
    (rf"\bhave set (?:the )?({_NAME}) apart(?: from (?:the rest|the others))?\b", r"isolated \1"),
    (rf"\bmark (?:the )?({_NAME}) as isolated\b", r"isolate \1"),
    (r"\bhas been returned to (?:its|it is) (?:normal|usual) place after isolation\b", _BACK),
    # looks and work
    (r"\bhad a good look (?:over|at)\b", "checked"),
    (rf"^inspection of (?:the )?({_NAME}) revealed\b", r"checked \1 ,"),
    (r"\banywhere on\b", "on"),
    (r"\b(?:nada|zilch|nowt|not a thing)\b", "nothing"),
    (r"\b(?:its|it is) fine no bugs\b", "no bugs"),
    (r"\b(?:spiderwebs?|web stuff|sort of cobwebs?|cobwebs? stuff)\b", "webs"),
    (r"\bbetween the leaves of\b", "on"),
    (r"^an? (webs|webbing) has appeared on\b", r"\1 on"),
    (r"\bof (?:the |them )?(?:little )?buggers\b", "bugs"),
    (r"\b(?:shitloads|shedloads|tonnes)\b", "lots"),
    (r"\bjust the one\b", "1"),
    (r"\bneemed (?:the )?", "did with neem "),
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
    (r"^the temperature (?:in|on|at) (?:the )?([a-z ]{2,30}?) is\b", r"\1 is"),
    # amounts
    (r"\ba quarter of a litre\b", "250 ml"),
    (r"^(?:i )?need (.{3,40}?) (?:spray|mixture)(?: how)?$", r"mix \1"),
    (r"^(?:please )?calculate the mix for (.{3,40}?)(?: spray)?$", r"mix \1"),
    (r"^how does one make up (.{3,40}?)(?: spray)? \?$", r"mix \1"),
    (r"\b(?:copped|grabbed|purchased|snagged)\b", "got"),
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
    (rf"^({_NAME}) improving or (?:nah|no|not)$", r"is \1 getting better ?"),
    (r"^got enough ([a-z]+)(?: or what)?$", r"is there enough \1 left ?"),
    (
        rf"^has the number of [a-z]+ on (?:the )?({_NAME}) been (?:decreasing|falling|going down) \?$",
        r"is \1 getting better ?",
    ),
    (rf"^i wonder (?:whether|if) (?:the )?({_NAME}) has been (treated|sprayed)$", r"has \1 been \2 ?"),
    (r"^could you explain why the (?:interval|gap) is .{2,20}$", "why"),
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
    (
        rf"^(?:please )?register a new plant (?:named|called) {_ANY} , (?:located )?(?:in|on|at) the ",
        r"add \1 , ",
    ),
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
