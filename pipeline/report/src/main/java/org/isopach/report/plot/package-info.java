/** Plots of numbers: JFreeChart's charts in the house's style, as PNG and SVG. */
package org.isopach.report.plot;
