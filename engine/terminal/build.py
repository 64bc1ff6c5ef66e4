"""`dryjoint build`: the static site, ready for any web server."""

from argparse import Namespace
from pathlib import Path

from engine.terminal.command import Subparsers
from engine.terminal.knowledge_base import UsageError

ABOUT = "Build the page as a static site: knowledge compiled ahead, no server needed."
SITE = Path("build/site")


def add_to(subparsers: Subparsers) -> None:
    """Add `build` to the command line."""
    parser = subparsers.add_parser("build", help="build the static site", description=ABOUT)
    parser.add_argument("--out", type=Path, default=SITE, metavar="DIR", help=f"default: {SITE}")
    parser.set_defaults(run=run)


def run(args: Namespace) -> int:
    """Build the site and say how large it is."""
    from web.build import BuildError, build_site  # the outermost layer reaches the page

    try:
        built = build_site(args.out)
    except BuildError as error:
        raise UsageError(str(error)) from None
    print(f"{built.folder}: {built.files} files, {built.size_bytes / 1e6:.1f} MB")
    return 0
