"""Rules on what adapts a block to a family: features and figures."""

from collections.abc import Iterator

from engine.errors import Problem, suggest
from engine.knowledge.draft import Draft, Page
from engine.knowledge.figures import figures_in, number_of, numbers_in
from engine.knowledge.naming import unknown
from engine.knowledge.schema import Block, Family


def feature_problems(page: Page[Block], draft: Draft) -> Iterator[Problem]:
    """Yield features asked for by causes and checks that no family has."""
    if len(draft.families()) < len(draft.listed("families")):
        return  # one that could not be read may have it
    known = sorted({each for one in draft.families().values() for each in one.model.features})
    for part, named in (("causes", page.model.causes), ("checks", page.model.checks)):
        for name, item in named.items():
            for index, feature in enumerate(item.fitted_with):
                path = (part, name, "fitted-with", index)
                yield from unknown(page.source, path, feature, known, "a feature of a family")


def figure_problems(page: Page[Family], draft: Draft) -> Iterator[Problem]:
    """Yield figures that the blocks of a family, as fitted, ask for and it lacks; and idle ones."""
    source, given, blocks = page.source, page.model.figures, draft.blocks()
    if any(name not in blocks for name in page.model.blocks):
        return  # a block that could not be read may ask for any figure
    asked: set[str] = set()
    for name in page.model.blocks:
        wanted = figures_in(blocks[name].model)
        asked |= wanted
        for figure in sorted(wanted - set(given)):
            expected = f"'{figure}', which '{name}' asks for"
            remedy = f"Write it under 'figures'. {suggest(figure, given)}"
            yield source.problem(("figures",), "nothing", expected, remedy)
        for figure in sorted(numbers_in(blocks[name].model) & set(given)):
            if number_of(given[figure]) is None:
                found, expected = f"'{given[figure]}'", f"a number first, for a reading of '{name}'"
                remedy = "Begin with the number, such as '4 W'."
                yield source.problem(("figures", figure), found, expected, remedy)
    for figure in given:
        if figure not in asked:
            found, remedy = "what no block of this family asks for", "Delete it."
            yield source.problem(("figures", figure), found, "a figure in use", remedy)
