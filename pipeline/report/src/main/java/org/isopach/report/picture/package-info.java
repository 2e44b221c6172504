/**
 * Map sheets: thickness and change as pictures, drawn like a surveyor's map with lines of equal
 * thickness.
 */
package org.isopach.report.picture;
