/** Standard objects derived from a tomography: their content, free of any toolkit. */
package org.isopach.dicom.derive;
