/** Where a measurement lies among those of a published group of healthy eyes. */
package org.isopach.analysis.normal;
