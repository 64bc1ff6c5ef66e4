"""Wrong knowledge: what the tool believes is one thing, what the simulated set follows another.

priors   the tool's are off by a factor of up to 3 either way, log-uniform
errors   answers are wrong twice as often as the tool believes
links    of what causes make of signals one in ten is missing in what the tool knows
all      the three together
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import exp, log
from random import Random

from engine.diagnosis.making.building import build_network
from engine.diagnosis.making.compiling import QUICK, compile_family
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.sharpening import with_priors
from engine.inference.gain import channel
from engine.inference.network import Network
from engine.knowledge.library import Library
from engine.knowledge.schema import Block, Cause
from engine.proving.making import make_sheet
from engine.proving.sheet import ProofSheet

KNOWN = ("right", "priors", "errors", "links", "all")
FARTHEST_OFF = 3.0
MISSING_LINKS = 0.1
ERRORS_TIMES = 2.0
MOST_WRONG = 0.5  # of the answers in one state; more would turn the check round
LIKELIEST = 0.49


@dataclass(frozen=True, slots=True)
class Knowledge:
    """What the tool believes, how a simulated set shows, the gates it follows, how it is proved."""

    tool: SetModel
    truth: SetModel
    network: Network
    proof: ProofSheet | None = None


def known(model: SetModel, library: Library, how: str, seed: int) -> Knowledge:
    """Return the knowledge of one family, wrong in the way `how` names (one of `KNOWN`)."""
    family, dice = model.family.id, Random(f"{seed} {how} {model.family.id}")
    own = library.of(family)
    network = build_network(own, library.families[family])
    tool = truth = model
    if how in ("links", "all"):
        blocks = {name: _fewer_links(block, dice) for name, block in library.blocks.items()}
        tool = compile_family(library.with_blocks(blocks), family, QUICK)
    if how in ("priors", "all"):
        tool = with_priors(tool, _other_priors(tool, dice))
    if how in ("errors", "all"):
        checks = {name: _errs_more(check) for name, check in model.checks.items()}
        truth = replace(model, checks=checks)
    return Knowledge(tool, truth, network, make_sheet(library, family))


def _other_priors(model: SetModel, dice: Random) -> Mapping[str, float]:
    """Return the prior of every cause, off by its own factor; events stay."""
    far = log(FARTHEST_OFF)
    return {
        name: min(cause.prior * exp(dice.uniform(-far, far)), LIKELIEST)
        for name, cause in model.causes.items()
        if cause.kind != "event"
    }


def _errs_more(check: CheckText) -> CheckText:
    """Return a check whose answers err twice as often; numbers are misread twice as often."""
    if check.meter is not None:
        slip = min(ERRORS_TIMES * check.meter.slip, MOST_WRONG)
        return replace(check, meter=replace(check.meter, slip=slip))
    return replace(check, channel=channel([errs_more(row) for row in check.channel.rows]))


def errs_more(row: Sequence[float]) -> list[float]:
    """Return P(outcome | state) with all but the commonest outcome twice as likely, sum 1.

    They get at most a half together, or what they had where that is more.

    >>> [round(p, 9) for p in errs_more([0.9, 0.04, 0.06])]
    [0.8, 0.08, 0.12]
    """
    best = row.index(max(row))
    wrong = sum(row) - row[best]
    times = max(min(ERRORS_TIMES, MOST_WRONG / wrong), 1.0) if wrong > 0.0 else 1.0
    more = [p * times for p in row]
    more[best] = 1.0 - (sum(more) - more[best])
    return more


def _fewer_links(block: Block, dice: Random) -> Block:
    """Return a block in which one effect of a cause in ten is missing; events keep theirs."""
    causes = {name: _with_fewer(cause, dice) for name, cause in block.causes.items()}
    return block.model_copy(update={"causes": causes})


def _with_fewer(cause: Cause, dice: Random) -> Cause:
    if cause.kind == "event":
        return cause
    ways = {
        name: way.model_copy(update={"makes": _kept(way.makes, dice)})
        for name, way in cause.ways.items()
    }
    return cause.model_copy(update={"ways": ways, "makes": _kept(cause.makes, dice)})


def _kept(makes: Mapping[str, str], dice: Random) -> dict[str, str]:
    return {name: to for name, to in makes.items() if dice.random() >= MISSING_LINKS}
