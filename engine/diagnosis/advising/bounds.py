"""Which checks cannot be among the best, told before their gain is worked out."""

from heapq import heappush, heappushpop


class Best:
    """The largest numbers seen so far, at most `size` of them; None keeps no count."""

    def __init__(self, size: int | None) -> None:
        self.size = size
        self.heap: list[float] = []
        self.top = 0.0

    def beat(self, number: float) -> bool:
        """Whether so many larger ones were seen that `number` does not matter."""
        return self.size is not None and len(self.heap) == self.size and number < self.heap[0]

    def add(self, number: float) -> None:
        """Take note of a number."""
        self.top = max(self.top, number)
        if self.size is not None:
            push = heappushpop if len(self.heap) == self.size else heappush
            push(self.heap, number)


def is_beaten(most_bits: float, minutes: float, share: float, gains: Best, rates: Best) -> bool:
    """Whether no check can be among the best that tells at most `most_bits` in `minutes`."""
    is_small = gains.beat(most_bits) and most_bits < share * gains.top
    return is_small and rates.beat(most_bits / minutes)
