/** The only package that knows the PixelMed toolkit. */
package org.isopach.dicom.toolkit;
