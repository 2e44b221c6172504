/** How the coordinates of objects in space and our plane of the fundus lie to each other. */
package org.isopach.dicom.space;
