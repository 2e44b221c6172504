#!/usr/bin/env python3
"""Fits the confidence scale: a logistic model for each boundary (bin/train calls this).

Input: the file written by the command `evidence`. Output: the table of weights. Needs Debian's python3-numpy only.
"""
import sys

import numpy as np

RIDGE = 1e-3


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
            w = fit(data[:, :-1], data[:, -1])
            p = 1 / (1 + np.exp(-(data[:, :-1] @ w)))
            high = data[(p >= 0.85) & (p < 0.95), -1]
            print(f"{name}: {len(data)} depths, {data[:, -1].mean():.3f} within, "
                  f"of confidence 0.85 to 0.95: {high.mean() if len(high) else float('nan'):.3f}")
            file.write(name + "," + ",".join(f"{v:.4f}" for v in w) + "\n")


if __name__ == "__main__":
    main()
