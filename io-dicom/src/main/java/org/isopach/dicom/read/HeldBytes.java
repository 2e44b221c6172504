package org.isopach.dicom.read;

import java.io.Closeable;

/** Bytes read through one handle until closed, for many small reads on end; for one thread. */
public interface HeldBytes extends ByteSource, Closeable {}
