/** Scans in, objects out: what the other rooms see of DICOM, in types of the domain. */
package org.isopach.dicom;
