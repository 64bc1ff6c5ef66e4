"""How easily a text is read: Flesch's reading ease, with syllables counted by rule.

References:
    Flesch, A new readability yardstick, Journal of Applied Psychology 32 (1948) 221-233; the
    figures of the formula are written from memory of it.
"""

import re

WORD = re.compile(r"[A-Za-z]+(?:'[a-z]+)?|\d+(?:[.,]\d+)*")
END = re.compile(r"[.!?:;]+(?:\s|$)")
SILENT = re.compile(
    r"(?:[^laeiouy]e|[aeiouy]le|[^laeiouytd]ed|[laeiouy]led|[aeiouy]les|[^laeiouysxzcgh]es)$"
)
HIATUS = re.compile(r"i[ao]|[aeo]ing|eo$|[^qg]u[ao]|uie|ism$")
ONE_SOUND = re.compile(r"[stcg]io|[tc]ia")


def reading_ease(text: str) -> float:
    """Return Flesch's reading ease: about 100 for a nursery rhyme, under 30 for a contract.

    >>> round(reading_ease("The cat sat on the mat."), 2)
    116.15
    """
    words = WORD.findall(text)
    if not words:
        return 100.0
    sentences = max(len(END.findall(text.strip() + ".")), 1)
    sounds = sum(map(syllables, words))
    return 206.835 - 1.015 * len(words) / sentences - 84.6 * sounds / len(words)


def syllables(word: str) -> int:
    """Return how many syllables a word has, by rule; a figure has one a digit.

    >>> [syllables(word) for word in ("set", "aerial", "microphone", "table", "pressed", "13.8")]
    [1, 3, 3, 2, 1, 3]
    """
    low = word.lower()
    if low[0].isdigit():
        return sum(map(str.isdigit, low))
    groups = len(re.findall(r"[aeiouy]+", low))
    apart = len(HIATUS.findall(low)) - len(ONE_SOUND.findall(low))
    return max(groups + max(apart, 0) - bool(SILENT.search(low)), 1)
