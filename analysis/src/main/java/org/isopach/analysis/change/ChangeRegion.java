package org.isopach.analysis.change;

/**
 * A connected part of a map whose change is beyond noise.
 *
 * @param number from 1, the largest first
 * @param thicker whether the layer grew thicker there; thinner otherwise
 * @param areaMm2 area in mm²
 * @param meanUm mean change in µm
 * @param peakUm the greatest change of the smoothed map, with its sign, in µm
 * @param nasalMm where its centre of area lies, mm nasal of the landmark
 * @param superiorMm and mm above it
 * @param volumeMm3 mean change times area in mm³, negative for a loss
 */
public record ChangeRegion(
    int number,
    boolean thicker,
    double areaMm2,
    double meanUm,
    double peakUm,
    double nasalMm,
    double superiorMm,
    double volumeMm3) {}
