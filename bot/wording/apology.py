"""What the bot says when it failed itself."""

from bot.wording.answer import Answer


def apology() -> Answer:
    """Own up to a failure of the program; nothing of the message was written."""
    return Answer(
        text="Something went wrong on my side. Nothing of your last message was written down; "
        "whoever runs this bot finds the reason in its log."
    )
