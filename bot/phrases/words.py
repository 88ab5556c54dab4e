"""The listed spellings: every phrase the grammar knows, and what it stands for."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum, auto

from bot.domain.pest import Level
from bot.domain.trade import Form, Grade, Method, Sign


class Word(Enum):
    """A word that steers the meaning of its clause."""

    FILLER = auto()
    HEDGE = auto()
    AND = auto()
    BREAK = auto()
    BUT = auto()
    QUESTION = auto()
    AGAINST = auto()
    DONE = auto()
    NOT = auto()
    NOTHING = auto()
    YET = auto()
    NO_TIME = auto()
    LATER = auto()
    SKIP = auto()
    DO = auto()
    ALL = auto()
    BOTH = auto()
    IT = auto()
    THEM = auto()
    REST = auto()
    EXCEPT = auto()
    CLEAN = auto()
    NONE = auto()
    GONE = auto()
    SAW = auto()
    LEFT = auto()
    HAD = auto()
    BUGS = auto()
    CHECKED = auto()
    CHECK = auto()
    EMPTY = auto()
    FILL_TO = auto()
    ISOLATE = auto()
    MOVE = auto()
    RELEASE = auto()
    BACK = auto()
    PUT = auto()
    ANYWAY = auto()
    UNMOVABLE = auto()
    LOST = auto()
    MEANT = auto()
    IT_IS = auto()
    GOT = auto()
    LABEL = auto()
    NEW = auto()
    MIX = auto()
    AWAY = auto()
    UNTIL = auto()
    STOP = auto()
    DELETE = auto()
    RESUME = auto()


@dataclass(frozen=True, slots=True)
class Tool:
    """A method named, not told as done: "spray", "a rinse"."""

    method: Method


@dataclass(frozen=True, slots=True)
class Spot:
    """Where on the plant something was seen."""

    name: str


Value = Word | Tool | Spot | Method | Grade | Sign | Level | Form

_TABLE: tuple[tuple[Value, str], ...] = (
    (
        Word.FILLER,
        (
            "too big|too heavy|oh no|oh|ugh|argh|aargh|hmm|hm|well|yikes|damn|omg|sigh"
            "|the|a|an|my|our|i|we|on|of|have|has|been|is|are|was|were|am|just|now|also|too|ok|okay"
            "|please|please to|at|in|with|for|under|yes|yep|yeah|hi|hello|hey|he|she|they|there|sorry"
            "|right now"
            "|just now|only|still|:|-|(|)|so far|actually|plant|plants|pot|one|ones|about|around|again"
            "|and also|as well|time|got the|got a|other than that|her|him|his|this time|finally|already"
            "|today's|tonight's|round|quick|used|using"
            "|lol|haha|rip|ew|eww|phew|yay|sadly|unfortunately|luckily|thankfully|by the way|btw|fyi"
            "|i am afraid|promise"
            "|i promise|down|in the shower|to you|you asked|gave up and|i gave up and"
            "|good news|great news|bad news|quick question|pieces of|so"
            "|with fresh soil|in fresh soil|fresh soil|with fresh mix"
            "|in fresh mix|fresh mix|with new soil|in new soil|with fresh compost|in fresh compost"
        ),
    ),
    (
        Word.HEDGE,
        (
            "almost|nearly|half|partly|maybe|perhaps|soon|will|would|could|should|want|wants|need|needs"
            "|must|think|hope|try|tried|trying|started|start|going|gonna|about to|if|unless|when|before"
            "|after|might|may|plan|planning|remind|wish|supposed|forgot|forget|forgotten|never|without"
            "|instead|or|either|whether|than|then what|because|since|like|looks|look|seems|can|someone"
            "|was going to|have to|had to|be|being|doing|to be|who|what|which|how|why|where|does|from"
            "|by|near|next to|same|jk|just kidding|only joking|joking|kidding"
        ),
    ),
    (Word.AND, "and|&|+|plus|and then|and the|n"),
    (Word.BREAK, ",|;|\n|.|!|then"),
    (Word.BUT, "but|though|however"),
    (Word.QUESTION, "?"),
    (Word.AGAINST, "\u274c|\U0001f44e|\U0001f6ab|\u2716|\u26d4|\U0001f645"),
    (
        Word.DONE,
        (
            "done|did|finished|completed|complete|dnoe|doen|doone|finised|finshed|have done|i did"
            "|all sorted|sorted|treated|taken care of|took care of|all set|dun"
        ),
    ),
    (Word.NOT, "not|no|nope|nah|didn|no not"),
    (
        Word.NOTHING,
        (
            "nothing|nothing found|nothing seen|nothing there|found nothing|saw nothing|nothing to see"
            "|do not see any|did not see any|did not find any|can not see any|can not find any"
            "|see no|saw no|found no"
        ),
    ),
    (Word.YET, "yet|not yet"),
    (
        Word.NO_TIME,
        (
            "no time|no time tonight|no time today|too tired|too busy|can not tonight|can not today"
            "|can not do it tonight|not now|not today|not tonight|not this evening|not feeling well"
            "|i am tired|i am ill|i am sick|not up to it|not in the mood|can not do it|do not have time"
            "|do not have time tonight|busy tonight|could not do it|did not manage|did not get to it"
            "|did not get round to it|did not get around to it|could not|did not have time|had no time"
            "|ran out of time|today not"
        ),
    ),
    (
        Word.LATER,
        "later|would rather do|postpone|snooze|delay|push|remind me|remind us|ask me|ask again|nudge me",
    ),
    (Word.SKIP, "skip|skipped|pass|skip it|skip tonight"),
    (Word.DO, "do|i will do|will do|to do|i will|do it|will do it|i will do it|do that|let us do"),
    (
        Word.ALL,
        (
            "all|everything|everyone|them all|all of them|all of it|the lot|the whole lot|every plant"
            "|all plants|all the plants|all of tonight|everybody|each one|all three|them all three"
        ),
    ),
    (Word.REST, "the rest|rest|the others|others|the other ones|rest of them|the rest of them"),
    (Word.BOTH, "both|both of them|the both|the two|the two of them"),
    (Word.IT, "it|that|this"),
    (Word.THEM, "them|those|these"),
    (
        Word.EXCEPT,
        (
            "except|except for|apart from|all but|everything but|minus|excluding|bar|aside from"
            "|other than|save for|but not|everyone but|excpet|exept|expect for"
        ),
    ),
    (
        Word.CLEAN,
        (
            "clean|clear|pest free|bug free|looks clean|looks clear|looking clean|came up clean"
            "|came back clean|is fine|looks fine|looks good|free of bugs|no sign of anything"
            "|no sign of bugs"
        ),
    ),
    (Word.NONE, "none|zero|none at all|none seen|none found|no more"),
    (Word.GONE, "gone|has gone|is gone|are gone|is gone from|are gone from|gone from"),
    (
        Word.SAW,
        (
            "saw|found|spotted|counted|seen|i see|see|there are|there is|i saw|noticed|find|discovered"
            "|picked off|removed"
        ),
    ),
    (Word.LEFT, "left|remaining|more|alive|living|live"),
    (Word.HAD, "had|have got|has got|still has|still had|shows|showed|showing"),
    (
        Word.BUGS,
        (
            "bug|bugs|pest|pests|insect|insects|critter|critters|crawler|crawlers|beastie|beasties"
            "|animals|creatures|adults|nymphs|egg sacs|egg sac|any bugs|any|pieces"
        ),
    ),
    (
        Word.CHECKED,
        (
            "checked|inspected|looked at|looked over|examined|went over|went through|had a look at"
            "|checked on|have checked|looked|gone over|chekced|cheked|had a look|took a look at"
        ),
    ),
    (Word.CHECK, "check|inspect|weekly check|check walk|inspection|check everything|check the plants"),
    (
        Word.UNMOVABLE,
        (
            "can not be moved|can not move|too big to move|too heavy to move|is too big to move"
            "|is too heavy to move|has to stay where it is|must stay where it is|stays where it is"
        ),
    ),
    (Word.EMPTY, "empty|is empty|used up|ran out of|run out of|used the last of"),
    (Word.FILL_TO, "to|onto|into|over to|out to|to the"),
    (
        Word.ISOLATE,
        (
            "isolate|isolated|quarantine|quarantined|put apart|set apart|apart|separate|separated"
            "|in isolation|in quarantine|put in isolation|moved away from the others|on its own"
            "|isolating|put in quarantine"
        ),
    ),
    (Word.MOVE, "moved|move|shifted|relocated|took|brought|carried|is now|stands|lives|has moved"),
    (
        Word.RELEASE,
        (
            "release|released|put back|brought back|back with the others|out of isolation"
            "|out of quarantine|rejoined the others|let out|taken out of isolation"
            "|took out of isolation|goes back|went back"
        ),
    ),
    (Word.BACK, "back"),
    (Word.PUT, "put"),
    (Word.ANYWAY, "anyway|anyhow|all the same|regardless"),
    (
        Word.LOST,
        (
            "binned|bin|died|dead|has died|is dead|threw out|threw away|thrown out|thrown away|tossed"
            "|tossed out|chucked|chucked out|discarded|composted|lost|gave up on|threw|trashed"
            "|got rid of|is no more|has died on me|away to the bin|in the bin|into the bin"
        ),
    ),
    (
        Word.MEANT,
        (
            "meant|i meant|no i meant|that was|it was|that was for|should have been|was meant for"
            "|was really|was actually|that was actually|it was actually|i mean|wrong plant"
        ),
    ),
    (Word.IT_IS, "it is|that is|this is|they are|those are|turns out it is|actually it is"),
    (
        Word.GOT,
        (
            "got|bought|i got|i bought|picked up|purchased|there is now|restocked|ordered|bought some"
            "|got some|i have got|just bought|just got|got more"
        ),
    ),
    (Word.LABEL, "label says|the label says|label|according to the label|says|label of"),
    (Word.NEW, "new|a new|got a new|bought a new|another|brought home a new"),
    (
        Word.MIX,
        (
            "mix|make|mixing|prepare|make up|mix up|brew|batch|mixture|a batch of|batch of|mix me"
            "|make me|need to mix|i need|how do i make|how do i mix|how to make|how to mix|how much for"
            "|how much do i need for|can you mix|recipe for|recipe|solution|spray mix|i want to mix"
            "|want to mix|i need to mix|dilute"
        ),
    ),
    (
        Word.AWAY,
        (
            "away|shall be away|on holiday|on vacation|going on holiday|going on vacation|going away"
            "|i will be away"
            "|will be away|away from|going on holiday from|on holiday from|"
            "out of town|travelling|traveling|gone away|not home"
            "|not at home|hold|pause|on leave"
        ),
    ),
    (Word.UNTIL, "until|till|til|back on|back|untill|up to|return on|home on|returning"),
    (Word.DELETE, "delete|remove|take off the list|take off my list|strike off|erase|remove from the list"),
    (Word.STOP, "stop|silence|quiet please|pause|mute|be quiet|shut up|stop it|stop nudging|leave me alone"),
    (
        Word.RESUME,
        (
            "resume|back early|we are back early|i am back early|home early|we are home|we are home early"
            "|i am back|i am home|back home|we are back|unpause|unmute|start again|go on|carry on"
        ),
    ),
    (
        Method.SPRAY,
        "sprayed|spraying done|spryed|sparyed|gave a spray|misted with|spray done",
    ),
    (Method.SWAB, "swabbed|dabbed|swabed|swabbing done"),
    (
        Method.WIPE,
        "wiped|wiped down|wiped off|wiping done|wiped the leaves of",
    ),
    (
        Method.RINSE,
        "rinsed|washed|showered|hosed|hosed down|rinsed off|washed off|washed down|hosed off|rinced",
    ),
    (Method.DRENCH, "drenched|soil drench|drenched the soil of"),
    (Method.PRUNE, "pruned|trimmed|cut back|pruned back"),
    (
        Method.REPOT,
        "repotted|re potted|potted on|repoted|changed the soil of|reppotted",
    ),
    (
        Method.CLEAN_OUT,
        (
            "clean out|full clean out|the full clean out|cleanout|deep clean|deep cleaned|cleaned out"
            "|full clean|the full clean|got the full clean out|full cleanout|did a clean out on"
        ),
    ),
    (Tool(Method.SPRAY), "spray|spraying|a spray"),
    (Tool(Method.SWAB), "swab|swabbing|dab|a swab"),
    (Tool(Method.WIPE), "wipe|wiping|wipe down|a wipe"),
    (Tool(Method.RINSE), "rinse|rinsing|wash|washing|shower|hose|a rinse|a wash|a shower"),
    (Tool(Method.DRENCH), "drench|drenching|a drench"),
    (Tool(Method.PRUNE), "prune|pruning|trim"),
    (Tool(Method.REPOT), "repot|repotting"),
    (Grade.FEW, "few|a few|a handful|handful|a handful of|hardly any|a few of"),
    (Grade.SOME, "some|several|a bunch|a bunch of|quite a few"),
    (
        Grade.MANY,
        (
            "lots|lots of|many|loads|loads of|tons|tons of|full of|covered in|crawling with|infested"
            "|a lot|a lot of|loads more|too many|hundreds|dozens|very many|infested with|riddled with"
            "|swarming with|so many|heaps|heaps of"
        ),
    ),
    (Sign.WEBBING, "webbing|webs|web|cobwebs|fine webbing"),
    (
        Sign.HONEYDEW,
        (
            "honeydew|sticky|sticky leaves|leaves sticky|leaves are sticky|stickiness|sticky stuff"
            "|sticky residue"
        ),
    ),
    (Sign.FLUFF, "fluff|white fluff|cotton|cottony stuff|white cotton|fluffy stuff|white fuzz|fuzz"),
    (Sign.PITS, "pits|pitting"),
    (Sign.SPECKS, "specks|black specks|black dots|frass|silvery specks"),
    (Sign.CAST_SKINS, "cast skins|shed skins|empty skins"),
    (
        Level.LENS,
        (
            "lens|with a lens|loupe|magnifier|magnifying glass|hand lens|macro camera|with the lens"
            "|with a loupe"
        ),
    ),
    (Level.GLANCE, "glance|at a glance|quick look|quickly"),
    (
        Level.ROOTS,
        (
            "roots too|lifted the pot|looked at the roots|the roots of|roots of|root check"
            "|checked the roots of"
        ),
    ),
    (Spot("axils"), "axils|axil|leaf axils|the axils|joints|joint|leaf joints|nodes|node"),
    (Spot("crown"), "crown|the crown|crowns"),
    (Spot("stem"), "stem|stems|stalk|stalks"),
    (Spot("leaf"), "leaf|leaves|on leaves"),
    (
        Spot("underside"),
        "underside|undersides|underneath|under the leaves|undersides of the leaves|leaf undersides",
    ),
    (Spot("roots"), "roots|root ball|rootball"),
    (Spot("soil"), "soil|mix|substrate|top of the soil"),
    (Spot("sheath"), "sheath|sheaths|leaf sheaths"),
    (Spot("bud"), "bud|buds|flower|flowers|flower spike|spike|peduncle|new growth|growing tip"),
    (Spot("pot"), "rim|pot rim|under the rim|saucer"),
    (Form.READY, "ready to use|ready made|ready mixed|premixed|rtu|ready"),
    (Form.CONCENTRATE, "concentrate|concentrated"),
)

PHRASES: dict[tuple[str, ...], Value] = {}
for _value, _spellings in reversed(_TABLE):
    for _phrase in _spellings.split("|"):
        PHRASES[tuple(_phrase.split(" ")) if _phrase != "\n" else ("\n",)] = _value

_BARE_VERBS = {
    "spray": Method.SPRAY,
    "swab": Method.SWAB,
    "wipe": Method.WIPE,
    "rinse": Method.RINSE,
    "wash": Method.RINSE,
    "repot": Method.REPOT,
}
for _verb, _method in _BARE_VERBS.items():  # "i did rinse to the ivy"
    for _spoken in (("did", _verb), ("i", "did", _verb)):
        PHRASES[_spoken] = PHRASES[(*_spoken, "to")] = _method

LONGEST_PHRASE = max(len(phrase) for phrase in PHRASES)
KNOWN = frozenset(word for phrase in PHRASES for word in phrase)


def listed(words: str) -> frozenset[str]:
    """Split a plain row of words into a set of them."""
    return frozenset(words.split())


def words_in(phrases: Iterable[str]) -> frozenset[str]:
    """Give all words of some phrases."""
    return frozenset(word for phrase in phrases for word in phrase.split())


def phrase_at(words: tuple[str, ...], start: int) -> tuple[Value, int] | None:
    """Longest listed phrase that begins here, and its length in words."""
    for size in range(min(LONGEST_PHRASE, len(words) - start), 0, -1):
        value = PHRASES.get(words[start : start + size])
        if value is not None:
            return value, size
    return None
