/** Thickness on a lattice of mm. */
package org.isopach.analysis.map;
