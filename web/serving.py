"""Serves the built site to this machine."""

import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

from web.build.shell import POLICY

HOST, PORT = "127.0.0.1", 8027
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".model": "application/octet-stream",
    ".mjs": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".zip": "application/zip",
}
HASHED = re.compile(r"^/(app|families|runtime|workshop)-[0-9a-f]{12}/")
FOR_EVER = "public, max-age=31536000, immutable"


class Handler(SimpleHTTPRequestHandler):
    """Sends files with the policy of the page and the right types; keeps quiet."""

    protocol_version = "HTTP/1.1"
    extensions_map = SimpleHTTPRequestHandler.extensions_map | TYPES

    def end_headers(self) -> None:
        """Add what every answer carries."""
        self.send_header("Content-Security-Policy", POLICY)
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cache-Control", FOR_EVER if HASHED.match(self.path) else "no-store")
        super().end_headers()

    def log_message(self, format: str, *arguments: object) -> None:
        """Keep quiet."""


def serve(site: Path, port: int = PORT) -> None:
    """Serve `site` until interrupted; print the address. Port 0 takes any free one."""
    with server_of(site, port) as server:
        print(f"Dryjoint is at {address(server)} (stop with Ctrl-C)", flush=True)
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            print()


class Server(ThreadingHTTPServer):
    """Takes it in silence when a browser goes away in the middle of a file."""

    daemon_threads = True

    def handle_error(self, request: object, client_address: object) -> None:
        """Report what went wrong, unless it is only that nobody listens any more."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


@contextmanager
def served(site: Path, port: int = 0) -> Iterator[str]:
    """Serve `site` in the background while the block runs; gives the address."""
    with server_of(site, port) as server:
        thread = Thread(target=server.serve_forever, daemon=True)
        thread.start()
        try:
            yield address(server)
        finally:
            server.shutdown()
            thread.join()


def server_of(site: Path, port: int) -> Server:
    """Return a server of the files in `site`, reachable from this machine only."""
    return Server((HOST, port), partial(Handler, directory=str(site)))


def address(server: Server) -> str:
    """Return where a server is reached."""
    return f"http://{HOST}:{server.server_address[1]}/"
