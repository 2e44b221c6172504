/** DICOM data sets as plain values, free of any toolkit. */
package org.isopach.dicom.data;
