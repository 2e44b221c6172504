/** The record of a run: what was read, asked, found, written, and how long it took. */
package org.isopach.report.run;
