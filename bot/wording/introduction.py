"""How the bot introduces itself where nobody has spoken yet: an empty chat, a list of bots, the menus."""

DESCRIPTION = (
    "A notebook for plants with pests. Tell me what you see on which plant, in plain words: I say what to do "
    "tonight, when to come back, and when the plant is likely free. One message in the evening, answered "
    "with one word.\n\nPress Start, or write what you found."
)
SHORT_DESCRIPTION = "Carries houseplants through a pest outbreak, evening by evening."

FOR_ALL = (
    ("due", "what is due"),
    ("done", "tonight's work is done"),
    ("skip", "not tonight"),
    ("isolated", "which plants are apart"),
    ("plants", "all plants"),
    ("walk", "look over all plants, one tap each"),
    ("mix", "how much to mix"),
    ("history", "what was told"),
    ("undo", "take back the last thing I told"),
    ("help", "what can be said"),
)
FOR_ONE = (
    ("start", "begin, or set up again"),
    ("invite", "let somebody else in"),
    ("export", "calendar, table, everything"),
    ("settings", "town, evening, quiet hours"),
    ("privacy", "what is kept, and how to be forgotten"),
)
FOR_GROUP = (("start", "begin in this group"), ("settings", "town, evening, quiet hours"))
