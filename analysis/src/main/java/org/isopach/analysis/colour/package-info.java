/** Colour scales computed in a perceptually uniform space. */
package org.isopach.analysis.colour;
