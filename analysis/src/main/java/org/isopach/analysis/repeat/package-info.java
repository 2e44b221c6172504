/** How far repeats of one eye differ, sector by sector. */
package org.isopach.analysis.repeat;
