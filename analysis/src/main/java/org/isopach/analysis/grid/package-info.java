/** Sectors on the fundus and what is measured in them. */
package org.isopach.analysis.grid;
