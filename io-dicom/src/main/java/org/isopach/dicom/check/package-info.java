/** Judging data sets by the standard's tables of modules and attributes. */
package org.isopach.dicom.check;
