"""
A worker process of the tests: composes due evenings and sends outbox rows, as several bots on one database do.

`python -m tests.storage.working URL FOLDER SENT_FILE`. What it sends it appends to a file, on the spot.
"""

import os
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.storage.database import Database
from bot.storage.sent_notes import Note, SentNotes

AT_ONCE = 10
LEASE = timedelta(seconds=2)
IDLE_S = 0.05


def main(url: str, folder: Path, sent: Path) -> None:
    """Work until killed."""
    folder.mkdir(exist_ok=True)
    database, notes = Database(url, folder), SentNotes(folder)
    out = os.open(sent, os.O_CREAT | os.O_WRONLY | os.O_APPEND, 0o600)
    owner = str(os.getpid())
    while True:
        now = datetime.now(UTC)  # noqa: TID251 - a process of its own, on the real clock
        with database.unit() as store:
            left = notes.left_behind()
            store.settle_noted(now, [note for some in left.values() for note in some])
            due = store.due_households(now, AT_ONCE)
            for household in due:
                store.queue(f"nudge:{household}", household, "sendMessage", {}, now, household=household)
                store.set_next_evening(household, None)
        for file in left:
            file.unlink(missing_ok=True)
        with database.unit() as store:
            rows = store.claim_outbox(now, owner, now + LEASE, AT_ONCE)
        done: dict[int, int | None] = {}
        for row in rows:
            os.write(out, f"{row.key}\n".encode())  # the platform took it
            notes.add(Note(row.id, row.key, row.id))
            done[row.id] = row.id
        if done:
            with database.unit() as store:
                store.settle(datetime.now(UTC), done)  # noqa: TID251 - as above
            notes.clear()
        elif not due:
            time.sleep(IDLE_S)


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3]))
