"""Rules on how adjustments are set: names that are there, quantities that fit, no circles."""

from collections.abc import Iterator, Mapping

from engine.errors import Problem
from engine.knowledge.bench import unwarned
from engine.knowledge.circles import circles
from engine.knowledge.draft import Draft, Page
from engine.knowledge.figures import with_known
from engine.knowledge.hanging import hanging
from engine.knowledge.knobs import check_read
from engine.knowledge.naming import unknown
from engine.knowledge.plan_making import make_plan
from engine.knowledge.schema import Block, Family
from engine.knowledge.setting import Setting, SettingUp, Wanted
from engine.knowledge.signal_paths import made_by
from engine.knowledge.tables import ChannelPlans, Instruments, Limits
from engine.knowledge.together import together
from engine.knowledge.wording import Path
from engine.radio.figures import Unclear
from engine.radio.quantities import read_number
from engine.radio.units import spoken

TABLE = "tables/setting-up.yaml"


def setting_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with how a block's adjustments are set, whatever the family."""
    for name, cause in page.model.causes.items():
        if cause.setting is None:
            continue
        path: Path = ("causes", name, "setting")
        if cause.kind != "adjustment":
            remedy = "Delete 'setting', or make it an adjustment."
            found = f"'setting' of a {cause.kind}"
            yield page.source.problem(path, found, "an adjustment", remedy)
        yield from _names(page, path, cause.setting, draft)
        warned = ("causes", name, "cautions")
        yield from unwarned(page.source, warned, cause.setting.needs, cause.cautions)


def family_setting_problems(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with setting up one family, its blocks as it has them."""
    yield from _set_up(page, draft)
    for block in page.model.blocks:
        held = draft.blocks().get(block)
        for name, cause in held.model.causes.items() if held else ():
            if held is not None and cause.setting is not None:
                path = ("causes", name, "setting")
                yield from _readable(page, held, path, cause.setting, draft)


def order_problems(draft: Draft) -> Iterator[Problem]:
    """Yield circles: adjustments that wait for each other and are not said to be a pair.

    Those that are set in turn count as one. The draft has no other problem.
    """
    table = draft.table(TABLE, SettingUp)
    channels = draft.table("tables/channels.yaml", ChannelPlans)
    for page in draft.families().values() if table is not None else ():
        family, plan = page.model, draft.plans().get(page.model.plan or "")
        assert table is not None
        assert channels is not None
        carriers = channels.plans[family.channels]
        made = make_plan(plan.source.file, plan.model, carriers) if plan else None
        blocks = {name: one.model for name, one in draft.fitted(family).blocks().items()}
        inside = {name: block for name, block in blocks.items() if name in family.blocks}
        tied = hanging(family, inside, table, made)
        head = {n: each[0] for each in together(tuple(tied.knobs), tied.pairs) for n in each}
        hops = ((head[n], head[later]) for later, names in tied.first.items() for n in names)
        for circle in circles(hop for hop in hops if hop[0] != hop[1]):
            found, expected = " before ".join(circle), "an order in which each can be set"
            remedy = (
                "Take one 'first', 'after' or 'hangs-on' out, or say that two of them are set "
                "in turn: 'turn-about' in a block, 'pairs' in the family."
            )
            yield page.source.problem(("set-up",), found, expected, remedy)


def _names(page: Page[Block], path: Path, setting: Setting, draft: Draft) -> Iterator[Problem]:
    """Yield names of a setting that are nothing here."""
    block, table = page.model, draft.table(TABLE, SettingUp)
    instruments = draft.table("tables/instruments.yaml", Instruments)
    signals, knobs = [*block.needs, *block.makes], _adjustments(block)
    asked: list[tuple[str, tuple[str, ...], list[str], str]] = [
        ("first", setting.first, [*signals, *knobs], "a signal or an adjustment of this block"),
        ("moved-by", setting.moved_by, signals, "a signal of this block"),
        ("turn-about", tuple(setting.turn_about), knobs, "an adjustment of this block"),
    ]
    if table is not None:
        chapters, what = list(table.chapters), f"a chapter of kb/{TABLE}"
        asked += [("after", setting.after, chapters, what)]
        asked += [("hangs-on", setting.hangs_on, chapters, what)]
        asked += [("chapter", (setting.chapter,), chapters, what)]
    elif TABLE not in draft.files:
        yield page.source.problem(path, "no chapters", f"a table kb/{TABLE}", f"Write kb/{TABLE}.")
    if instruments is not None:
        asked += [("needs", setting.needs, list(instruments.instruments), "an instrument")]
    for key, names, known, expected in asked:
        for name in names:
            yield from unknown(page.source, (*path, key), name, known, expected)
    for name in setting.turn_about:
        other = block.causes[name].setting if name in block.causes else None
        if other is not None and path[1] not in other.turn_about:
            found, remedy = f"'{name}', which does not name it back", "Write both ways."
            yield page.source.problem((*path, "turn-about"), found, "a pair", remedy)


def _adjustments(block: Block) -> list[str]:
    return [name for name, cause in block.causes.items() if cause.setting is not None]


def _readable(
    page: Page[Family], held: Page[Block], path: Path, setting: Setting, draft: Draft
) -> Iterator[Problem]:
    """Yield settings that nothing can be read for, and quantities that are none."""
    blocks = {name: one.model for name, one in draft.blocks().items() if name in page.model.blocks}
    name = held.source.file.rpartition("/")[2].removesuffix(".yaml")
    if check_read(blocks, name, setting) is None and not setting.where:
        known = sorted(held.model.checks)
        if setting.reads is None:
            found, remedy = "neither 'reads' nor 'where'", "Name a check, or say where it is read."
            yield held.source.problem(path, found, "one of the two", remedy)
        else:
            expected = f"a check that {page.source.file} has"
            yield from unknown(held.source, (*path, "reads"), setting.reads, known, expected)
    for number, wanted in enumerate(setting.wanted):
        yield from _wanted(page, held, (*path, "wanted", number), wanted, draft)


def _wanted(
    page: Page[Family], held: Page[Block], path: Path, wanted: Wanted, draft: Draft
) -> Iterator[Problem]:
    table = draft.table("tables/limits.yaml", Limits)
    rules = table.rules.get(page.model.rules) if table is not None else None
    if wanted.limit is not None and rules is not None:
        expected = f"a limit of '{page.model.rules}'"
        yield from unknown(held.source, (*path, "limit"), wanted.limit, rules, expected)
    if wanted.frequency is not None and page.model.plan is None:
        found, remedy = "'frequency' without a plan", "Write 'value: ...' with its tolerance."
        yield held.source.problem((*path, "frequency"), found, "a family with a plan", remedy)
    yield from _measured(held, path, wanted, page.model.figures)
    if wanted.frequency == "own" and not _tied(page.model, held, path):
        found, remedy = "'own', where no oscillator is tied", "Tie it: 'oscillators' or 'set-up'."
        expected = f"a signal that {page.source.file} ties to an oscillator of its plan"
        yield held.source.problem((*path, "frequency"), found, expected, remedy)


def _measured(
    held: Page[Block], path: Path, wanted: Wanted, figures: Mapping[str, str]
) -> Iterator[Problem]:
    """Yield quantities that are none, and those that do not go together."""
    texts = [(key, with_known(text, figures)) for key, text in _quantities(wanted)]
    wrong = [(key, text) for key, text in texts if "{" not in text and not is_quantity(text)]
    for key, text in wrong:
        remedy = "Write a number with its unit, such as 3.3 V."
        yield held.source.problem((*path, key), f"'{text}'", "a quantity", remedy)
    units = [spoken(text.partition(" ")[2]) for _, text in texts if "{" not in text]
    bases = {unit.base for unit in units if unit is not None}
    allowed = {"Hz", "ppm"} if wanted.frequency else {"%"} if wanted.tolerance else set()
    if not wrong and len(bases - allowed) > (0 if wanted.frequency else 1):
        found = " and ".join(f"'{text}'" for _, text in texts)
        expected = "Hz or ppm" if wanted.frequency else "quantities of one kind"
        yield held.source.problem(path, found, expected, "Write both in units of what is read.")


def _tied(family: Family, held: Page[Block], path: Path) -> bool:
    """Whether a signal that an adjustment sets is tied to an oscillator of the plan."""
    name = held.source.file.rpartition("/")[2].removesuffix(".yaml")
    tied = {*family.oscillators.values(), *family.set_up.frequencies}
    return bool(tied & made_by(name, held.model.causes[str(path[1])]))


def _quantities(wanted: Wanted) -> Iterator[tuple[str, str]]:
    for key in ("value", "tolerance"):
        if getattr(wanted, key) is not None:
            yield key, getattr(wanted, key)
    for text in wanted.between or ():
        yield "between", text


def is_quantity(text: str) -> bool:
    """Whether a text is a number with a unit that readings can have."""
    number, _, unit = text.partition(" ")
    if spoken(unit) is None:
        return False
    try:
        read_number(number, unit)
    except Unclear:
        return False
    return True


def _set_up(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield names in a family's own words on setting up that are nothing there.

    Nothing of a block that could not be read.
    """
    family, blocks = page.model, draft.blocks()
    inside = {n: one.model for n, one in blocks.items() if n in family.blocks}
    knobs = [f"{n}.{each}" for n, block in inside.items() for each in _adjustments(block)]
    signals = [f"{n}.{each}" for n, block in inside.items() for each in block.makes]
    unread = {*draft.listed("blocks")} - {*blocks}
    for path, each in _adjustments_named(family):
        if each.partition(".")[0] not in unread:
            yield from unknown(page.source, path, each, knobs, "an adjustment of this family")
    plan = draft.plans().get(family.plan or "")
    for signal, oscillator in family.set_up.frequencies.items():
        path = ("set-up", "frequencies", signal)
        if signal.partition(".")[0] not in unread:
            yield from unknown(page.source, path, signal, signals, "a signal of this family")
        known = plan.model.oscillators if plan else {}
        if plan is not None or family.plan not in draft.listed("plans"):
            yield from unknown(page.source, path, oscillator, known, "an oscillator of its plan")


def _adjustments_named(family: Family) -> Iterator[tuple[Path, str]]:
    """Yield every adjustment a family names for its setting up, with where it stands."""
    for name, others in family.set_up.hangs_on.items():
        for each in (name, *others):
            yield ("set-up", "hangs-on", name), each
    for number, pair in enumerate(family.set_up.pairs):
        for each in pair.of:
            yield ("set-up", "pairs", str(number), "of"), each
