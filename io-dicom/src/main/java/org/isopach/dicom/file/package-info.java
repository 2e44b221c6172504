/** Files as files, whatever they hold: their digests, and who holds them alone. */
package org.isopach.dicom.file;
