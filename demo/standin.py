"""The stand-in for the chat platform: its bot API, and a person's side of it, on loopback only."""

import asyncio
import json
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from datetime import datetime
from http import HTTPStatus
from typing import Any

from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from tornado.web import Application, RequestHandler

from demo import person
from demo.chats import Chats, Json
from demo.methods import Call, Methods, Upload
from demo.updates import RefusedError, Updates, Webhook

HOST = "127.0.0.1"
STOPPED = "the server is shutting down"


@dataclass(slots=True)
class Fault:
    """What goes wrong with the next `times` calls of one method."""

    method: str
    times: int = 1
    status: int | None = None
    retry_after: int | None = None
    cut: str | None = None
    delay_s: float = 0
    is_garbage: bool = False
    """The answer is no JSON, though the method did its work, as from a proxy between the two."""

    def refusal(self) -> RefusedError:
        """Give the answer that stands in for the method's own."""
        status = self.status or HTTPStatus.INTERNAL_SERVER_ERROR
        phrase = HTTPStatus(status).phrase if status in HTTPStatus._value2member_map_ else "Error"
        if self.retry_after is None:
            return RefusedError(status, phrase)
        return RefusedError(status, f"{phrase}: retry after {self.retry_after}", retry_after=self.retry_after)


class StandIn:
    """One bot, the chats that talk to it, and the HTTP server between them."""

    def __init__(
        self,
        *,
        token: str = "100:demo",  # noqa: S107
        clock: Callable[[], datetime],
        first_update: int = 1,
    ) -> None:
        self.token = token
        self.clock = clock
        self.chats = Chats(clock)
        self.updates = Updates(first_update)
        self.webhook = Webhook(self.updates)
        self.methods = Methods(token, self.chats, self.updates, self.webhook)
        self.faults: list[Fault] = []
        self.settled: Callable[[], Awaitable[None]] | None = None
        self.move_clock: Callable[[Json], Awaitable[None]] | None = None
        self.zone_of: Callable[[int], Awaitable[str | None]] | None = None
        self.port = 0
        self._server: HTTPServer | None = None

    @property
    def url(self) -> str:
        """Where it listens."""
        return f"http://{HOST}:{self.port}"

    @property
    def calls(self) -> dict[str, int]:
        """How often each method was called, refused calls included."""
        return dict(self.methods.calls)

    async def start(self, port: int = 0) -> None:
        """Listen on loopback; port 0 takes a free one."""
        sockets = bind_sockets(port, HOST)
        self.port = sockets[0].getsockname()[1]
        self._server = HTTPServer(self._application())
        self._server.add_sockets(sockets)

    async def stop(self) -> None:
        """Close every connection; what was said is kept until the object goes."""
        self.updates.interrupt(STOPPED)
        await self.webhook.stop()
        if self._server is not None:
            self._server.stop()
            await self._server.close_all_connections()
            self._server = None

    def take_fault(self, method: str) -> Fault | None:
        """Use up one of the faults waiting for this method."""
        for fault in self.faults:
            if fault.method == method:
                fault.times -= 1
                if not fault.times:
                    self.faults.remove(fault)
                return fault
        return None

    def _application(self) -> Application:
        here = {"standin": self}
        routes: list[Any] = [
            (r"/bot([^/]*)/(\w*)", BotHandler, here),
            (r"/file/bot([^/]*)/(.*)", FileHandler, here),
            *((pattern, handler, here) for pattern, handler in person.ROUTES),
        ]
        return Application(routes, log_function=lambda _handler: None)


class BotHandler(RequestHandler):
    """`/bot<token>/<method>`."""

    standin: StandIn

    def initialize(self, standin: StandIn) -> None:
        """Take the stand-in the route was made with."""
        self.standin = standin
        self._is_gone = False

    def on_connection_close(self) -> None:
        """Remember that nobody reads the answer any more."""
        self._is_gone = True

    def compute_etag(self) -> None:
        """Answers are never cached."""

    async def get(self, token: str, method: str) -> None:
        """Answer a call; the platform takes GET and POST alike."""
        await self.post(token, method)

    async def post(self, token: str, method: str) -> None:
        """Answer a call."""
        fault = None
        try:
            name = self._method(token, method)
            self.standin.methods.calls[name] += 1
            fault = self.standin.take_fault(name)
            if fault is not None and await self._is_spoilt(fault):
                return
            self._answer({"ok": True, "result": await self._result(name)}, fault)
        except RefusedError as no:
            self._refuse(no, fault)

    def write_error(self, status_code: int, **_kwargs: Any) -> None:
        """Put what went wrong on the way here into the platform's form."""
        said = {"ok": False, "error_code": status_code, "description": HTTPStatus(status_code).phrase}
        self.finish(json.dumps(said))

    def _method(self, token: str, method: str) -> str:
        if token != self.standin.token:
            raise RefusedError(401, "Unauthorized")
        name = self.standin.methods.names.get(method.lower())
        if name is None:
            raise RefusedError(404, "Not Found")
        return name

    async def _is_spoilt(self, fault: Fault) -> bool:
        if fault.delay_s:
            await asyncio.sleep(fault.delay_s)
        if fault.cut == "before":
            self._cut()
            return True
        if fault.cut is None and fault.status is not None:
            raise fault.refusal()
        return False

    async def _result(self, name: str) -> Any:
        methods, call = self.standin.methods, self._call()
        if name == "getUpdates":
            return await methods.get_updates(call)
        return methods.by_name[name](call)

    def _call(self) -> Call:
        request = self.request
        fields: Json = {key: values[-1].decode(errors="replace") for key, values in request.arguments.items()}
        if request.headers.get("Content-Type", "").startswith("application/json"):
            fields |= self._json_fields()
        uploads = {
            name: Upload(part[-1].filename, part[-1].content_type, part[-1].body)
            for name, part in request.files.items()
        }
        return Call(fields, uploads)

    def _json_fields(self) -> Json:
        try:
            fields = json.loads(self.request.body)
        except (ValueError, RecursionError):
            fields = None
        if not isinstance(fields, dict):
            raise RefusedError(400, "Bad Request: can't parse JSON object")
        return fields

    def _refuse(self, no: RefusedError, fault: Fault | None) -> None:
        self.set_status(no.status, no.description.partition(":")[0])
        said: Json = {"ok": False, "error_code": no.status, "description": no.description}
        if no.parameters:
            said["parameters"] = no.parameters
        self._answer(said, fault)

    def _answer(self, said: Json, fault: Fault | None) -> None:
        if self._is_gone:
            return
        if fault is not None and fault.cut == "after":
            self._cut()
            return
        self.set_header("Content-Type", "application/json")
        self.finish(json.dumps(said) if fault is None or not fault.is_garbage else "<html>502</html>")

    def _cut(self) -> None:
        if not self._is_gone:
            self.detach().close()


class FileHandler(RequestHandler):
    """`/file/bot<token>/<path>`: what getFile names."""

    standin: StandIn

    def initialize(self, standin: StandIn) -> None:
        """Take the stand-in the route was made with."""
        self.standin = standin

    def get(self, token: str, path: str) -> None:
        """Give the bytes."""
        if token != self.standin.token:
            self.send_error(401)
            return
        stored = self.standin.chats.paths.get(path)
        if stored is None:
            self.send_error(404)
            return
        self.set_header("Content-Type", "application/octet-stream")
        self.finish(stored.body)
