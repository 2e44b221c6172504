#!/usr/bin/env python3
"""Trains the model that tells where Bruch's membrane ends and writes it as ONNX.

Input: files written by the command `membrane` (bin/train calls it). Needs Debian's python3-torch
(1.13) and python3-numpy only. All randomness comes from --seed.
"""
import argparse
import time

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

ROWS, COLUMNS = 28, 13
LOWEST, STEPS = -0.3, 140.0
BATCH = 256


def read(path):
    """Returns the pictures as floats of shape (n, 1, rows, columns), and 1 for each open one."""
    shape = np.dtype([("open", "u1"), ("grey", "u1", (ROWS, COLUMNS))])
    data = np.fromfile(path, shape)
    grey = data["grey"].astype(np.float32) / STEPS + LOWEST
    return torch.tensor(grey)[:, None], torch.tensor(data["open"].astype(np.float32))


class Model(nn.Module):
    """Three convolutions, then two full layers; gives the logit of `open`."""

    def __init__(self):
        super().__init__()
        self.first = nn.Conv2d(1, 12, 3, padding=1)
        self.second = nn.Conv2d(12, 16, 3, padding=1, stride=2)
        self.third = nn.Conv2d(16, 16, 3, padding=1)
        self.full = nn.Linear(16 * (ROWS // 2) * ((COLUMNS + 1) // 2), 32)
        self.last = nn.Linear(32, 1)

    def forward(self, x):
        x = F.relu(self.first(x))
        x = F.relu(self.second(x))
        x = F.relu(self.third(x))
        return self.last(F.relu(self.full(x.flatten(1))))[:, 0]


def changed(x, rng):
    """The pictures with other greys, moved a row up or down, mirrored, noisier."""
    n = len(x)
    gain = torch.tensor(rng.uniform(0.80, 1.22, (n, 1, 1, 1)).astype(np.float32))
    offset = torch.tensor(rng.uniform(-0.06, 0.06, (n, 1, 1, 1)).astype(np.float32))
    x = x * gain + offset
    if rng.random() < 0.5:
        x = torch.roll(x, int(rng.integers(-1, 2)), 2)
    if rng.random() < 0.5:
        x = x.flip(3)
    return x + float(rng.uniform(0, 0.05)) * torch.randn(x.shape)


def train(model, x, y, rounds, rng):
    steps = rounds * (len(x) // BATCH)
    optimizer = torch.optim.AdamW(model.parameters(), weight_decay=1e-3)
    schedule = torch.optim.lr_scheduler.OneCycleLR(optimizer, 3e-3, total_steps=steps + 1)
    for turn in range(rounds):
        start, total = time.time(), 0.0
        order = torch.tensor(rng.permutation(len(x)))
        for at in range(0, len(x) - BATCH + 1, BATCH):
            some = order[at:at + BATCH]
            loss = F.binary_cross_entropy_with_logits(model(changed(x[some], rng)), y[some])
            optimizer.zero_grad()
            loss.backward()
            optimizer.step()
            schedule.step()
            total += loss.item() * BATCH
        yield turn, total / len(x), time.time() - start


def check(model, x, y):
    """Returns the loss, the share told right, and by how much too many are called open."""
    with torch.no_grad():
        z = torch.cat([model(x[i:i + 4096]) for i in range(0, len(x), 4096)])
    loss = F.binary_cross_entropy_with_logits(z, y).item()
    share = torch.sigmoid(z)
    return loss, ((share > 0.5) == (y > 0.5)).float().mean().item(), (share - y).mean().item()


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--data", required=True)
    parser.add_argument("--check", required=True)
    parser.add_argument("--rounds", type=int, default=10)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--out", required=True)
    options = parser.parse_args()
    torch.manual_seed(options.seed)
    rng = np.random.default_rng(options.seed)
    x, y = read(options.data)
    cx, cy = read(options.check)
    model = Model()
    print(len(x), "pictures,", sum(p.numel() for p in model.parameters()), "parameters", flush=True)
    for turn, loss, seconds in train(model, x, y, options.rounds, rng):
        unseen, right, more = check(model, cx, cy)
        print(f"round {turn + 1} loss {loss:.4f} unseen {unseen:.4f} right {right:.4f}"
              f" too open {more:.4f} {seconds:.0f} s", flush=True)
    torch.onnx.export(nn.Sequential(model, nn.Sigmoid()), torch.zeros(2, 1, ROWS, COLUMNS),
                      options.out, opset_version=13, input_names=["patch"],
                      output_names=["open"], dynamic_axes={"patch": {0: "n"}, "open": {0: "n"}})


if __name__ == "__main__":
    main()
