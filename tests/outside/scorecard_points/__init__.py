"""The points of the scorecard, one file for each of those who ask: each point a function whose doc says how it is judged."""


def decisive(point):
    """Marks a point that fails the set by itself."""
    point.decisive = True
    return point


def by_name(*points):
    """The points under their names as the card prints them, in this order."""
    return {p.__name__ + (" (decisive)" if hasattr(p, "decisive") else ""): p for p in points}
