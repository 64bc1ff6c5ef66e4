"""Where shards are worked on: the cores of this machine, or the machines of a cluster."""

from collections.abc import Iterator
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager
from importlib import import_module
from importlib.util import find_spec

from engine.errors import EngineError

NEEDS, WAIT = "distributed", "10s"


class NoCluster(EngineError):
    """The cluster cannot be reached, or what speaks to it is not installed."""


@contextmanager
def pool_of(workers: int | None = None, cluster: str = "") -> Iterator[Executor]:
    """Yield the pool of a run: so many processes (None: one a core), or a cluster by its address.

    Raises:
        NoCluster: `distributed` is not installed, or nobody answers at that address.
    """
    if not cluster:
        with ProcessPoolExecutor(workers) as pool:
            yield pool
        return
    if find_spec(NEEDS) is None:
        raise NoCluster("a cluster needs the extra: pip install 'dryjoint[cluster]'")
    try:
        client = import_module(NEEDS).Client(cluster, timeout=WAIT)
    except (OSError, TimeoutError, ValueError) as error:
        raise NoCluster(f"{cluster}: no cluster answers there ({error})") from None
    with client, client.get_executor() as pool:
        yield pool
