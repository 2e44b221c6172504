#!/usr/bin/env python3
"""Recomputes reference.csv beside it with SciPy and statsmodels.

Run on Debian 12 with python3-scipy and python3-statsmodels installed:
    /usr/bin/python3 reference.py > reference.csv
Not a line of it is shared with the Java code.
"""
import math
import os

import numpy as np
import pandas
import scipy
import statsmodels
import statsmodels.api as sm
from scipy import stats
from statsmodels.formula.api import ols
from statsmodels.stats.multitest import multipletests

HERE = os.path.dirname(os.path.abspath(__file__))
P_VALUES = [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240,
            0.4262, 0.5719, 0.6528, 0.7590, 1.000]


def table(name):
    return pandas.read_csv(os.path.join(HERE, name), comment="#").astype(float)


def put(key, *values):
    print(key + "," + ",".join(repr(float(v)) for v in values))


def within(key, subjects):
    """One-way analysis of variance by regression on the subject."""
    rows = pandas.DataFrame([(str(i), v) for i, s in enumerate(subjects) for v in s],
                            columns=["subject", "value"])
    fit = ols("value ~ C(subject)", rows).fit()
    df, square = fit.df_resid, fit.mse_resid
    put(key, math.sqrt(square), math.sqrt(df * square / stats.chi2.ppf(0.975, df)),
        math.sqrt(df * square / stats.chi2.ppf(0.025, df)), np.mean([np.mean(s) for s in subjects]))


def agreement(key, differences):
    d = np.asarray(differences)
    n = len(d)
    put(key + ".bias", d.mean(), d.std(ddof=1), d.mean() - 1.96 * d.std(ddof=1),
        d.mean() + 1.96 * d.std(ddof=1))
    put(key + ".biasInterval", *stats.t.interval(0.95, n - 1, d.mean(), stats.sem(d)))
    put(key + ".halfWidthOfLimit", stats.t.ppf(0.975, n - 1) * math.sqrt(3 * d.var(ddof=1) / n))


def correlations(key, frame):
    long = frame.reset_index().melt(id_vars="index")
    anova = sm.stats.anova_lm(ols("value ~ C(index) + C(variable)", long).fit())
    bms, jms, ems = anova["mean_sq"]
    n, k = frame.shape
    wms = sm.stats.anova_lm(ols("value ~ C(index)", long).fit())["mean_sq"].iloc[1]
    put(key + ".squares", bms, jms, ems, wms)
    for name, err, df in (("1", wms, n * (k - 1)), ("3", ems, (n - 1) * (k - 1))):
        f = bms / err
        low, high = f / stats.f.ppf(0.975, n - 1, df), f * stats.f.ppf(0.975, df, n - 1)
        put(key + ".icc" + name, (f - 1) / (f + k - 1), (low - 1) / (low + k - 1),
            (high - 1) / (high + k - 1))
    icc = (bms - ems) / (bms + (k - 1) * ems + k * (jms - ems) / n)
    # Shrout & Fleiss 1979, pages 424 and 425.
    fj = jms / ems
    v = ((k - 1) * (n - 1) * (k * icc * fj + n * (1 + (k - 1) * icc) - k * icc) ** 2
         / ((n - 1) * k ** 2 * icc ** 2 * fj ** 2 + (n * (1 + (k - 1) * icc) - k * icc) ** 2))
    fu, fl = stats.f.ppf(0.975, n - 1, v), stats.f.ppf(0.975, v, n - 1)
    put(key + ".icc2", icc,
        n * (bms - fu * ems) / (fu * (k * jms + (k * n - k - n) * ems) + n * bms),
        n * (fl * bms - ems) / (k * jms + (k * n - k - n) * ems + n * fl * bms))


def trend(key, x, y):
    fit = sm.OLS(y, sm.add_constant(x)).fit()
    line = fit.conf_int(0.05)
    put(key + ".slope", fit.params[1], fit.bse[1], *line[1])
    put(key + ".intercept", fit.params[0], fit.bse[0], *line[0])
    put(key + ".rest", math.sqrt(fit.mse_resid), fit.rsquared, fit.pvalues[1])
    at = fit.get_prediction([[1.0, 100.0]]).conf_int(alpha=0.05)[0]
    put(key + ".at100", *at)
    slope, _, low, high = stats.theilslopes(y, x, 0.95)
    put(key + ".theilSen", slope, stats.theilslopes(y, x, 0.95, method="joint")[1], low, high)


print("# SciPy", scipy.__version__, "and statsmodels", statsmodels.__version__,
      "as packaged by Debian 12, by reference.py beside; double precision.")
print("# Tolerance of the tests: 1e-9 relative. Intervals are those of 95 %.")
flow = table("peak-flow.csv")
within("peakFlow.large", flow[["large1", "large2"]].values)
within("peakFlow.mini", flow[["mini1", "mini2"]].values)
within("dyestuff", table("dyestuff.csv").values)
within("uneven", [[251.0, 253.5], [301.2, 299.9, 300.4, 305.0], [275.0, 270.5, 271.0]])
agreement("peakFlow", flow["large1"] - flow["mini1"])
correlations("judges", table("judges.csv"))
correlations("peakFlow", flow[["large1", "large2"]])
correlations("dyestuff", table("dyestuff.csv"))
for name in ("norris", "series"):
    data = table(name + ".csv").values
    trend(name, data[:, 0], data[:, 1])
for method in ("fdr_bh", "fdr_by"):
    put(method, *multipletests(P_VALUES, method=method)[1])
