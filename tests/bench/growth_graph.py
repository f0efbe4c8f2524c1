#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Draws how the planner's time grows, from what bench_taper measured:

    bench_taper --benchmark_filter='^taper_by_' --benchmark_repetitions=5 \\
                --benchmark_out=growth.json --benchmark_out_format=json
    tests/bench/growth_graph.py growth.json packaging/pictures/planner-growth.svg

The fastest of the repetitions counts. Measured points are dots; the line beside them is the growth that is
aimed for, through the first point.
"""
import json
import math
import sys

INK, SOFT, LINE, PLANNED, AIM = "#1F2430", "#5A6272", "#DAD7CF", "#0B5D5E", "#8A5F00"
WIDTH, HEIGHT, PANEL, TOP, BOTTOM = 760, 300, 300, 46, 236


def fastest(runs, family):
    """[(argument or steps, milliseconds)] in rising order."""
    best = {}
    for run in runs:
        name, _, argument = run["name"].partition("/")
        if name != family or run.get("run_type") != "iteration":
            continue
        size = round(run["steps"]) if "steps" in run else int(argument.split("/")[0])
        best[size] = min(best.get(size, math.inf), run["real_time"])
    return sorted(best.items())


def text(x, y, words, size=12, colour=INK, anchor="start"):
    return (f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="{colour}" '
            f'text-anchor="{anchor}">{words}</text>')


def digits(value):
    return f"{value:.0f}" if value >= 10 else f"{value:.1f}"


def panel(left, points, title, below, place, aim, aim_words):
    """One graph: `place` turns sizes and times into shares of the panel, `aim` is the time aimed for."""
    at = lambda size, time: (left + PANEL * place(size, time)[0], BOTTOM - (BOTTOM - TOP) * place(size, time)[1])
    parts = [text(left, 24, title, 14),
             f'<path d="M{left} {TOP}V{BOTTOM}H{left + PANEL}" fill="none" stroke="{LINE}"/>']
    line = " ".join("{:.1f},{:.1f}".format(*at(size, aim(size))) for size, _ in points)
    parts.append(f'<polyline points="{line}" fill="none" stroke="{AIM}" stroke-width="1.5" '
                 'stroke-dasharray="5 4"/>')
    for size, time in points:
        x, y = at(size, time)
        parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{PLANNED}"/>')
        parts.append(text(x + 5, y + 15, f"{digits(time)} ms", 11, PLANNED))
        parts.append(text(x, BOTTOM + 16, f"{size:,}".replace(",", " "), 11, SOFT, "middle"))
    parts.append(text(left + PANEL / 2, BOTTOM + 36, below, 12, SOFT, "middle"))
    parts.append(text(left, BOTTOM + 56, f"dots: measured; dashed: {aim_words}, through the first", 11, SOFT))
    return "\n".join(parts)


def main():
    source, target = sys.argv[1:]
    with open(source, encoding="utf-8") as file:
        runs = json.load(file)["benchmarks"]
    totals, steps = fastest(runs, "taper_by_totals"), fastest(runs, "taper_by_steps")
    if len(totals) < 3 or len(steps) < 3:
        sys.exit("growth_graph: fewer than three sizes were measured; run bench_taper as the head of this file says")

    (n, t), most = totals[0], max(time for _, time in totals)
    n_log_n = lambda size: t * size * math.log(size) / (n * math.log(n))
    top = max(most, n_log_n(totals[-1][0])) * 1.5
    log_place = lambda size, time: (0.04 + 0.9 * math.log(size / n) / math.log(totals[-1][0] / n),
                                    0.06 + 0.9 * math.log(time / (t / 1.5)) / math.log(top / (t / 1.5)))
    (s, u) = steps[0]
    linear = lambda size: u * size / s
    roof = max(max(time for _, time in steps), linear(steps[-1][0])) * 1.2
    place = lambda size, time: (0.04 + 0.9 * (size - s) / (steps[-1][0] - s), time / roof)
    svg = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" '
           f'height="{HEIGHT}" font-family="Inter, sans-serif">',
           "<title>Time of a taper against daily totals and against steps</title>",
           f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#FFFFFF"/>',
           panel(40, totals, "Time against reachable daily totals", "daily totals (both axes log)", log_place,
                 n_log_n, "n log n"),
           panel(420, steps, "Time against steps", "steps", place, linear, "linear"), "</svg>"]
    with open(target, "w", encoding="utf-8") as file:
        file.write("\n".join(svg) + "\n")


if __name__ == "__main__":
    main()
