"""The notices page: what the site is made of, under which licences."""

import json
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

from web.build.packages import IDIOMORPH, PYODIDE, Package, fetch
from web.build.shell import head_of
from web.build.wheels import WHEELS, Wheel, licence
from web.views.markup import h, html

OWN = "Own work of the Dryjoint authors"
RUNTIME_WORDS = (
    "Runs Python in the browser. Unchanged, but its copy of the standard library is compiled ahead "
    "and trimmed. The Mozilla Public License 2.0 gives you the right to its source; the address "
    "below tells where it is kept."
)


def notices_page(cache: Path, about_python: str, stylesheet: str) -> bytes:
    """Return notices.html. `about_python` is JSON with version and copyright of the runtime."""
    python = json.loads(about_python)
    pyodide, idiomorph = fetch(PYODIDE, cache), fetch(IDIOMORPH, cache)
    main = h(
        "main",
        {"id": "main"},
        h("h1", None, "Notices"),
        h("p", None, f"Page, engine and knowledge: {OWN}."),
        _entry(PYODIDE, _facts(pyodide), RUNTIME_WORDS),
        h("h2", None, f"Python {python['version']}"),
        h("p", None, "Interpreter and standard library. Python Software Foundation License."),
        h("pre", None, python["copyright"]),
        _entry(IDIOMORPH, _facts(idiomorph), "Carries a new screen over into the one shown."),
        h("pre", None, (idiomorph / "LICENSE").read_text(encoding="utf-8")),
        h("p", None, "What follows is fetched only by those who open knowledge of their own."),
        [_wheel_entry(wheel, *licence(wheel, cache)) for wheel in WHEELS],
        h("p", None, h("a", {"href": "./"}, "Back to the page")),
    )
    page = h("html", {"lang": "en-GB"}, head_of("Notices", stylesheet), h("body", None, main))
    return f"<!doctype html>\n{html(page)}".encode()


def _facts(package: Path) -> Any:
    return json.loads((package / "package.json").read_text(encoding="utf-8"))


def _entry(package: Package, facts: Any, words: str) -> Element:
    source = facts.get("repository", {})
    address = source if isinstance(source, str) else source.get("url", "")
    return h(
        "section",
        None,
        h("h2", None, f"{package.name} {package.version}"),
        h("p", None, f"Licence: {facts['license']}. {words}"),
        h("p", None, f"Source: {address.removeprefix('git+')}") if address else None,
    )


def _wheel_entry(wheel: Wheel, source: str, text: str) -> Element:
    return h(
        "section",
        None,
        h("h2", None, f"{wheel.name} {wheel.version}"),
        h("p", None, f"Source: {source}") if source else None,
        h("pre", None, text),
    )
