/** De-identification by the Basic Application Level Confidentiality Profile (DICOM PS3.15, E). */
package org.isopach.dicom.deidentify;
