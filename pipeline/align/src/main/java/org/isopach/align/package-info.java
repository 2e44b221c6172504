/** Puts the scans of two visits on one lattice. */
package org.isopach.align;
