"""Serves the built site, over http to this machine or over https to phones nearby."""

from __future__ import annotations

import functools
import ssl
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

# What the pages may ask of a phone, on a tap: where it is and how it lies. Nothing else that a browser could give.
PERMITTED = "geolocation=(self), accelerometer=(self), gyroscope=(self), magnetometer=(self), camera=(), microphone=(), payment=(), usb=()"


class Handler(SimpleHTTPRequestHandler):
    extensions_map = SimpleHTTPRequestHandler.extensions_map | {
        ".js": "text/javascript",
        ".mjs": "text/javascript",
        ".wasm": "application/wasm",
        ".webmanifest": "application/manifest+json",
        ".pack": "application/octet-stream",
    }

    def end_headers(self) -> None:
        # The files' names say their versions, and the keeper keeps them; a browser's own cache would only go stale.
        self.send_header("Cache-Control", "no-store")
        self.send_header("Permissions-Policy", PERMITTED)
        super().end_headers()

    def log_message(self, *words: object) -> None:
        pass


def server(folder: Path, host: str = "localhost", port: int = 8000, certificate: Path | None = None, key: Path | None = None) -> ThreadingHTTPServer:
    made = ThreadingHTTPServer((host, port), functools.partial(Handler, directory=str(folder)))
    if certificate:
        context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
        context.load_cert_chain(certificate, key)
        made.socket = context.wrap_socket(made.socket, server_side=True)
    return made
