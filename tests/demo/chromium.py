"""Debian's Chromium without a window, driven over its own debugging protocol."""

import asyncio
import base64
import itertools
import json
import shutil
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

from tornado.websocket import WebSocketClientConnection, websocket_connect

WIDTH, HEIGHT = 390, 844
PROGRAM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
_FLAGS = (
    *(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--no-first-run",
        "--hide-scrollbars",
    ),
    *(
        "--remote-debugging-port=0",
        "--remote-debugging-address=127.0.0.1",
        "--no-proxy-server",
        "--disable-extensions",
    ),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync", "about:blank"),
)
_WAIT_S = 30.0


class Page:
    """One page at phone width."""

    def __init__(self, socket: WebSocketClientConnection, session: str) -> None:
        self._socket = socket
        self._session = session
        self._numbers = itertools.count(100)

    async def call(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Call one method of the protocol and wait for its answer."""
        return await called(self._socket, next(self._numbers), method, parameters, self._session)

    async def run(self, script: str) -> Any:
        """Evaluate an expression in the page."""
        answer = await self.call("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    async def open(self, url: str, *, scheme: str) -> None:
        """Open an address at 390 x 844 in light or dark."""
        await self.call(
            "Emulation.setDeviceMetricsOverride", width=WIDTH, height=HEIGHT, deviceScaleFactor=2, mobile=True
        )
        features = [{"name": "prefers-color-scheme", "value": scheme}]
        await self.call("Emulation.setEmulatedMedia", features=features)
        await self.call("Page.enable")
        await self.call("Page.navigate", url=url)
        await self.until("document.readyState === 'complete'")

    async def until(self, condition: str) -> None:
        """Wait until an expression holds."""
        for _ in range(int(_WAIT_S / 0.05)):
            if await self.run(condition):
                return
            await asyncio.sleep(0.05)
        raise AssertionError(f"never true in the page: {condition}")

    async def picture(self) -> bytes:
        """Give what a person sees, as a PNG."""
        answer = await self.call("Page.captureScreenshot", format="png")
        return base64.b64decode(answer["data"])


async def called(
    socket: WebSocketClientConnection,
    number: int,
    method: str,
    parameters: dict[str, Any],
    session: str | None = None,
) -> dict[str, Any]:
    """Send one call and give its result, events in between left aside."""
    call: dict[str, Any] = {"id": number, "method": method, "params": parameters}
    if session is not None:
        call["sessionId"] = session
    await socket.write_message(json.dumps(call))
    while True:
        message = await asyncio.wait_for(_next(socket), _WAIT_S)
        if message.get("id") == number:
            assert "error" not in message, message
            result: dict[str, Any] = message["result"]
            return result


async def _next(socket: WebSocketClientConnection) -> dict[str, Any]:
    message = await socket.read_message()
    assert message is not None, "Chromium closed the connection"
    told: dict[str, Any] = json.loads(message)
    return told


@asynccontextmanager
async def page(profile: Path) -> AsyncIterator[Page]:
    """Start Chromium with a profile of its own, give a page, end it by its own process."""
    assert PROGRAM is not None
    running = await asyncio.create_subprocess_exec(
        PROGRAM,
        f"--user-data-dir={profile}",
        *_FLAGS,
        stdout=asyncio.subprocess.DEVNULL,
        stderr=asyncio.subprocess.PIPE,
    )
    try:
        socket = await websocket_connect(await asyncio.wait_for(_address(running), _WAIT_S))
        try:
            created = await called(socket, 1, "Target.createTarget", {"url": "about:blank"})
            attached = await called(
                socket, 2, "Target.attachToTarget", {"targetId": created["targetId"], "flatten": True}
            )
            yield Page(socket, attached["sessionId"])
        finally:
            socket.close()
    finally:
        running.kill()
        await running.wait()


async def _address(running: asyncio.subprocess.Process) -> str:
    assert running.stderr is not None
    async for line in running.stderr:
        _, found, address = line.decode(errors="replace").partition("DevTools listening on ")
        if found:
            return address.strip()
    raise AssertionError("Chromium ended before it listened")
