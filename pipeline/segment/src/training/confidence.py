#!/usr/bin/env python3
"""Fits the confidence scale: a logistic model for each boundary (bin/train calls this).

Input: the file written by the command `evidence`. Output: the table of weights. Needs Debian's python3-numpy only.
"""
import sys

import numpy as np

RIDGE = 1e-3
AGAINST = (1, 2, 3, 4)


def fit(x, y):
    """Newton's method for the logistic likelihood with a small ridge."""
    w = np.zeros(x.shape[1])
    for _ in range(50):
        p = 1 / (1 + np.exp(-np.clip(x @ w, -30, 30)))
        gradient = x.T @ (y - p) / len(y) - RIDGE * w
        hessian = (x * (p * (1 - p))[:, None]).T @ x / len(y) + RIDGE * np.eye(len(w))
        step = np.linalg.solve(hessian, gradient)
        w += step
        if np.abs(step).max() < 1e-9:
            break
    return w


def fit_falling(x, y):
    """The fit in which no evidence against a depth speaks for it: such terms are left out."""
    used = list(range(x.shape[1]))
    while True:
        part = fit(x[:, used], y)
        wrong = [u for u, v in zip(used, part) if u in AGAINST and v > 0]
        if not wrong:
            w = np.zeros(x.shape[1])
            w[used] = part
            return w
        used.remove(wrong[0])


def main():
    source, target = sys.argv[1:]
    rows = {}
    with open(source, encoding="utf-8") as file:
        next(file)
        for line in file:
            name, *values = line.rstrip().split(",")
            rows.setdefault(name, []).append([float(v) for v in values])
    with open(target, "w", encoding="utf-8") as file:
        file.write("boundary,one,doubt,log-doubt,move,bend,contrast\n")
        for name, values in rows.items():
            data = np.array(values)
            data = data[np.isfinite(data).all(1)]
            w = fit_falling(data[:, :-1], data[:, -1])
            p = 1 / (1 + np.exp(-(data[:, :-1] @ w)))
            high = data[(p >= 0.85) & (p < 0.95), -1]
            print(f"{name}: {len(data)} depths, {data[:, -1].mean():.3f} within, "
                  f"of confidence 0.85 to 0.95: {high.mean() if len(high) else float('nan'):.3f}")
            file.write(name + "," + ",".join(f"{v:.4f}" for v in w) + "\n")


if __name__ == "__main__":
    main()
