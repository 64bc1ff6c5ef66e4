"""One thing of the knowledge, found by what somebody typed, and the set it belongs to."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from engine.diagnosis.making.building import unlisted_name, unlisted_signals
from engine.diagnosis.model import SetModel
from engine.errors import suggest
from engine.knowledge.library import Library
from engine.knowledge.schema import Block, Family
from engine.terminal.knowledge_base import UsageError
from engine.terminal.models import open_model

Facts = dict[str, Any]

GIVE_UP = "`dryjoint list` has the names of all blocks, causes, checks and signals."


@dataclass(frozen=True)
class OpenedSet:
    """A family of a knowledge base; its model is made, or fetched, when it is first asked for."""

    directory: Path
    library: Library
    id: str

    @property
    def family(self) -> Family:
        """Return what the author wrote of the family."""
        return self.library.families[self.id]

    @cached_property
    def model(self) -> SetModel:
        """Return the compiled set."""
        model = open_model(self.directory, self.id)
        assert model is not None, self.id
        return model

    def title_of(self, check: str) -> str:
        """Return the title of a check by its author's name, without a channel."""
        block, _, name = check.partition(".")
        return self.library.blocks[block].checks[name].title


@dataclass(frozen=True, slots=True)
class Named:
    """What a name stands for: `family`, `block`, `cause`, `check` or `signal`."""

    kind: str
    id: str


def find(library: Library, typed: str) -> Named:
    """Return what somebody means; a part of a block goes by its own name where that is unique.

    Raises:
        UsageError: there is no such thing, or several; the likeliest is offered.
    """
    known = {each.id: each for each in reversed([*_everything(library)])}
    if typed in known:
        return known[typed]
    ends = sorted(name for name in known if name.partition(".")[2] == typed)
    if len(ends) == 1:
        return known[ends[0]]
    if ends:
        raise UsageError(f"'{typed}' is in several blocks. Write one of {', '.join(ends)}.")
    offer = suggest(typed, [*known, *(name.partition(".")[2] for name in known if "." in name)])
    remedy = offer if offer.startswith("Did you mean") else GIVE_UP
    raise UsageError(f"nothing is called '{typed}'. {remedy}")


def set_of(directory: Path, library: Library, named: Named, family: str | None) -> OpenedSet:
    """Return the set that a thing belongs to: the one asked for, or the first that has it.

    Raises:
        UsageError: no such family, or the thing is in no family, or not in this one.
    """
    if family is not None and family not in library.families:
        raise UsageError(f"no family '{family}'. {suggest(family, library.families)}")
    if named.kind == "family":
        return OpenedSet(directory, library.of(named.id), named.id)
    block = named.id.partition(".")[0]
    having = [name for name, one in library.families.items() if block in one.blocks]
    if not having:
        raise UsageError(f"'{block}' is in no family yet; kb/families lists the blocks of each")
    if family is not None and family not in having:
        raise UsageError(f"'{block}' is no block of '{family}', but of {', '.join(having)}")
    chosen = family or having[0]
    return OpenedSet(directory, library.of(chosen), chosen)


def _everything(library: Library) -> Iterator[Named]:
    for name in library.families:
        yield Named("family", name)
    for name, block in library.blocks.items():
        yield Named("block", name)
        yield from _parts(name, block)


def _parts(name: str, block: Block) -> Iterator[Named]:
    yield from (Named("cause", f"{name}.{cause}") for cause in block.causes)
    yield from (Named("cause", unlisted_name(name, each)) for each in unlisted_signals(block))
    yield from (Named("check", f"{name}.{check}") for check in block.checks)
    yield from (Named("signal", f"{name}.{signal}") for signal in block.makes)
