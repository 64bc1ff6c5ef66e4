"""All rules across and inside files, held to everything that could be read."""

from collections.abc import Iterator

from engine.errors import Problem
from engine.knowledge.answers import answer_problems
from engine.knowledge.bench import bench_problems, unit_problems
from engine.knowledge.chances import chance_problems
from engine.knowledge.circles import circle_problems, family_circle_problems
from engine.knowledge.draft import Draft, Page
from engine.knowledge.events import family_event_problems, harm_problems, past_problems
from engine.knowledge.fitting_rules import feature_problems, figure_problems
from engine.knowledge.judged import limit_problems, measured_problems
from engine.knowledge.kind_rules import kind_problems
from engine.knowledge.plan_rules import plan_problems
from engine.knowledge.presuming import presumption_problems, proof_problems
from engine.knowledge.priors import part_problems, prior_problems
from engine.knowledge.proof_rules import proof_table_problems
from engine.knowledge.reach import idle_problems, reach_problems
from engine.knowledge.references import source_problems
from engine.knowledge.repair_rules import repair_problems, repair_table_problems
from engine.knowledge.saying import phrase_problems, word_problems
from engine.knowledge.schema import Block, Family
from engine.knowledge.setting_rules import family_setting_problems, setting_problems
from engine.knowledge.signals import signal_problems
from engine.knowledge.tuning import family_plan_problems
from engine.knowledge.wavering_rules import occasion_problems, wavering_problems
from engine.knowledge.wiring import family_problems


def rule_problems(draft: Draft) -> Iterator[Problem]:
    """Yield every breach of a rule; none that only follows from a file that cannot be read."""
    yield from source_problems(draft)
    yield from part_problems(draft)
    yield from unit_problems(draft)
    yield from word_problems(draft)
    yield from proof_problems(draft)
    yield from proof_table_problems(draft)
    yield from repair_table_problems(draft)
    for block in draft.blocks().values():
        yield from _block(block, draft)
    for family in draft.families().values():
        yield from _family(family, draft)
    for plan in draft.plans().values():
        yield from plan_problems(plan, draft)
    yield from kind_problems(draft)
    yield from wavering_problems(draft)


def _block(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    yield from signal_problems(page)
    yield from circle_problems(page)
    yield from prior_problems(page, draft)
    yield from chance_problems(page, draft)
    yield from past_problems(page)
    yield from harm_problems(page, draft)
    yield from idle_problems(page, draft)
    yield from answer_problems(page)
    yield from bench_problems(page, draft)
    yield from measured_problems(page)
    yield from presumption_problems(page)
    yield from phrase_problems(page)
    yield from feature_problems(page, draft)
    yield from occasion_problems(page, draft)
    yield from setting_problems(page, draft)
    yield from repair_problems(page, draft)


def _family(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Hold a family to the rules, its blocks as it has them."""
    yield from family_problems(page, draft)
    fitted = draft.fitted(page.model)
    yield from family_plan_problems(page, fitted)
    yield from family_circle_problems(page, fitted)
    yield from family_event_problems(page, fitted)
    yield from reach_problems(page, fitted)
    yield from limit_problems(page, fitted)
    yield from figure_problems(page, fitted)
    yield from family_setting_problems(page, fitted)
