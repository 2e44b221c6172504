/** Reads DICOM objects: recognising, checking lengths, attributes, geometry, folders. */
package org.isopach.dicom.read;
