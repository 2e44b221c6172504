/** Writing DICOM objects. */
package org.isopach.dicom.write;
