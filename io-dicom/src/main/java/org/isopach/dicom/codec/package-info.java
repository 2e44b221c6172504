/**
 * Decoders that are native libraries (JPEG-LS, high-throughput JPEG 2000). They run in processes of
 * their own, so that a library that fails takes no more than one frame with it.
 */
package org.isopach.dicom.codec;
