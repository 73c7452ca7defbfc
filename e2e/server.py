"""A server of a built site that can truly be stopped: its kept-alive connections end with it."""

from __future__ import annotations

import socket
import sys
import threading
from collections.abc import Callable
from http.server import ThreadingHTTPServer
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "site"))

from packing.serving import Handler  # noqa: E402


def site_files(folder: Path) -> dict[str, bytes]:
    """The files of a built site, without what a publication adds: to publish them again, changed."""
    files = {str(file.relative_to(folder)): file.read_bytes() for file in folder.rglob("*") if file.is_file()}
    return {path: content for path, content in files.items() if not path.startswith("pack/") and path != "keeper.js"}


class Server:
    """Serves a folder on one port of this machine; may be stopped, started again, and told to misbehave."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.asked: list[str] = []
        # path -> what is sent instead: None for a 404, or other bytes.
        self.spoilt: dict[str, bytes | None] = {}
        self.before_answering: Callable[[str], None] = lambda path: None
        self.port = 0
        self._running: _StoppableServer | None = None
        self.start()

    @property
    def address(self) -> str:
        return f"http://localhost:{self.port}/"

    def start(self) -> None:
        if self._running:
            return
        self._running = _StoppableServer(("localhost", self.port), _handler(self))
        self.port = self._running.server_port
        threading.Thread(target=self._running.serve_forever, args=(0.05,), daemon=True).start()

    def stop(self) -> None:
        """Gone, not merely quiet: a thread that keeps a connection alive would go on answering."""
        if self._running:
            self._running.shutdown()
            self._running.server_close()
            self._running.close_connections()
            self._running = None


class _StoppableServer(ThreadingHTTPServer):
    daemon_threads = True

    def __init__(self, *words: Any) -> None:
        self._connections: set[socket.socket] = set()
        super().__init__(*words)

    def process_request(self, request: Any, client_address: Any) -> None:
        self._connections.add(request)
        super().process_request(request, client_address)

    def close_connections(self) -> None:
        for connection in self._connections:
            try:
                connection.shutdown(socket.SHUT_RDWR)
            except OSError:
                pass  # it was closed already

    def handle_error(self, request: Any, client_address: Any) -> None:
        pass  # a browser that was closed in the middle of an answer


def _handler(server: Server) -> type[Handler]:
    class Watched(Handler):
        protocol_version = "HTTP/1.1"

        def __init__(self, *words: Any) -> None:
            super().__init__(*words, directory=str(server.folder))

        def do_GET(self) -> None:
            path = self.path.split("?")[0].lstrip("/")
            server.asked.append(self.path)
            server.before_answering(path)
            if path not in server.spoilt:
                return super().do_GET()
            content = server.spoilt[path]
            if content is None:
                return self.send_error(404)
            self.send_response(200)
            self.send_header("Content-Type", self.guess_type(path))
            self.send_header("Content-Length", str(len(content)))
            self.end_headers()
            self.wfile.write(content)

    return Watched
