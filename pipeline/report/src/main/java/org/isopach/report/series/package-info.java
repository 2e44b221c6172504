/** What is read from files about series: expected ageing. */
package org.isopach.report.series;
