/** Boundaries, landmarks and the fovea from a scan, by ImageJ and dynamic programming. */
package org.isopach.segment;
