package org.isopach.segment;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;

/**
 * Turns evidence into the probability that a depth lies within 2 px (7.7 µm) of the truth: a
 * logistic model for each boundary, fitted to phantom eyes by {@code bin/train}.
 */
final class ConfidenceScale {
  private final Map<Boundary, double[]> weights;

  private ConfidenceScale(Map<Boundary, double[]> weights) {
    this.weights = weights;
  }

  /** Returns the scale the program ships with for the macula. */
  static ConfidenceScale shipped() {
    return Shipped.MACULA;
  }

  /** Returns the scale for scans of the optic nerve. */
  static ConfidenceScale nerve() {
    return Shipped.NERVE;
  }

  /** Holds the one copy of each. */
  private static final class Shipped {
    private static final ConfidenceScale MACULA = load("confidence.csv");
    private static final ConfidenceScale NERVE = load("confidence-nerve.csv");

    private static ConfidenceScale load(String resource) {
      try (InputStream in = ConfidenceScale.class.getResourceAsStream(resource)) {
        if (in == null) {
          throw new IllegalStateException("the confidence scale is missing: " + resource);
        }
        return read(
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8)).lines().toList());
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private static ConfidenceScale read(List<String> lines) {
    Map<Boundary, double[]> weights = new EnumMap<>(Boundary.class);
    for (String line : lines) {
      if (line.startsWith("#") || line.startsWith("boundary")) {
        continue;
      }
      String[] cells = line.split(",", -1);
      double[] terms = new double[Evidence.TERMS];
      for (int i = 0; i < terms.length; i++) {
        terms[i] = Double.parseDouble(cells[i + 1]);
      }
      weights.put(Boundary.ofCode(cells[0]).orElseThrow(), terms);
    }
    return new ConfidenceScale(weights);
  }

  /** Returns the confidence, from 0 to 1. */
  double confidence(Evidence evidence) {
    double[] terms = weights.get(evidence.boundary());
    double sum = 0;
    for (int i = 0; i < terms.length; i++) {
      sum += terms[i] * evidence.term(i);
    }
    return 1 / (1 + Math.exp(-sum));
  }
}
