"""What the bot says when it failed itself."""

from bot.wording.answer import Answer


def apology() -> Answer:
    """Own up to a failure of the program; nothing of the message was written."""
    return Answer(
        text="Something went wrong on my side. Nothing of your last message was written down; "
        "whoever runs this bot finds the reason in its log."
    )


def alert(count: int, last: str) -> str:
    """Tell the operator of errors; where the last one was is ours, nobody's words."""
    many = "one error" if count == 1 else f"{count} errors"
    return f"To the operator: {many} since the last word, the newest at {last[:300]}. The log has the places."
