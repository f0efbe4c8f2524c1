#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes statistics.json beside this file: fixed data with the figures that SciPy gives for them.

Run with Debian's python3-scipy (the table was made with SciPy 1.10.1); the tests read the table alone.
"""
import json
import math
import pathlib
import random

import numpy
import scipy
from scipy import stats

DAY = 1440


def circular(values):
    """Mean and standard deviation on the circle of the day, in minutes."""
    return {"minutes": values, "mean": float(stats.circmean(values, high=DAY, low=0)),
            "sd": float(stats.circstd(values, high=DAY, low=0))}


def rank(a, b):
    """Probability that a value of a exceeds one of b: the U of a over the number of pairs."""
    u = stats.mannwhitneyu(a, b, alternative="greater").statistic
    return {"a": a, "b": b, "superiority": float(u) / (len(a) * len(b))}


def spread(values):
    return {"values": values, "mean": float(numpy.mean(values)), "sd": float(numpy.std(values, ddof=1)),
            "cv": float(stats.variation(values, ddof=1)),
            "p10": float(numpy.percentile(values, 10)), "p50": float(numpy.percentile(values, 50)),
            "p90": float(numpy.percentile(values, 90))}


def line(x, y):
    return {"x": x, "y": y, "slope": float(stats.linregress(x, y).slope)}


def main():
    draw = random.Random(20261125)
    table = {"scipy": scipy.__version__, "circular": [], "rank": [], "spread": [], "line": []}
    for size in (2, 3, 7, 14, 90):
        for middle, width in ((480, 20), (1435, 30), (5, 15), (800, 240)):
            table["circular"].append(circular([round(draw.gauss(middle, width)) % DAY for _ in range(size)]))
        # Whole numbers from 0 to 10, as severities are: many ties.
        table["rank"].append(rank([draw.randint(2, 10) for _ in range(size)],
                                  [draw.randint(0, 8) for _ in range(size + 3)]))
        table["spread"].append(spread([round(draw.uniform(0.25, 6), 3) for _ in range(size)]))
        table["line"].append(line(list(range(size)), [round(draw.gauss(3, 1), 3) for _ in range(size)]))
    for group in table.values():
        for row in group if isinstance(group, list) else []:
            assert all(math.isfinite(value) for value in row.values() if isinstance(value, float)), row
    text = json.dumps(table, indent=1, sort_keys=True)
    pathlib.Path(__file__).with_name("statistics.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
