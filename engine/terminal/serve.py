"""`dryjoint serve`: the built site, for this machine only."""

from argparse import Namespace
from pathlib import Path

from engine.terminal.build import SITE
from engine.terminal.command import Subparsers
from engine.terminal.knowledge_base import UsageError

ABOUT = "Serve the site that `dryjoint build` made, to this machine only."
PORT = 8027


def add_to(subparsers: Subparsers) -> None:
    """Add `serve` to the command line."""
    parser = subparsers.add_parser("serve", help="serve the built site", description=ABOUT)
    parser.add_argument("--site", type=Path, default=SITE, metavar="DIR", help=f"default: {SITE}")
    parser.add_argument("--port", type=int, default=PORT, metavar="N", help="0 takes any free one")
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Serve until interrupted."""
    from web.serving import serve  # the outermost layer reaches the page

    if not (args.site / "index.html").is_file():
        raise UsageError(f"{args.site}: no site there; run `dryjoint build` first")
    serve(args.site, args.port)
    return 0
