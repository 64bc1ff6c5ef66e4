"""The kit of the last case on this device, offered again."""

from collections.abc import Mapping
from typing import Any
from xml.etree.ElementTree import Element

from web.replaying import MOST_PPM
from web.views.markup import button, h
from web.views.state import Bench, Shown
from web.views.words import listed


def last_kit(bench: Bench, shown: Shown) -> Element | None:
    """Return the offer of the kit used last; nothing where there is none or it is there."""
    kept = shown.last_kit or {}
    known = [each for each in kept.get("instruments", ()) if each in bench.model.instruments]
    now = bench.case.kit
    lid = "off" if kept.get("lid") == "off" else "on"
    is_there = now.instruments == frozenset(known) and now.lid == lid
    if not kept or is_there or not _ppm_is_usable(kept):
        return None
    return h(
        "p",
        {"class": "last-kit"},
        button("What I used last time", {"id": "take-last-kit", "data-act": "last-kit"}),
        h("small", None, _words(bench, known, lid, str(kept.get("ppm") or ""))),
    )


def _ppm_is_usable(kept: Mapping[str, Any]) -> bool:
    """Whether what is kept of the counter can go into a case."""
    try:
        return not kept.get("ppm") or 0.0 < float(str(kept["ppm"])) <= MOST_PPM
    except ValueError:
        return False


def _words(bench: Bench, known: list[str], lid: str, ppm: str) -> str:
    titles = [bench.model.instruments[each].title.lower() for each in known]
    listed_ones = listed(titles) if len(titles) <= 4 else f"{len(titles)} instruments"
    with_ppm = f", counter within {ppm} ppm" if ppm else ""
    return f" {(listed_ones or 'eyes and ears only').capitalize()}{with_ppm}, lid {lid}."
