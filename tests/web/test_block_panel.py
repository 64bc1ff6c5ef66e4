import re
from dataclasses import replace

from engine.diagnosis.model import SetModel
from tests.web.test_views import DARK, after
from web.views.bench import bench_screen
from web.views.diagram import block_list, diagram
from web.views.markup import html
from web.views.page import later
from web.views.state import Bench, Shown


def test_an_opened_block_tells_checks_points_and_signals(small_model: SetModel) -> None:
    """After the repaint come its checks with worth and place, and its signals with their chance."""
    bench = after(small_model, DARK)
    more = later(bench, Shown("bench", block="sender"), "map", "0")["block"]
    assert 'data-block-check="sender.power"' in more
    assert re.search(r"tells [a-z ]+ · \d", more)
    assert re.search(r'data-signal="sender\.output"><span>[^<]+</span><small>right [\d.]+ %', more)


def test_a_check_of_a_block_names_its_point(small_model: SetModel) -> None:
    """Where a check says where the probe goes, the opened block says so too."""
    check = replace(small_model.checks["supply.rail-volts"], where="The red lead.")
    told = replace(small_model, checks={**small_model.checks, check.id: check})
    more = later(after(told), Shown("bench", block="supply"), "map", "0")["block"]
    assert '<small class="point">Point: The red lead.</small>' in more


def test_its_causes_are_there_at_once(fresh: Bench) -> None:
    """The causes of the opened block come with the bench, each to be opened."""
    shown = html(*bench_screen(fresh, Shown("bench", block="sender")))
    assert 'id="opened-block-title"' in shown
    assert 'data-block-cause="sender.' in shown
    assert 'data-block-cause="supply.' not in shown


def test_the_drawing_is_one_stop_of_the_tab_key(fresh: Bench) -> None:
    """One block takes the focus, the others are reached from it; each says chance and points."""
    drawn = later(fresh, Shown("bench"), "map", "0")["map"]
    stops = re.findall(r'role="button" tabindex="(-?\d)" aria-label="([^"]+)"', drawn)
    assert [stop for stop, _ in stops].count("0") == 1
    assert all(re.search(r": .*%, \d+ test points?$", words) for _, words in stops)


def test_focus_goes_to_the_opened_block(fresh: Bench) -> None:
    """From the drawing and from the list alike; a press that closes a block moves no focus."""
    for show in (diagram, block_list):
        closed = html(show(fresh.model, fresh.step.blocks, None))
        assert closed.count('data-focus="opened-block-title"') == 2
        opened = html(show(fresh.model, fresh.step.blocks, "sender"))
        assert opened.count('data-focus="opened-block-title"') == 1
