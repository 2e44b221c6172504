#!/usr/bin/env python3
"""Trains the tissue model on frames of phantom eyes and writes it as ONNX.

Input: files written by the command `training` (bin/train calls it). Output: the model, and what was
done, printed line by line. Needs Debian's python3-torch (1.13) and python3-numpy only.

The picture is changed at random in each step so that the model cannot rely on how the phantom
happens to picture a tissue: grey of every tissue, contrast, slope, place, scale, shadows, lines in
the vitreous, noise and blur. All randomness comes from --seed; on one machine, equal arguments give
an equal model.
"""
import argparse
import copy
import math
import struct
import time

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

ROWS, COLUMNS = 192, 256
LOWEST, STEPS = -0.3, 140.0


def read(path):
    """Returns the tissue names and the frames, each uint8 of shape (4, rows, columns)."""
    data = np.fromfile(path, np.uint8)
    length = struct.unpack(">H", data[:2].tobytes())[0]
    names = data[2:2 + length].tobytes().decode().split(",")
    at, frames = 2 + length, []
    while at < len(data):
        rows, columns = struct.unpack(">HH", data[at:at + 4].tobytes())
        frames.append(data[at + 4:at + 4 + 4 * rows * columns].reshape(4, rows, columns))
        at += 4 + 4 * rows * columns
    return names, frames


def smooth_line(rng, n, step, sd):
    """A random curve of n values with knots every `step`."""
    knots = rng.normal(0, sd, n // step + 4)
    return np.interp(np.arange(n), np.arange(len(knots)) * step - step, knots)


class Changer:
    """Makes a training example out of a frame: geometry, then greys."""

    def __init__(self, names, seed, fluid_darker):
        self.rng = np.random.default_rng(seed)
        self.fluid_darker = fluid_darker
        self.names = names
        self.index = {name: i for i, name in enumerate(names)}

    def example(self, frame):
        rng = self.rng
        _, rows, columns = frame.shape
        wide = np.exp(rng.uniform(-0.35, 0.35))
        deep = np.exp(rng.uniform(-0.18, 0.18))
        c = (np.arange(COLUMNS) - COLUMNS / 2) * wide
        if rng.random() < 0.5:
            c = -c
        spare = max(0.0, columns - COLUMNS * wide)
        c = c + columns / 2 + rng.uniform(-0.5, 0.5) * spare
        c = np.abs(c)
        c = np.where(c > columns - 1, 2 * (columns - 1) - c, c)
        c = np.clip(np.round(c), 0, columns - 1).astype(np.int64)
        x = (np.arange(COLUMNS) - COLUMNS / 2) / COLUMNS
        slope = rng.normal(0, 25) if rng.random() < 0.75 else rng.uniform(-160, 160)
        shift = slope * x + rng.normal(0, 40) * x * x
        tissue = (frame[1][:, c] != 0) & (frame[1][:, c] < self.index["CHOROID"])
        seen = np.nonzero(tissue.any(1))[0]
        middle = seen.mean() if len(seen) else rows / 2
        if rng.random() < 0.12:
            place = rng.uniform(-0.15, 1.1) * ROWS
        else:
            place = rng.uniform(0.25, 0.75) * ROWS
        r = (np.arange(ROWS)[:, None] - place - shift[None, :]) * deep + middle
        outside_top, outside_bottom = r < 0, r > rows - 1
        r = np.clip(r, 0, rows - 1)
        low = np.floor(r).astype(np.int64)
        high = np.minimum(low + 1, rows - 1)
        part = (r - low).astype(np.float32)
        cc = np.broadcast_to(c[None, :], r.shape)
        grey = frame[0].astype(np.float32) / STEPS + LOWEST
        value = grey[low, cc] * (1 - part) + grey[high, cc] * part
        near = np.where(part < 0.5, low, high)
        first, second = frame[1][near, cc], frame[2][near, cc]
        share = frame[3][near, cc].astype(np.float32) / 255
        fill = rng.normal(0.0, 0.05)
        value = np.where(outside_top | outside_bottom, fill + rng.normal(0, 0.05, r.shape), value)
        return self.greys(value.astype(np.float32), first, second, share)

    def greys(self, value, first, second, share):
        rng = self.rng
        n = len(self.names)
        if rng.random() < 0.85:
            offset = rng.normal(0, rng.uniform(0.02, 0.14), n).astype(np.float32)
            offset[0] *= 0.3
            if self.fluid_darker:
                onl = offset[self.index["ONL"]]
                offset[self.index["INTRARETINAL_FLUID"]] = onl - abs(rng.normal(0, 0.08))
                offset[self.index["SUBRETINAL_FLUID"]] *= 0.4
            value = value + share * offset[first] + (1 - share) * offset[second]
        tissue = first != 0
        if rng.random() < 0.5:
            column = smooth_line(rng, COLUMNS, 24, 0.12)
            value = value * (1 + column[None, :]).astype(np.float32)
        for _ in range(rng.poisson(1.5)):
            at, width = rng.uniform(0, COLUMNS), rng.uniform(1, 7)
            dark = rng.uniform(0.1, 0.8) * np.exp(-(((np.arange(COLUMNS) - at) / width) ** 2))
            deep = np.cumsum(tissue, 0) > rng.integers(2, 14)
            value = np.where(deep, value * (1 - dark)[None, :].astype(np.float32), value)
        inner = np.where(tissue.any(0), tissue.argmax(0), ROWS)
        if rng.random() < 0.5:
            gap = rng.uniform(0, 28) + smooth_line(rng, COLUMNS, 40, rng.uniform(1, 14))
            row = inner - 1 - np.maximum(0, gap)
            strength = rng.uniform(0.15, 0.9) * (1 + smooth_line(rng, COLUMNS, 16, 0.4))
            thick = rng.uniform(0.5, 1.3)
            line = np.exp(-(((np.arange(ROWS)[:, None] - row[None, :]) / thick) ** 2))
            add = (line * np.clip(strength, 0, 1)[None, :]).astype(np.float32)
            value = np.where(tissue, value, np.maximum(value, add))
        if rng.random() < 0.3:
            start = inner - rng.uniform(2, 60)
            mist = np.arange(ROWS)[:, None] < start[None, :]
            value = np.where(mist & ~tissue, value + rng.uniform(-0.05, 0.15), value)
        value = np.sign(value) * np.abs(value) ** np.exp(rng.normal(0, 0.15))
        value = value * np.exp(rng.normal(0, 0.12)) + rng.normal(0, 0.03)
        noise = rng.normal(0, 1, value.shape).astype(np.float32)
        if rng.random() < 0.5:
            noise = 0.7 * (noise + np.roll(noise, 1, 1))
        value = value + noise * rng.uniform(0, 0.08)
        if rng.random() < 0.3:
            k = rng.uniform(0.1, 0.33)
            axis = rng.integers(0, 2)
            value = (1 - 2 * k) * value + k * (np.roll(value, 1, axis) + np.roll(value, -1, axis))
        return np.clip(value, -0.3, 1.5).astype(np.float32), first, second, share


class Block(nn.Sequential):
    def __init__(self, inputs, outputs, stride=1, dilation=1):
        super().__init__(
            nn.Conv2d(inputs, outputs, 3, stride, dilation, dilation, bias=False),
            nn.BatchNorm2d(outputs),
            nn.ReLU(inplace=True))


class TissueNet(nn.Module):
    """A small encoder and decoder. Column j of the output lies at column 2 j of the picture."""

    def __init__(self, tissues, width=(8, 16, 32, 48, 64)):
        super().__init__()
        a, b, c, d, e = width
        self.stem = nn.Sequential(
            nn.Conv2d(1, a, (3, 5), (1, 2), (1, 2), bias=False),
            nn.BatchNorm2d(a),
            nn.ReLU(inplace=True))
        self.down1 = nn.Sequential(Block(a, b, 2), Block(b, b))
        self.down2 = nn.Sequential(Block(b, c, 2), Block(c, c))
        self.down3 = nn.Sequential(Block(c, d, 2), Block(d, d))
        self.down4 = nn.Sequential(Block(d, e, 2), Block(e, e, dilation=2))
        self.to3, self.up3 = nn.Conv2d(e, d, 1), Block(d, d)
        self.to2, self.up2 = nn.Conv2d(d, c, 1), Block(c, c)
        self.to1, self.up1 = nn.Conv2d(c, b, 1), Block(b, b)
        self.mix = nn.Sequential(
            nn.Conv2d(a + b, 16, 1, bias=False), nn.BatchNorm2d(16), nn.ReLU(inplace=True))
        self.out = nn.Conv2d(16, tissues, 1)

    def forward(self, x):
        s0 = self.stem(x)
        s1 = self.down1(s0)
        s2 = self.down2(s1)
        s3 = self.down3(s2)
        s4 = self.down4(s3)
        y = self.up3(s3 + up(self.to3(s4)))
        y = self.up2(s2 + up(self.to2(y)))
        y = self.up1(s1 + up(self.to1(y)))
        return self.out(self.mix(torch.cat([s0, up(y)], 1)))


def up(x):
    return F.interpolate(x, scale_factor=2.0, mode="nearest")


def near_edge(inside, columns):
    """1 in cells within some columns of where an area begins or ends, else 0."""
    wide = F.max_pool2d(inside[:, None], (1, 2 * columns + 1), 1, (0, columns))
    narrow = -F.max_pool2d(-inside[:, None], (1, 2 * columns + 1), 1, (0, columns))
    return (wide - narrow)[:, 0]


def loss_of(logits, first, second, share, weight, fluids, disc, edge):
    log = F.log_softmax(logits, 1)
    one = log.gather(1, first[:, None])[:, 0]
    two = log.gather(1, second[:, None])[:, 0]
    w = weight[first]
    if edge > 0:
        w = w * (1 + edge * near_edge((first == disc).float(), 4))
    entropy = -(w * (share * one + (1 - share) * two)).sum() / w.sum()
    dice = 0
    for k in fluids:
        p = log[:, k].exp()
        t = (first == k).float()
        if t.sum() > 20:
            dice = dice + 1 - (2 * (p * t).sum() + 1) / (p.sum() + t.sum() + 1)
    return entropy + 0.2 * dice


def scores(model, names, frames, limit=200):
    """Dice per tissue on unchanged frames, by the most probable tissue of each cell."""
    model.eval()
    n = len(names)
    hit, size, guess = np.zeros(n), np.zeros(n), np.zeros(n)
    with torch.no_grad():
        for frame in frames[:limit]:
            rows, columns = frame.shape[1] // 16 * 16, frame.shape[2] // 32 * 32
            x = torch.from_numpy(frame[0, :rows, :columns].astype(np.float32) / STEPS + LOWEST)
            p = model(x[None, None]).argmax(1)[0].numpy()
            t = frame[1, :rows, :columns:2]
            for k in range(n):
                hit[k] += ((p == k) & (t == k)).sum()
                size[k] += (t == k).sum()
                guess[k] += (p == k).sum()
    model.train()
    return {names[k]: round(2 * hit[k] / max(1, size[k] + guess[k]), 3) for k in range(n)}


class Probabilities(nn.Module):
    """The model as it is shipped: probabilities in steps of 1/255, columns before rows."""

    def __init__(self, model):
        super().__init__()
        self.model = model

    def forward(self, x):
        p = F.softmax(self.model(x), 1).permute(0, 1, 3, 2)
        return (p * 255 + 0.5).to(torch.uint8)


def export(model, path):
    model.eval()
    torch.onnx.export(Probabilities(model), torch.zeros(1, 1, 256, 256), path, opset_version=13,
                      input_names=["picture"], output_names=["tissue"],
                      dynamic_axes={"picture": {2: "rows", 3: "columns"},
                                    "tissue": {2: "columns", 3: "rows"}})
    model.train()


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--data", nargs="+", required=True)
    options.add_argument("--check", required=True, help="frames of other eyes")
    options.add_argument("--steps", type=int, default=8000)
    options.add_argument("--batch", type=int, default=5)
    options.add_argument("--rate", type=float, default=4e-3)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--threads", type=int, default=1)
    options.add_argument("--start", help="state to go on from")
    options.add_argument("--fluid-darker", action="store_true",
                         help="move the grey of cysts with that of the outer nuclear layer, and down")
    options.add_argument("--disc-edge", type=float, default=0,
                         help="how much more cells weigh within 4 columns of the disc's edge")
    options.add_argument("--out", required=True)
    args = options.parse_args()
    torch.set_num_threads(args.threads)
    torch.manual_seed(args.seed)
    frames = []
    for path in args.data:
        names, some = read(path)
        frames += some
    _, check = read(args.check)
    index = {name: i for i, name in enumerate(names)}
    weight = torch.ones(len(names))
    for name, w in (("VITREOUS", 0.3), ("CHOROID", 0.35), ("SCLERA", 0.12), ("ONL", 0.8),
                    ("INTRARETINAL_FLUID", 3), ("SUBRETINAL_FLUID", 2), ("RPE_ELEVATION", 2),
                    ("HYPERREFLECTIVE_MATERIAL", 2), ("DISC", 0.5)):
        weight[index[name]] = w
    fluids = [index[name] for name in ("INTRARETINAL_FLUID", "SUBRETINAL_FLUID", "RPE_ELEVATION",
                                       "HYPERREFLECTIVE_MATERIAL")]
    model = TissueNet(len(names))
    if args.start:
        model.load_state_dict(torch.load(args.start))
    mean = copy.deepcopy(model)
    optimiser = torch.optim.AdamW(model.parameters(), args.rate, weight_decay=1e-4)
    changer = Changer(names, args.seed, args.fluid_darker)
    order = np.random.default_rng(args.seed + 1)
    print(f"{len(frames)} frames, {sum(p.numel() for p in model.parameters())} parameters",
          flush=True)
    begun, total = time.time(), 0.0
    for step in range(1, args.steps + 1):
        warm = min(1.0, step / 100)
        for group in optimiser.param_groups:
            group["lr"] = args.rate * warm * (0.5 + 0.5 * math.cos(math.pi * step / args.steps))
        some = [changer.example(frames[i]) for i in order.integers(0, len(frames), args.batch)]
        x = torch.from_numpy(np.stack([s[0] for s in some]))[:, None]
        first = torch.from_numpy(np.stack([s[1][:, ::2] for s in some]).astype(np.int64))
        second = torch.from_numpy(np.stack([s[2][:, ::2] for s in some]).astype(np.int64))
        share = torch.from_numpy(np.stack([s[3][:, ::2] for s in some]))
        loss = loss_of(model(x), first, second, share, weight, fluids, index["DISC"],
                       args.disc_edge)
        optimiser.zero_grad()
        loss.backward()
        nn.utils.clip_grad_norm_(model.parameters(), 1.0)
        optimiser.step()
        keep = min(0.998, (step + 1) / (step + 10))
        with torch.no_grad():
            for a, b in zip(mean.state_dict().values(), model.state_dict().values()):
                if a.dtype.is_floating_point:
                    a.mul_(keep).add_(b, alpha=1 - keep)
                else:
                    a.copy_(b)
        total += loss.item()
        if step % 100 == 0:
            print(f"step {step} loss {total / 100:.4f} {time.time() - begun:.0f} s", flush=True)
            total = 0.0
        if step % 1000 == 0 or step == args.steps:
            print(f"step {step} dice {scores(mean, names, check)}", flush=True)
            torch.save(mean.state_dict(), args.out + ".state")
            export(mean, args.out)


if __name__ == "__main__":
    main()
