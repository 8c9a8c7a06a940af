"""How likely guessing alone does so well: exact binomial chances. Knows no page."""

from __future__ import annotations

from collections.abc import Iterator


def chance_of_at_least(right: int, trials: int) -> float:
    """
    The chance of guessing at least so many of so many right, one in two each time.

    Args:
        right: Right answers. [1], 0 to trials.
        trials: Answers in all. [1], 0 or more.

    Returns:
        The chance. [1], 0 to 1.

    Source:
        Binomial distribution with p = 1/2, summed in whole numbers; any textbook of statistics.

    Example:
        >>> print(f"{chance_of_at_least(12, 16):.6f}")
        0.038406
    """
    return ways_to_get_at_least(right, trials) / (1 << trials)


def ways_to_get_at_least(right: int, trials: int) -> int:
    """
    In how many ways at least so many of so many answers can be right.

    Args:
        right: Right answers. [1], 0 to trials.
        trials: Answers in all. [1], 0 or more.

    Returns:
        The sum of (trials choose k) from k = right on. [1]

    Source:
        Binomial coefficients; any textbook of statistics.

    Example:
        >>> ways_to_get_at_least(3, 4)
        5
    """
    return sum(ways for _, ways in zip(range(trials - max(right, 0) + 1), choices(trials), strict=False))


def choices(trials: int) -> Iterator[int]:
    """
    In how many ways k of so many answers can be right, from all of them down to none; it is as many from none up.

    Each of the one before, since working out every one by itself takes ten times as long.

    Args:
        trials: Answers in all. [1], 0 or more.

    Returns:
        (trials choose k) for k = trials, trials - 1 and so on to 0. [iterator of 1]

    Source:
        (n choose k + 1) = (n choose k) · (n - k) / (k + 1); any textbook of statistics.

    Example:
        >>> list(choices(4))
        [1, 4, 6, 4, 1]
    """
    ways = 1
    for k in range(trials + 1):
        yield ways
        ways = ways * (trials - k) // (k + 1)


def needed(trials: int, at_most: tuple[int, int] = (5, 100)) -> int | None:
    """
    The fewest right answers that guessing reaches no more often than a share.

    Args:
        trials: Answers in all. [1], 0 or more.
        at_most: The share as a fraction, five in a hundred where not given. [pair of whole numbers]

    Returns:
        The count, or None where even all right is not enough. [1]

    Source:
        Binomial distribution; 5 % is the usual level of significance, common practice.

    Example:
        >>> needed(16), needed(10), needed(4)
        (12, 9, None)
    """
    over, under = at_most
    ways, fewest = 0, None
    for right, more in zip(range(trials, -1, -1), choices(trials), strict=True):
        ways += more
        if ways * under > over * (1 << trials):
            return fewest
        fewest = right
    return fewest


def chance_to_pass(pass_mark: int, trials: int, heard_percent: int) -> float:
    """
    How likely somebody passes who truly hears the difference in some of the trials and guesses the rest.

    Args:
        pass_mark: Right answers needed. [1], 0 to trials.
        trials: Answers in all. [1], 0 or more.
        heard_percent: Trials in which the difference is heard. [%], whole, 0 to 100.

    Returns:
        The chance, summed in whole numbers. [1], 0 to 1.

    Source:
        Binomial distribution with p = heard + (1 - heard) / 2.

    Example:
        >>> print(f"{chance_to_pass(12, 16, 60):.3f}")
        0.798
    """
    hit, miss = 100 + heard_percent, 100 - heard_percent  # both out of 200
    ways, both = 0, hit**trials  # both: hit to the power of k, and miss to the power of what is left
    for _, more in zip(range(trials, pass_mark - 1, -1), choices(trials), strict=False):
        ways += more * both
        both = both // hit * miss
    return float(ways / 200**trials)
