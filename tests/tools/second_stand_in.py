"""
A second stand-in for the platform, not of our making: the npm package `telegram-test-api`, behind an adapter.

`python -m tests.tools.second_stand_in [PORT]` prints `ready URL`. The package keeps chats, messages and their numbers. The
adapter passes calls on, and does what the package does not: it keeps what was fetched until a later offset confirms it and
waits for news (long polling), tells seconds where the package tells milliseconds and true where it tells null, and lets
calls go wrong. Needs node and npm; the package goes with the run unless DUSKROUND_TEST_NPM names a folder that has it.
"""

import asyncio
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from tornado.httpclient import AsyncHTTPClient
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from tornado.web import Application, RequestHandler

from tests.tools.measuring import free_port
from tests.tools.standing_in import TOKEN, now

PACKAGE = "telegram-test-api@4"
SERVER = "new (require('telegram-test-api'))({port: PORT, host: '127.0.0.1', storeTimeout: 86400}).start()"
NEWS_S = 0.02


class Adapter:
    """The package's address, what it gave and nobody confirmed, and what is to go wrong."""

    def __init__(self, url: str) -> None:
        self.url = url
        self.pending: list[dict[str, Any]] = []
        self.faults: list[dict[str, Any]] = []
        self.client = AsyncHTTPClient(max_clients=200)

    async def pass_on(self, path: str, body: bytes, kind: str = "application/json") -> tuple[int, Any]:
        """Pass a request on and give what the package answers."""
        headers = {"Content-Type": kind}
        answer = await self.client.fetch(
            f"{self.url}{path}", method="POST", body=body, headers=headers, raise_error=False
        )
        return answer.code, json.loads(answer.body)

    async def updates(self, offset: int, timeout_s: int) -> list[dict[str, Any]]:
        """Give what is not confirmed, waiting for something to give."""
        self.pending = [one for one in self.pending if one["update_id"] >= offset]
        for _ in range(max(1, int(timeout_s / NEWS_S))):
            self.pending += (await self.pass_on(f"/bot{TOKEN}/getUpdates", b"{}"))[1]["result"]
            if self.pending or not timeout_s:
                break
            await asyncio.sleep(NEWS_S)
        return self.pending[:100]

    def fault(self, method: str) -> dict[str, Any]:
        """Use up one of the faults of this method."""
        found = next((one for one in self.faults if one["method"] == method), {})
        if found:
            found["times"] = found.get("times", 1) - 1
            self.faults = [one for one in self.faults if one.get("times", 1) > 0]
        return found


class Handler(RequestHandler):
    """What all handlers have."""

    adapter: Adapter

    def initialize(self, adapter: Adapter) -> None:
        self.adapter = adapter


class Calls(Handler):
    """`/bot<token>/<method>`."""

    async def post(self, method: str) -> None:
        fault = self.adapter.fault(method)
        await asyncio.sleep(fault.get("delay_s", 0))
        if fault.get("cut") == "before":
            self.detach().close()
        elif fault.get("status"):
            self.set_status(fault["status"])
            wait = {"retry_after": fault["retry_after"]} if "retry_after" in fault else {}
            self.finish({"ok": False, "error_code": fault["status"], "description": "x", "parameters": wait})
        else:
            said = await self._passed_on(method)
            if fault.get("cut") == "after":
                self.detach().close()
            else:
                self.finish("<html>502</html>" if fault.get("is_garbage") else said)

    async def _passed_on(self, method: str) -> dict[str, Any]:
        if method == "getUpdates":
            wanted = json.loads(self.request.body)
            updates = await self.adapter.updates(wanted["offset"], wanted["timeout"])
            return {"ok": True, "result": updates}
        kind = self.request.headers.get("Content-Type", "application/json")
        code, said = await self.adapter.pass_on(f"/bot{TOKEN}/{method}", self.request.body, kind)
        self.set_status(code)
        if not said.get("ok"):
            return {"ok": False, "error_code": code, "description": "the package does not know this"}
        result = said.get("result")
        if isinstance(result, dict) and "date" in result:
            result["date"] //= 1000
        if method == "getMe":
            result["is_bot"] = True
        return {"ok": True, "result": True if result is None else result}


class Say(Handler):
    """POST /person/{chat}/say."""

    async def post(self, chat: str) -> None:
        message = {
            "botToken": TOKEN,
            "from": {"id": int(chat), "first_name": f"Person {chat}", "is_bot": False},
            "chat": {"id": int(chat), "type": "private"},
            "date": int(now().timestamp()),
            "text": json.loads(self.request.body)["text"],
        }
        await self.adapter.pass_on("/sendMessage", json.dumps(message).encode())
        self.finish({"messages": []})


class Messages(Handler):
    """GET /person/{chat}/messages: what the bot said there."""

    async def get(self, chat: str) -> None:
        _, said = await self.adapter.pass_on("/getUpdatesHistory", json.dumps({"token": TOKEN}).encode())
        told = [one for one in said["result"] if str(one.get("message", {}).get("chat_id")) == chat]
        shown = [{"id": one["messageId"], "who": "bot", "text": one["message"]["text"]} for one in told]
        self.finish(json.dumps(shown))


class Faults(Handler):
    """POST /faults."""

    def post(self) -> None:
        self.adapter.faults = json.loads(self.request.body)
        self.finish({})


def installed(folder: Path) -> Path:
    """Have npm fetch the package, unless it is there."""
    there = os.environ.get("DUSKROUND_TEST_NPM")  # noqa: TID251 - no setting of the bot
    if there:
        return Path(there)
    command = ["npm", "install", "--no-audit", "--no-fund", "--silent", "--prefix", str(folder), PACKAGE]
    subprocess.run(command, check=True, timeout=300)
    return folder


async def main(port: int, folder: Path) -> None:
    """Serve until killed; the package's process goes with ours."""
    behind = free_port()
    code = f"process.stdin.on('end', () => process.exit()).resume(); {SERVER.replace('PORT', str(behind))}"
    package = await asyncio.create_subprocess_exec("node", "-e", code, cwd=folder, stdin=subprocess.PIPE)
    adapter = Adapter(f"http://127.0.0.1:{behind}")
    for _ in range(200):
        try:
            await adapter.pass_on(f"/bot{TOKEN}/getMe", b"{}")
            break
        except OSError:
            await asyncio.sleep(0.05)
    here = {"adapter": adapter}
    routes: list[Any] = [
        (r"/bot[^/]+/(\w+)", Calls, here),
        (r"/person/(\d+)/say", Say, here),
        (r"/person/(\d+)/messages", Messages, here),
        (r"/faults", Faults, here),
    ]
    server = HTTPServer(Application(routes, log_function=lambda _: None))
    sockets = bind_sockets(port, "127.0.0.1")
    server.add_sockets(sockets)
    sys.stdout.write(f"ready http://127.0.0.1:{sockets[0].getsockname()[1]}\n")
    sys.stdout.flush()
    await package.wait()


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as name:
        asyncio.run(main(int(sys.argv[1]) if len(sys.argv) > 1 else 0, installed(Path(name))))
