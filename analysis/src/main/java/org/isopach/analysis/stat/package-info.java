/** Statistics: weighted values, agreement of repeats, trends, false discovery. */
package org.isopach.analysis.stat;
