"""The page "how well does it do?": plots and tables of stored simulated runs."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

from engine.assessing.policies import TITLES
from engine.assessing.runs import SIMULATED, Run, read_runs
from engine.assessing.ways import WAY_TITLES
from web.build.figure_tables import family_of, figure_table, figure_words, title_of
from web.build.in_short import in_short
from web.build.measured import STORED as MEASURED
from web.build.measured import measured_section, read_measurement
from web.build.mended import mended_section
from web.build.plots import Group, Mark, chances, intervals, legend
from web.build.shell import head_of
from web.views.markup import h, html

STORED = Path(__file__).with_name("assessed.json")
TITLE = "How well does it do?"
KNOWN = {
    "right": "Knowledge as shipped",
    "priors": "Priors off by up to three times",
    "errors": "Answers wrong twice as often as it believes",
    "links": "One effect in ten missing",
    "all": "All three together",
}
ORDER = tuple(TITLES)


def how_well_page(
    stylesheet: str,
    families: Mapping[str, str],
    stored: Path = STORED,
    measured: Path = MEASURED,
) -> bytes:
    """Return how-well.html of the stored runs; `families` are titles by id.

    Raises:
        UnreadableRun, UnreadableMeasurement: a stored file was written by another version.
    """
    every, speed = read_runs(stored), read_measurement(measured)
    runs = [run for run in every if run["setting"]["policy"] in TITLES]
    mended = [run for run in every if run["setting"]["policy"] in WAY_TITLES]
    one = [run for run in runs if _is(run, faults="1", known="right", report="complaint")]
    shipped = [run for run in one if _is(run, policy="shipped")]
    told = [run for run in runs if _is(run, faults="any", policy="shipped", report="asked")]
    several = [run for run in runs if _is(run, known="right", report="complaint", policy="shipped")]
    main = h(
        "main",
        {"id": "main", "class": "how-well"},
        h("h1", None, TITLE),
        h("p", None, h("a", {"href": "./"}, "Back to the page")),
        in_short(shipped) if shipped else None,
        h("p", None, SIMULATED),
        _ways(one, families) if one else None,
        _several(several, families) if several else None,
        mended_section(mended, families) if mended else None,
        _calibration(told, families) if told else None,
        h("p", None, "Nothing was run for this version yet.") if not every else _made_with(every),
        measured_section(speed) if speed else None,
        h("p", None, h("a", {"href": "./"}, "Back to the page")),
    )
    page = h("html", {"lang": "en-GB"}, head_of(TITLE, stylesheet), h("body", None, main))
    return f"<!doctype html>\n{html(page)}".encode()


def _is(run: Run, **wanted: str) -> bool:
    return all(run["setting"][name] == value for name, value in wanted.items())


def _ways(runs: Sequence[Run], families: Mapping[str, str]) -> Element:
    """Return how many checks and how many sets found, by kind of set and way of working."""
    ways = [way for way in ORDER if any(_is(run, policy=way) for run in runs)]
    ordered = sorted(runs, key=lambda run: (family_of(run), ways.index(run["setting"]["policy"])))
    found = _groups(ordered, ways, families, "found", 100.0, "%")
    checks = _groups(ordered, ways, families, "checks", 1.0, "checks")
    most = max(run["setting"]["most_checks"] for run in runs)
    head = ("Kind of set", "Way of working", "Sets", "Found, %", "Checks", "Floor", "Minutes")
    return h(
        "section",
        None,
        h("h2", None, "One thing wrong, every instrument at hand"),
        h(
            "p",
            None,
            "The same sets, worked on in several ways. Found: the tool said what to act on, "
            f"and it was there. Nobody went on for more than {most} checks; who was still at it "
            "then counts with those. The floor is the number of checks that would do if each told "
            "the most it ever can.",
        ),
        legend(TITLES[way] for way in ways),
        h("h3", None, "Sets found, % (95 % interval)"),
        intervals("Sets found in percent", found, 100.0, (0, 25, 50, 75, 100)),
        h("h3", None, "Checks made, mean (95 % interval)"),
        intervals("Checks made", checks, float(most), tuple(range(0, most + 1, 5))),
        figure_table(head, [_way_row(run, families) for run in ordered]),
    )


def _groups(
    runs: Sequence[Run],
    ways: Sequence[str],
    families: Mapping[str, str],
    figure: str,
    times: float,
    unit: str,
) -> list[Group]:
    groups: dict[str, list[Mark]] = {}
    for run in runs:
        at, low, high = (times * run["scores"][figure][key] for key in ("at", "low", "high"))
        words = f"{TITLES[run['setting']['policy']]}: {at:.0f} {unit}, {low:.0f} to {high:.0f}"
        mark = Mark(ways.index(run["setting"]["policy"]), at, low, high, words)
        groups.setdefault(family_of(run), []).append(mark)
    short = {name: families.get(name, name).partition(",")[0] for name in groups}
    return [Group(short[name], tuple(marks)) for name, marks in groups.items()]


def _way_row(run: Run, families: Mapping[str, str]) -> tuple[str, ...]:
    told = run["scores"]
    return (
        title_of(run, families),
        TITLES[run["setting"]["policy"]],
        str(told["sets"]),
        figure_words(told["found"], 100.0),
        figure_words(told["checks"], 1.0),
        f"{told['floor']['capacity']:.1f}",
        figure_words(told["minutes"], 1.0),
    )


def _several(runs: Sequence[Run], families: Mapping[str, str]) -> Element | None:
    """Return what becomes of sets with several things wrong."""
    kinds = {family_of(run) for run in runs if run["setting"]["faults"] in ("2", "3")}
    rows = [run for run in runs if family_of(run) in kinds and run["setting"]["faults"] in "123"]
    if not kinds:
        return None
    head = ("Kind of set", "Things wrong", "Sets", "One of them leads, %", "Needless, %", "Checks")
    cells = [
        (
            title_of(run, families),
            run["setting"]["faults"],
            str(run["scores"]["sets"]),
            figure_words(run["scores"]["first"], 100.0),
            figure_words(run["scores"]["needless"], 100.0),
            figure_words(run["scores"]["checks"], 1.0),
        )
        for run in sorted(rows, key=lambda run: (family_of(run), run["setting"]["faults"]))
    ]
    about = "Needless: of those told to act, the share told to act on what was not there."
    return h(
        "section",
        None,
        h("h2", None, "Several things wrong at once"),
        h("p", None, about),
        figure_table(head, cells),
    )


def _calibration(runs: Sequence[Run], families: Mapping[str, str]) -> Element:
    """Return how chances that were told came out, on right and on wrong knowledge."""
    names = [name for name in KNOWN if any(_is(run, known=name) for run in runs)]
    parts: list[Element] = []
    for run in sorted(runs, key=lambda one: (family_of(one), _place(names, one))):
        title = f"{KNOWN[run['setting']['known']]}: {title_of(run, families)}"
        number = _place(names, run)
        points = [_point(row, number) for row in run["scores"]["reliability"]]
        parts += [h("h3", None, title), chances(title, [points])]
    about = (
        "Every chance the tool told of a cause, after every answer, against how often such causes "
        "were there. On the line, chances mean what they say. Sets drawn from the priors as they "
        "are, those with nothing wrong too; the owner answered every question of the list."
    )
    return h(
        "section",
        None,
        h("h2", None, "Do the chances mean what they say?"),
        h("p", None, about),
        parts,
        _told_table(runs, names, families),
    )


def _place(names: Sequence[str], run: Run) -> int:
    """Return which state of the knowledge a run was made with, by its number."""
    return names.index(run["setting"]["known"])


def _told_table(runs: Sequence[Run], names: Sequence[str], families: Mapping[str, str]) -> Element:
    """Return the chances from a tenth up, and how often they came true."""
    head = ("Kind of set", "Knowledge", "Told", "Times told", "In sets", "Came true, %")
    rows = sorted(runs, key=lambda run: (family_of(run), _place(names, run)))
    cells = [
        (
            title_of(run, families),
            KNOWN[run["setting"]["known"]],
            f"{100 * row['from']:g} to {100 * row['to']:g} %",
            str(row["told"]),
            str(row["sets"]),
            figure_words(row, 100.0),
        )
        for run in rows
        for row in run["scores"]["reliability"]
        if row["from"] >= 0.1
    ]
    return figure_table(head, cells)


def _point(row: Mapping[str, Any], series: int) -> tuple[float, Mark]:
    words = f"told {100 * row['mean']:.0f} %, came true {figure_words(row, 100.0)} %"
    return row["mean"], Mark(series, row["at"], row["low"], row["high"], words)


def _made_with(runs: Sequence[Run]) -> Element:
    """Return with which knowledge and seed the runs were made."""
    kept = sorted({(family_of(run), run["setting"]["version"]) for run in runs})
    seeds = sorted({run["setting"]["seed"] for run in runs})
    words = "; ".join(f"{family} {version}" for family, version in kept)
    return h("p", None, f"Seed {', '.join(map(str, seeds))}. Knowledge: {words}.")
