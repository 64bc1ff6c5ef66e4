"""The page around <main>, with the first screen painted into it at build time."""

from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from string import Template
from xml.etree.ElementTree import Element

from engine.diagnosis.model import FamilyText
from web.views.home import home
from web.views.markup import h, html

PAGE = Path(__file__).parent.parent / "page"
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
    "img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)


def index_page(families: tuple[FamilyText, ...], places: Mapping[str, str]) -> bytes:
    """Return index.html; `places` fills what the markup leaves open."""
    markup = Template((PAGE / "index.html").read_text(encoding="utf-8"))
    main = html(*home(families, ()))
    return markup.substitute(places, main=main, policy=POLICY).encode()


def head_of(title: str, stylesheet: str) -> Element:
    """Return the head of a page beside the first, which is only read; the icon is by the looks."""
    icon = str(PurePosixPath(stylesheet).with_name("icon.svg"))
    return h(
        "head",
        None,
        h("meta", {"charset": "utf-8"}),
        h("meta", {"http-equiv": "Content-Security-Policy", "content": POLICY}),
        h("meta", {"name": "viewport", "content": "width=device-width, initial-scale=1"}),
        h("title", None, f"{title} · Dryjoint"),
        h("link", {"rel": "icon", "href": icon, "type": "image/svg+xml"}),
        h("link", {"rel": "stylesheet", "href": stylesheet}),
    )
