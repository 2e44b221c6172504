/** Decodes frames: where each one lies and how its grey values are packed. */
package org.isopach.dicom.pixel;
