/** Tables as CSV: fixed decimals, fixed row order, the same bytes on every machine. */
package org.isopach.report.table;
