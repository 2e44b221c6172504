/** The two eyes of one patient, one laid on the mirror image of the other. No I/O. */
package org.isopach.analysis.asymmetry;
