"""The queue between people and the bot: long polling, confirmation, webhook."""

import asyncio
import json
from bisect import bisect_left, insort
from collections.abc import Iterable
from typing import Any

from tornado.httpclient import AsyncHTTPClient, HTTPRequest

from demo.chats import Json

MOST_PER_POLL = 100
LONGEST_POLL_S = 50
FIRST_RETRY_S = 0.1
LONGEST_RETRY_S = 5.0
SECRET_HEADER = "X-Telegram-Bot-Api-Secret-Token"  # noqa: S105 - the header's name, not a secret
UNASKED = frozenset({"chat_member", "message_reaction", "message_reaction_count"})

ARRIVED = "arrived"
OTHER_POLLER = "terminated by other getUpdates request; make sure that only one bot instance is running"
WEBHOOK_SET = "terminated by setWebhook request"
WEBHOOK_ACTIVE = (
    "can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first"
)


class RefusedError(Exception):
    """The platform says no, in its own form."""

    def __init__(self, status: int, description: str, **parameters: int) -> None:
        super().__init__(description)
        self.status = status
        self.description = description
        self.parameters = parameters


def _number(update: Json) -> int:
    return int(update["update_id"])


class Updates:
    """Updates the bot has not confirmed yet, lowest id first."""

    def __init__(self, first: int = 1) -> None:
        self.pending: list[Json] = []
        self.allowed: frozenset[str] = frozenset()
        self._next_id = first
        self._waiter: asyncio.Future[str] | None = None
        self._watched: dict[int, asyncio.Future[None]] = {}

    def push(self, kind: str, content: Json) -> int | None:
        """Queue an update; None if the bot did not ask for this kind."""
        if kind not in self.allowed and (self.allowed or kind in UNASKED):
            return None
        return self.push_raw({kind: content})

    def push_raw(self, update: Json) -> int:
        """Queue an update exactly as given, with an id if it has none."""
        update_id = int(update.get("update_id", self._next_id))
        self._next_id = max(self._next_id, update_id + 1)
        insort(self.pending, {"update_id": update_id} | update, key=_number)
        self.interrupt(ARRIVED)
        return update_id

    async def poll(self, offset: int, limit: int, timeout_s: int) -> list[Json]:
        """Answer one getUpdates: confirm what is below `offset`, wait for something to give."""
        self.interrupt(OTHER_POLLER)
        if offset > 0:
            self.confirm(offset)
        elif offset < 0 and len(self.pending) > -offset:
            self.confirm(_number(self.pending[offset]))
        timeout_s = min(max(timeout_s, 0), LONGEST_POLL_S)
        if not self.pending and timeout_s:
            await self._arrival(timeout_s)
        return self.pending[: min(max(limit, 1), MOST_PER_POLL)]

    async def first(self) -> Json:
        """Wait for the oldest unconfirmed update."""
        while not self.pending:
            await self._arrival(LONGEST_POLL_S)
        return self.pending[0]

    def confirm(self, offset: int) -> None:
        """Forget every update below `offset`."""
        done = bisect_left(self.pending, offset, key=_number)
        if self._watched:
            self._tell(_number(update) for update in self.pending[:done])
        del self.pending[:done]

    async def confirmed(self, update_id: int, within_s: float) -> None:
        """Wait until an update is confirmed, but no longer than `within_s` seconds."""
        watch = self._watched.setdefault(update_id, asyncio.get_running_loop().create_future())
        await asyncio.wait((watch,), timeout=within_s)
        self._watched.pop(update_id, None)

    def interrupt(self, why: str) -> None:
        """End the poll that is waiting, if one is."""
        if self._waiter is not None and not self._waiter.done():
            self._waiter.set_result(why)

    async def _arrival(self, timeout_s: int) -> None:
        self._waiter = waiter = asyncio.get_running_loop().create_future()
        await asyncio.wait((waiter,), timeout=timeout_s)
        if waiter.done() and waiter.result() != ARRIVED:
            raise RefusedError(409, f"Conflict: {waiter.result()}")

    def _tell(self, numbers: Iterable[int]) -> None:
        for number in numbers:
            watch = self._watched.get(number)
            if watch is not None and not watch.done():
                watch.set_result(None)


class Webhook:
    """Delivers updates to the bot's own address, one after another, until each is taken."""

    def __init__(self, updates: Updates) -> None:
        self.url = ""
        self._secret = ""
        self._updates = updates
        self._task: asyncio.Task[None] | None = None

    def set(self, url: str, secret: str) -> None:
        """Deliver to `url` from now on; an empty one stops it."""
        if self._task is not None:
            self._task.cancel()
            self._task = None
        self.url, self._secret = url, secret
        if url:
            self._updates.interrupt(WEBHOOK_SET)
            self._task = asyncio.get_running_loop().create_task(self._deliver())

    async def stop(self) -> None:
        """Stop delivering."""
        task = self._task
        self.set("", "")
        if task is not None:
            await asyncio.wait((task,))

    async def _deliver(self) -> None:
        client = AsyncHTTPClient(force_instance=True)
        retry_s = FIRST_RETRY_S
        try:
            while True:
                update = await self._updates.first()
                if await self._is_taken(client, update):
                    self._updates.confirm(_number(update) + 1)
                    retry_s = FIRST_RETRY_S
                else:
                    await asyncio.sleep(retry_s)
                    retry_s = min(2 * retry_s, LONGEST_RETRY_S)
        finally:
            client.close()

    async def _is_taken(self, client: AsyncHTTPClient, update: Json) -> bool:
        headers = {"Content-Type": "application/json"}
        if self._secret:
            headers[SECRET_HEADER] = self._secret
        request = HTTPRequest(self.url, "POST", headers, json.dumps(update), follow_redirects=False)
        try:
            answer = await client.fetch(request, raise_error=False)
        except (OSError, ValueError):
            return False
        return 200 <= answer.code < 300  # noqa: PLR2004 - any success


def parsed(raw: Any) -> Any:
    """Read a field that may be JSON text or already a value."""
    return json.loads(raw) if isinstance(raw, str) else raw
