"""What supposes, wishes, takes back, quotes or gives an example: it tells nothing for sure."""

import re

_TURNS = r"(?:(?:no(?!\W*\d)|oh|oops|haha|sorry|wait|hang on|hold on|wrong)\b\W*)+"
_UNREAL = re.compile(
    r"\b(?:wish|hop(?:e|ing)(?! you)|if|unless|let'?s say|suppose|imagine|assum(?:e|ing)|pretend|joking"
    r"|kidding|dreams?|goals?|plan|(?:would|i'?d) (?:love|like|rather|have)|almost|nearly|as good as"
    r"|not quite|not really|never mind|forget it|scratch that|just saying|or not|yeah right"
    r"|(?<!like )(?<!as )(?:you|he|she|they) said|says here|example|for instance|e\.g|eg"
    r"|as a (?:child|kid|boy|girl|student)|(?<!as )(?:i|we) (?:was|were) told|apparently|supposedly|allegedly"
    r"|claims?|reckons?|swears|used to|(?:is|are) coming|on order|ordered|too (?:small|tight)|will come"
    r"|(?:notes?|app|diary|book|log|calendar) says?)\b|^\W*according to\b"
    r"|\bthe [^.,!?\n]{2,30}? (?:i|we) (?:sprayed|wiped|treated|rinsed|pruned) (?:is|are|looks?|has|needs)\b"
    rf"|(?<=\w)[.!?\n]\W*{_TURNS}(?<=[.!\n])|^\W*{_TURNS}$"
    r"|^\W*(?:after|before|once|when(?! was)|until|as soon as)\b"
    r"|^\W*(?:no+|nope|nah|non)\W*(?:,|$)|^\W*well,? not\b"
    r"|^\W*(?:\w+ ){0,3}(?:says?|said|writes?|wrote|types?|typed|like this|sample|test)\s*:"
    r"|^\s*[\"\u201c][^\"\u201d]+[\"\u201d]\W*$"
    r"|^\W*(?:i'?m |we'?re )?(?:spray|wip|rins|prun|treat|wash|swabb)ing (?!done\b)(?!.*\bfinished\b)"
    r"[^.!?\n]*\b(?:tonight|later|soon)\W*$",
    re.IGNORECASE,
)


_UNSURE = re.compile(
    r"\b(?:not|[a-z]+n't|never) (?:\w+ )?(?:remember|recall|think|believe|know|sure)\b", re.IGNORECASE
)


def is_unreal(text: str) -> bool:
    """Whether a message, or a piece of it, tells what it names only as a wish, a case or somebody's words."""
    return _UNREAL.search(text) is not None


def is_unsure(text: str) -> bool:
    """Whether it says no more than that nobody knows: "I do not remember spraying the hoya"."""
    return _UNSURE.search(text) is not None
