"""All that could be read of a knowledge base, before the rules across files are applied."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Generic, TypeVar, cast

from engine.errors import Problem, suggest
from engine.knowledge.document import Document
from engine.knowledge.fitting import fit_family
from engine.knowledge.glossary import Glossary
from engine.knowledge.kinds import Kinds
from engine.knowledge.plans import PlanDocument
from engine.knowledge.proof import Proof
from engine.knowledge.reading import WHOLE, Source, parse, validate
from engine.knowledge.repairs import Repairs
from engine.knowledge.schema import Block, Family
from engine.knowledge.setting import SettingUp
from engine.knowledge.tables import (
    Cautions,
    ChannelPlans,
    Frequencies,
    Instruments,
    Limits,
    Parts,
    Sources,
)
from engine.knowledge.told import Words
from engine.knowledge.wavering import ComingAndGoing

Model = TypeVar("Model", bound=Document)

TABLES: dict[str, type[Document]] = {
    "sources.yaml": Sources,
    "tables/cautions.yaml": Cautions,
    "tables/channels.yaml": ChannelPlans,
    "tables/instruments.yaml": Instruments,
    "tables/limits.yaml": Limits,
    "tables/parts.yaml": Parts,
}
OPTIONAL: dict[str, type[Document]] = {
    "tables/coming-and-going.yaml": ComingAndGoing,
    "tables/frequencies.yaml": Frequencies,
    "tables/glossary.yaml": Glossary,
    "tables/kinds.yaml": Kinds,
    "tables/setting-up.yaml": SettingUp,
    "tables/proof.yaml": Proof,
    "tables/repairs.yaml": Repairs,
    "tables/words.yaml": Words,
}
FOLDERS: dict[str, type[Document]] = {
    "blocks": Block,
    "families": Family,
    "plans": PlanDocument,
}
ELSEWHERE = ("cases/",)  # read by others
MARKS = {"\nwiring:": "families", "\nsynthesiser:": "plans"}  # what only their files hold


@dataclass(frozen=True, slots=True)
class Page(Generic[Model]):
    """One file as its author wrote it, with its lines, and as a model."""

    source: Source
    model: Model


@dataclass(frozen=True, slots=True)
class Draft:
    """What could be read.

    A table that is missing here, and a file that stands in `files` only, has problems of its own:
    rules must not complain of names that it would have held.
    """

    files: frozenset[str]
    pages: Mapping[str, Page[Document]] = field(default_factory=dict)

    def table(self, file: str, model: type[Model]) -> Model | None:
        """Return a table, or None when it could not be read."""
        page = self.pages.get(file)
        return page.model if page and isinstance(page.model, model) else None

    def blocks(self) -> dict[str, Page[Block]]:
        """Return the blocks that could be read, by id, sorted."""
        return cast(dict[str, Page[Block]], self._folder("blocks"))

    def families(self) -> dict[str, Page[Family]]:
        """Return the families that could be read, by id, sorted."""
        return cast(dict[str, Page[Family]], self._folder("families"))

    def plans(self) -> dict[str, Page[PlanDocument]]:
        """Return the frequency plans that could be read, by id, sorted."""
        return cast(dict[str, Page[PlanDocument]], self._folder("plans"))

    def fitted(self, family: Family) -> "Draft":
        """Return the draft with the blocks of a family as it has them."""
        blocks = self.blocks()
        here = fit_family({name: page.model for name, page in blocks.items()}, family)
        pages: dict[str, Page[Document]] = {
            f"blocks/{name}.yaml": Page(blocks[name].source, block) for name, block in here.items()
        }
        return replace(self, pages={**self.pages, **pages})

    def listed(self, folder: str) -> list[str]:
        """Return the ids of all files of a folder, also of those that could not be read."""
        return sorted(name_of(file) for file in self.files if file.startswith(f"{folder}/"))

    def _folder(self, folder: str) -> dict[str, Page[Document]]:
        inside = (file for file in sorted(self.pages) if file.startswith(f"{folder}/"))
        return {name_of(file): self.pages[file] for file in inside}


Pages = Mapping[str, Page[Document]]  # by file
NONE: Pages = MappingProxyType({})


def read_draft(texts: Mapping[str, str], known: Pages = NONE) -> tuple[Draft, list[Problem]]:
    """Return all that can be read of `texts` (by path below kb/), and what cannot.

    Files whose pages are `known` are not read again.
    """
    pages: dict[str, Page[Document]] = {}
    problems = [_missing(file) for file in TABLES if file not in texts]
    files = sorted(file for file in texts if not file.startswith(ELSEWHERE))
    for file in files:
        page, found = (known[file], []) if file in known else read_page(file, texts[file])
        problems += found
        if page is not None:
            pages[file] = page
    return Draft(frozenset(files), pages), problems


def read_page(file: str, text: str) -> tuple[Page[Document] | None, list[Problem]]:
    """Return one file as a model of its kind, or every problem in it."""
    if kind_of(file) is None:
        return None, [_misplaced(file)]
    source, problems = parse(file, text)
    return page_of(source) if source is not None else (None, problems)


def page_of(source: Source) -> tuple[Page[Document] | None, list[Problem]]:
    """Return a parsed file of a known place as a model of its kind, or every problem in it."""
    kind = kind_of(source.file)
    assert kind is not None, source.file
    model, problems = validate(source, kind)
    return (Page(source, model) if model is not None else None), problems


def kind_of(file: str) -> type[Document] | None:
    """Return the model of a file, told from its place below kb/."""
    folder, _, name = file.partition("/")
    tables = {**TABLES, **OPTIONAL}
    return tables.get(file) or (FOLDERS.get(folder) if name and "/" not in name else None)


def name_of(file: str) -> str:
    """Return the id a file stands for.

    >>> name_of("blocks/driver.yaml")
    'driver'
    """
    return file.rpartition("/")[2].removesuffix(".yaml")


def place_of(path: str, text: str) -> str:
    r"""Return where a file belongs below kb/: by its name, by its folder, by what it holds.

    >>> place_of("parts.yaml", "parts: {}"), place_of("beacon.yml", "title: Beacon\nwiring: {}")
    ('tables/parts.yaml', 'families/beacon.yaml')
    >>> place_of("some/where/plans/beacon.yaml", "")
    'plans/beacon.yaml'
    """
    *folders, file = path.split("/")
    name = file.removesuffix(".yaml").removesuffix(".yml")
    for table in (*TABLES, *OPTIONAL):
        if name_of(table) == name:
            return table
    held = next((its for mark, its in MARKS.items() if mark in f"\n{text}"), "blocks")
    return f"{folders[-1] if folders and folders[-1] in FOLDERS else held}/{name}.yaml"


def _missing(file: str) -> Problem:
    remedy = f"Write kb/{file}; every knowledge base has one."
    return Problem(file, 1, WHOLE, "no such file", "a table", remedy)


def _misplaced(file: str) -> Problem:
    places = [*TABLES, *(f"{folder}/{name_of(file)}.yaml" for folder in FOLDERS)]
    expected = f"one of {', '.join([*TABLES, *(f'{folder}/*.yaml' for folder in FOLDERS)])}"
    return Problem(file, 1, WHOLE, "a file in no known place", expected, suggest(file, places))
