"""Checks and compiles what somebody wrote in the browser: the same reading, rules and compiling.

The one part of the page that needs pydantic, yaml and networkx. The worker loads it, with them,
when somebody first asks; nothing that the page starts with may import it.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from engine.diagnosis.making.compiling import QUICK, compile_family
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model
from engine.errors import KnowledgeError, Problem
from engine.knowledge.draft import Draft, Pages, page_of, place_of
from engine.knowledge.library import examine, load
from engine.knowledge.shipping import load_texts
from engine.proving.making import make_sheet
from engine.proving.storing import plain
from web.answering import MODELS, OWN_PROOFS, Fields, RefusedError, answered
from web.views.markup import html
from web.views.own.files import OwnFiles
from web.views.own.told import all_right, problem_list, shelf
from web.views.state import OWN

HERE = Path(__file__).parent
Telling = Callable[[str, float], object]
Texts = Mapping[str, str]
MARK = " (your own knowledge)"


def answer(request: str, tell: Telling) -> str:
    """Return the answer to one request; `tell` hears what is being done and the share behind."""
    return answered({**VERBS, "own-compile": lambda args: _compile(args, tell)}, request)


def dumped(family: str) -> str:
    """Return a compiled family as text, to be kept in the browser: its model, then its proof."""
    return f"{dump_model(MODELS[family])}\n{OWN_PROOFS.get(family, '')}"


@lru_cache(maxsize=1)
def shipped() -> tuple[Texts, Pages]:
    """Return the knowledge of this page: its texts, and its files as they were read ahead."""
    texts, sources = load_texts((HERE / "knowledge.json").read_text(encoding="utf-8"))
    pages = {file: page_of(source)[0] for file, source in sources.items()}
    return texts, MappingProxyType({file: page for file, page in pages.items() if page})


def laid_over(own: OwnFiles) -> tuple[dict[str, str], Pages, list[Problem]]:
    """Return all texts with the author's over those of the page, and the pages still good.

    Two files for one place are a problem of the second.
    """
    texts, pages = shipped()
    mine: dict[str, str] = {}
    problems = []
    for file in own.files:
        place = place_of(file.name, file.text)
        if place in mine:
            problems.append(_twice(place))
        mine.setdefault(place, file.text)
    kept = {file: page for file, page in pages.items() if file not in mine}
    return {**texts, **mine}, kept, problems


def _twice(place: str) -> Problem:
    remedy = "Take one of them away, or give it another name."
    return Problem(place, 1, "(whole file)", "two files of this name", "one", remedy)


def _check(args: Fields) -> Fields:
    """Return what is wrong with the author's files, all at once, or what can be done with them."""
    own = OwnFiles.read(args["own"])
    texts, pages, problems = laid_over(own)
    draft, found = examine(texts, pages)
    problems = sorted({*problems, *found})
    if problems:
        told, words = problem_list(problems), f"{len(problems)} to put right."
    else:
        told, words = all_right(_families(draft, own)), "All right."
    return {"parts": {"own-told": html(told)}, "status": words, "places": _places(own)}


def _places(own: OwnFiles) -> list[str]:
    """Return where each file belongs, so that the page finds it by its place."""
    return [place_of(file.name, file.text) for file in own.files]


def _families(draft: Draft, own: OwnFiles) -> list[tuple[str, str, bool]]:
    """Return every family with its title, and whether the author's files have a part in it."""
    mine = set(_places(own))
    return [
        (name, page.model.title, _has_part(name, page.model.blocks, page.model.plan, mine))
        for name, page in draft.families().items()
    ]


def _has_part(name: str, blocks: Mapping[str, object], plan: str | None, mine: set[str]) -> bool:
    parts = {
        f"families/{name}.yaml",
        f"plans/{plan}.yaml",
        *(f"blocks/{one}.yaml" for one in blocks),
    }
    tables = {place for place in mine if "/" not in place or place.startswith("tables/")}
    return bool(parts & mine or tables)


def _shelf(_: Fields) -> Fields:
    """Return the list of shipped files to start from."""
    texts, _pages = shipped()
    return {"parts": {"own-shelf": html(shelf(sorted(texts)))}}


def _taken(args: Fields) -> Fields:
    """Return the text of a shipped file."""
    return {"name": args["file"], "text": shipped()[0][args["file"]]}


def _compile(args: Fields, tell: Telling) -> Fields:
    """Compile one family with the author's files in it, and let the page diagnose with it."""
    tell("Checking", 0.0)
    texts, pages, problems = laid_over(OwnFiles.read(args["own"]))
    try:
        library = load(texts, pages)
    except KnowledgeError as error:
        problems += error.problems
    if problems:
        raise RefusedError("There is something to put right first: check again.")
    model = compile_family(library, args["family"], QUICK, tell)
    name = f"{OWN}{args['family']}"
    MODELS[name] = marked(model, name)
    sheet = make_sheet(library, args["family"])
    OWN_PROOFS[name] = json.dumps(plain(sheet)) if sheet else ""
    return {"family": name}


def marked(model: SetModel, name: str) -> SetModel:
    """Return a model under a name of its own, its title saying whose knowledge it is."""
    return replace(
        model, family=replace(model.family, id=name, title=f"{model.family.title}{MARK}")
    )


VERBS = {"own-check": _check, "own-shelf": _shelf, "own-taken": _taken}
