"""Sets brought back to their shelf, on the page of figures."""

from collections.abc import Mapping, Sequence
from xml.etree.ElementTree import Element

from engine.assessing.runs import Run
from engine.assessing.ways import WAY_TITLES
from web.build.figure_tables import family_of, figure_table, figure_words, title_of
from web.views.markup import h

ABOUT = (
    "Diagnosed, repaired and tried again until the owner notices nothing any more; then set up "
    "where the repairs made that necessary, and proved. What would not come right, or failed, led "
    "back to the search. Restored: nothing is left that shows anywhere, and nothing failed in the "
    "proof. Proved: besides, every limit was kept as far as the instruments can tell, which near a "
    "limit they seldom can. A needless repair is one of what was not wrong. Minutes are those of "
    "checks, repairs, setting up and proof, estimates all of them."
)
HEAD = (
    "Kind of set", "Things wrong", "Way of working", "Sets", "Owner content, %", "Restored, %",
    "Proved, %", "Needless repairs a set", "Checks", "Minutes",
)  # fmt: skip
FIGURES = {
    "content": 100.0,
    "restored": 100.0,
    "proved": 100.0,
    "needless_repairs": 1.0,
    "checks": 1.0,
    "minutes": 1.0,
}


def mended_section(runs: Sequence[Run], families: Mapping[str, str]) -> Element:
    """Return what repairing by each way of working came to."""
    ways = list(WAY_TITLES)

    def key(run: Run) -> tuple[str, str, int]:
        return family_of(run), run["setting"]["faults"], ways.index(run["setting"]["policy"])

    rows = [_row(run, families) for run in sorted(runs, key=key)]
    heading = h("h2", None, "Back on the shelf")
    return h("section", None, heading, h("p", None, ABOUT), figure_table(HEAD, rows))


def _row(run: Run, families: Mapping[str, str]) -> tuple[str, ...]:
    setting, told = run["setting"], run["scores"]
    return (
        title_of(run, families),
        setting["faults"],
        WAY_TITLES[setting["policy"]],
        str(told["sets"]),
        *(_told(told[name], times) for name, times in FIGURES.items()),
    )


def _told(figure: Mapping[str, float], times: float) -> str:
    if times == 1.0 and figure["at"] < 10.0:
        return f"{figure['at']:.1f} ({figure['low']:.1f} to {figure['high']:.1f})"
    return figure_words(figure, times)
