"""A whole knowledge base as one frozen value, or every problem in it at once."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from hashlib import sha256
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from engine.errors import KnowledgeError, Problem
from engine.knowledge.checking import rule_problems
from engine.knowledge.document import Document
from engine.knowledge.draft import NONE, Draft, Pages, read_draft
from engine.knowledge.figures import with_figures
from engine.knowledge.fitting import fit_family
from engine.knowledge.glossary import Glossary
from engine.knowledge.kinds import Kinds
from engine.knowledge.plan_making import make_plan
from engine.knowledge.proof import Proof
from engine.knowledge.reading import read_text
from engine.knowledge.repairs import Repairs
from engine.knowledge.schema import Block, Family
from engine.knowledge.setting import SettingUp
from engine.knowledge.setting_rules import order_problems
from engine.knowledge.tables import (
    Caution,
    Cautions,
    ChannelPlan,
    ChannelPlans,
    Frequencies,
    Instrument,
    Instruments,
    Limit,
    Limits,
    Parts,
    RuleSet,
    Source,
    Sources,
)
from engine.knowledge.told import Words
from engine.knowledge.wavering import ComingAndGoing
from engine.radio.plans.plan import Plan

Model = TypeVar("Model", bound=Document)


@dataclass(frozen=True, slots=True)
class Library:
    """Everything the trade knows, checked: whatever is named here is also there.

    `version` changes whenever any file does; all mappings go by id.
    """

    version: str
    sources: Mapping[str, Source]
    parts: Parts
    bench: Instruments
    cautions: Mapping[str, Caution]
    limits: Mapping[str, Mapping[str, Limit]]
    channels: Mapping[str, ChannelPlan]
    blocks: Mapping[str, Block]
    families: Mapping[str, Family]
    plans: Mapping[str, Plan]
    frequencies: Frequencies | None
    words: Words | None
    kinds: Kinds | None = None
    wavering: ComingAndGoing | None = None
    glossary: Glossary | None = None
    setting_up: SettingUp | None = None
    rule_sets: Mapping[str, RuleSet] = field(default_factory=dict)
    proof: Proof | None = None
    repairs: Repairs | None = None

    @property
    def instruments(self) -> Mapping[str, Instrument]:
        """Return every instrument by its id."""
        return self.bench.instruments

    def of(self, family_id: str) -> "Library":
        """Return the library with the blocks of one family only, as it has them."""
        family = self.families[family_id]
        blocks = {
            name: with_figures(block, family.figures)
            for name, block in fit_family(self.blocks, family).items()
        }
        return self.with_blocks(blocks)

    def with_blocks(self, blocks: Mapping[str, Block]) -> "Library":
        """Return the library with these blocks in place of its own."""
        return replace(self, blocks=MappingProxyType(dict(blocks)))


def load(texts: Mapping[str, str], known: Pages = NONE) -> Library:
    """Return the knowledge base in `texts`, file text by path below kb/.

    Files whose pages are `known` are not read again.

    Raises:
        KnowledgeError: with all problems of all files.
    """
    draft, problems = examine(texts, known)
    if problems:
        raise KnowledgeError(problems)
    return _library(draft, version_of(texts))


def examine(texts: Mapping[str, str], known: Pages = NONE) -> tuple[Draft, list[Problem]]:
    """Return what can be read of `texts`, and all problems of all files, in file order."""
    draft, problems = read_draft(texts, known)
    problems = sorted({*problems, *rule_problems(draft)})
    return draft, problems or sorted(set(order_problems(draft)))


def read_library(directory: Path) -> Library:
    """Return the knowledge base below `directory`; raise KnowledgeError as `load` does."""
    return load(read_texts(directory))


def read_texts(directory: Path) -> dict[str, str]:
    """Return the text of every YAML file below `directory`, by its path there."""
    return {
        path.relative_to(directory).as_posix(): read_text(path)
        for path in sorted(directory.rglob("*.yaml"))
    }


def version_of(texts: Mapping[str, str]) -> str:
    """Return twelve hexadecimal digits that change with any file."""
    digest = sha256()
    for file in sorted(texts):
        digest.update(f"{file}\0{texts[file]}\0".encode(errors="surrogateescape"))
    return digest.hexdigest()[:12]


def _library(draft: Draft, version: str) -> Library:
    """Return the models of a draft that has no problems."""
    channels = _table(draft, "tables/channels", ChannelPlans).plans
    return Library(
        version=version,
        sources=MappingProxyType(_table(draft, "sources", Sources).sources),
        parts=_table(draft, "tables/parts", Parts),
        bench=_table(draft, "tables/instruments", Instruments),
        cautions=MappingProxyType(_table(draft, "tables/cautions", Cautions).cautions),
        limits=MappingProxyType(_table(draft, "tables/limits", Limits).rules),
        rule_sets=MappingProxyType(_table(draft, "tables/limits", Limits).sets),
        channels=MappingProxyType(channels),
        blocks=MappingProxyType({name: page.model for name, page in draft.blocks().items()}),
        families=MappingProxyType({name: page.model for name, page in draft.families().items()}),
        plans=MappingProxyType(
            {
                name: make_plan(name, page.model, channels[page.model.channels])
                for name, page in draft.plans().items()
            }
        ),
        frequencies=draft.table("tables/frequencies.yaml", Frequencies),
        words=draft.table("tables/words.yaml", Words),
        kinds=draft.table("tables/kinds.yaml", Kinds),
        wavering=draft.table("tables/coming-and-going.yaml", ComingAndGoing),
        glossary=draft.table("tables/glossary.yaml", Glossary),
        setting_up=draft.table("tables/setting-up.yaml", SettingUp),
        proof=draft.table("tables/proof.yaml", Proof),
        repairs=draft.table("tables/repairs.yaml", Repairs),
    )


def _table(draft: Draft, name: str, model: type[Model]) -> Model:
    table = draft.table(f"{name}.yaml", model)
    assert table is not None, name
    return table
