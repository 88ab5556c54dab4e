"""One file per thing a person, or the evening, can make the bot do."""
