package org.isopach.analysis.grid;

/**
 * The integral of a quantity over the part of a sector where it has values.
 *
 * @param sum value times mm², over the cells with a value; nothing is added for the others
 * @param coveredFraction share of the sector's area where there are values, from 0 to 1
 */
public record SectorIntegral(double sum, double coveredFraction) {}
