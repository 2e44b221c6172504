"""Finds cheapest paths through a picture of costs with scikit-image and says how long it takes.

Call: route.py FILE COLUMNS ROWS REPEATS. The file holds 32-bit floats, column by column, in this
machine's byte order. Prints two lines, "any" for paths with moves in all eight directions
(route_through_array) and "forward" for paths that go from column to column: least milliseconds of
the repeats, total cost in 64 bits over the cells of the picture. One free column is put on either
side, so that a path may begin and end in any row. Exit code 3: scikit-image is missing.
"""

import sys
import time

try:
    import numpy
    from skimage.graph import MCP, route_through_array
except ImportError:
    sys.exit(3)

file, columns, rows, repeats = sys.argv[1], *map(int, sys.argv[2:])
picture = numpy.fromfile(file, dtype=numpy.float32).reshape(columns, rows).T.astype(float)
free = numpy.full((rows, 1), 1e-9)
costs = numpy.ascontiguousarray(numpy.hstack([free, picture, free]))
middle = rows // 2
start, end = (middle, 0), (middle, columns + 1)


def any_way():
    path, _ = route_through_array(costs, start, end, fully_connected=True, geometric=False)
    return path


def forward():
    search = MCP(costs, offsets=[(-1, 1), (0, 1), (1, 1)], fully_connected=True)
    starts = [(row, 0) for row in range(rows)]
    reached, _ = search.find_costs(starts)
    best = int(numpy.argmin(reached[:, columns + 1]))
    return search.traceback((best, columns + 1))


for name, search in (("any", any_way), ("forward", forward)):
    least = float("inf")
    for _ in range(repeats):
        begin = time.perf_counter()
        path = search()
        least = min(least, time.perf_counter() - begin)
    total = sum(picture[row, column - 1] for row, column in path if 0 < column <= columns)
    print(name, repr(1000 * least), repr(float(total)))
