"""The archives of Python that the page is made of: what it starts with, and what comes when asked.

`leafing` shows what is known; `desk` writes to the owner of a set; `shelf` keeps many cases apart;
`finishing` proves that a set is right; `authoring` checks and compiles what somebody wrote, with
the packages that takes. Nothing that the page starts with may need them.
"""

from collections.abc import Iterable, Mapping
from importlib.metadata import version
from pathlib import Path

from engine.diagnosis.model import SetModel
from engine.knowledge.shipping import dump_texts
from web.build.closure import closure, module_file
from web.build.families import catalogue, glossary, proofs
from web.build.wheels import wheel_files

ROOT = Path(__file__).parents[2]
START = "web.answering"
LEAFING = "web.leafing"
AUTHORING = "web.authoring"
DESK = "web.desk"
SHELF = "web.shelf"
FINISHING = "web.finishing"
Files = dict[str, bytes]


def bundles(models: dict[str, SetModel], texts: Mapping[str, str], cache: Path) -> dict[str, Files]:
    """Return the files of each archive by their path below site-packages."""
    start = closure(START, ROOT)
    leafing = set(closure(LEAFING, ROOT)) - set(start)
    desk = set(closure(DESK, ROOT)) - set(start)
    shelf = set(closure(SHELF, ROOT)) - set(start)
    finishing = set(closure(FINISHING, ROOT)) - set(start)
    authoring = set(closure(AUTHORING, ROOT, is_light=False)) - set(start)
    return {
        "bundle": {
            **_sources(start),
            "web/catalogue.json": catalogue(models, version("dryjoint")),
            "web/glossary.json": glossary(texts),
        },
        "leafing": _sources(leafing),
        "authoring": {**_sources(authoring), "web/knowledge.json": dump_texts(texts).encode()},
        "desk": {**_sources(desk), **wheel_files("desk", cache)},
        "shelf": _sources(shelf),
        "finishing": {**_sources(finishing), "web/proofs.json": proofs(texts)},
        "packages": wheel_files("packages", cache),
    }


def _sources(modules: Iterable[str]) -> Files:
    paths = [module_file(module, ROOT) for module in sorted(modules)]
    return {path: (ROOT / path).read_bytes() for path in paths}
