"""From outcomes to answers: every sentence the bot says."""
