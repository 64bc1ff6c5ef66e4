from importlib.util import find_spec

import pytest

from engine.assessing import pools
from engine.assessing.known_wrongly import Knowledge
from engine.assessing.pools import NoCluster, pool_of
from engine.assessing.shards import run_all, shards
from engine.assessing.trial import Plan
from engine.diagnosis.case import full_kit

NEEDS = pytest.mark.skipif(
    find_spec("distributed") is None, reason="needs the extra: pip install 'dryjoint[cluster]'"
)


@NEEDS
@pytest.mark.filterwarnings("ignore::DeprecationWarning", "ignore::ResourceWarning")
def test_a_cluster_ends_with_the_same_trials(right: Knowledge) -> None:
    """By its address, as another machine would be; in the same order as processes give."""
    from distributed import LocalCluster

    parts = shards(right, "some", Plan("shipped", full_kit(right.truth)), 1, range(6))
    with pool_of(1) as pool:
        there = run_all(pool, parts, lambda _done, _total: None)
    with (
        LocalCluster(
            n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None
        ) as cluster,
        pool_of(cluster=cluster.scheduler_address) as pool,
    ):
        assert run_all(pool, parts, lambda _done, _total: None) == there


@NEEDS
def test_an_address_where_nobody_answers_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is given up after a while, and no process is started instead."""
    monkeypatch.setattr(pools, "WAIT", "1s")
    with pytest.raises(NoCluster) as told, pool_of(cluster="tcp://127.0.0.1:1"):
        pass
    assert str(told.value).startswith("tcp://127.0.0.1:1: no cluster answers there (")


def test_without_the_extra_it_is_told_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    """A cluster is optional; this machine's cores need nothing."""
    monkeypatch.setattr(pools, "NEEDS", "no_such_package")
    with pytest.raises(NoCluster) as told, pool_of(cluster="tcp://127.0.0.1:1"):
        pass
    assert str(told.value) == "a cluster needs the extra: pip install 'dryjoint[cluster]'"
