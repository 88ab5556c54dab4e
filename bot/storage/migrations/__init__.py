"""Every change of the tables, in order; run by bot.storage.migrate."""
