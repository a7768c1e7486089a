"""Low-discrepancy points: Sobol' permutations, randomised by a digital shift."""

from functools import lru_cache

__all__ = ["DIMENSIONS", "sobol_integers"]

# Primitive polynomials (all bits) and initial direction numbers of dimensions 2 to 24,
# new-joe-kuo-6.21201 of [Joe-Kuo-2008]. SEEN in the data file that scipy ships.
JOE_KUO = (
    (3, (1,)),
    (7, (1, 3)),
    (11, (1, 3, 1)),
    (13, (1, 1, 1)),
    (19, (1, 1, 3, 3)),
    (25, (1, 3, 5, 13)),
    (37, (1, 1, 5, 5, 17)),
    (41, (1, 1, 5, 5, 5)),
    (47, (1, 1, 7, 11, 19)),
    (55, (1, 1, 5, 1, 1)),
    (59, (1, 1, 1, 3, 11)),
    (61, (1, 3, 5, 5, 31)),
    (67, (1, 3, 3, 9, 7, 49)),
    (91, (1, 1, 1, 15, 21, 21)),
    (97, (1, 3, 1, 13, 27, 49)),
    (103, (1, 1, 1, 15, 7, 5)),
    (109, (1, 3, 1, 15, 13, 25)),
    (115, (1, 1, 5, 5, 19, 61)),
    (131, (1, 3, 7, 11, 23, 15, 103)),
    (137, (1, 3, 7, 13, 13, 15, 69)),
    (143, (1, 1, 3, 13, 7, 35, 63)),
    (145, (1, 3, 5, 9, 1, 25, 53)),
    (157, (1, 3, 1, 13, 9, 35, 107)),
)

DIMENSIONS = len(JOE_KUO) + 1


def _directions(dimension: int, bits: int) -> list[int]:
    """Direction numbers of one dimension, scaled to a number of bits."""
    if dimension == 0:
        return [1 << (bits - 1 - i) for i in range(bits)]
    polynomial, start = JOE_KUO[dimension - 1]
    degree = polynomial.bit_length() - 1
    numbers = list(start)
    for i in range(degree, bits):
        new = numbers[i - degree] ^ (numbers[i - degree] << degree)
        for k in range(1, degree):
            if (polynomial >> (degree - k)) & 1:
                new ^= numbers[i - k] << k
        numbers.append(new)
    return [numbers[i] << (bits - 1 - i) for i in range(bits)]


@lru_cache(maxsize=256)
def sobol_integers(dimension: int, bits: int) -> tuple[int, ...]:
    """First ``2^bits`` coordinates of one dimension of the Sobol' sequence, as integers.

    Parameters
    ----------
    dimension : int
        0 to ``DIMENSIONS - 1``.
    bits : int
        1 to 20.

    Returns
    -------
    tuple of int, shape (2**bits,)
        A permutation of ``0 .. 2^bits - 1`` in the order of the sequence: divided by ``2^bits`` it
        is the coordinate. Any fixed integer xor-ed onto all of them is a digital shift, which keeps
        every elementary interval as full as it was.

    Raises
    ------
    ValueError
        If there are no direction numbers for the dimension.

    Notes
    -----
    Gray-code order; direction numbers of [Joe-Kuo-2008]. SEEN.
    """
    if not 0 <= dimension < DIMENSIONS:
        raise ValueError(f"dimension must be 0 to {DIMENSIONS - 1}, got {dimension}")
    directions = _directions(dimension, bits)
    value = 0
    points = [0]
    for index in range((1 << bits) - 1):
        lowest_zero = (~index & (index + 1)).bit_length() - 1
        value ^= directions[lowest_zero]
        points.append(value)
    return tuple(points)
