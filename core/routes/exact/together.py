"""A product of many parts, one of which at a time gives way to another."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from core.routes.exact.algebra import Complex


class Together:
    """Keeps the products of halves, quarters and so on, so that an exchange costs few multiplications.

    The parts stand at the end of a list in which every entry from 1 on is the product of the two at twice its place.
    """

    def __init__(self, multiply: Callable[[Complex, Complex], Complex], parts: Sequence[Complex]) -> None:
        self._multiply, self._first = multiply, len(parts)
        self._of = [parts[0]] * self._first + list(parts)
        for place in range(self._first - 1, 0, -1):
            self._of[place] = multiply(self._of[2 * place], self._of[2 * place + 1])

    @property
    def product(self) -> Complex:
        """All parts together."""
        return self._of[1]

    def exchange(self, part: int, other: Complex) -> None:
        """Puts another part in the place of one."""
        place = self._first + part
        self._of[place] = other
        while (place := place // 2) > 0:
            self._of[place] = self._multiply(self._of[2 * place], self._of[2 * place + 1])

    def with_instead(self, part: int, other: Complex) -> Complex:
        """The product with another part in the place of one, which stays."""
        place = self._first + part
        while place > 1:
            other = self._multiply(other, self._of[place ^ 1])
            place //= 2
        return other
