/** One eye through all its visits: series, slopes, treatment and what followed it. No I/O. */
package org.isopach.analysis.series;
