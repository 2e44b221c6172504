/**
 * DICOM over HTTP as a client (DICOM PS3.18, section 10): finding (QIDO-RS), fetching (WADO-RS) and
 * storing (STOW-RS). What a server says is bounded and checked before it is used; objects pass as
 * encoded bytes into the same folder a listener keeps.
 */
package org.isopach.dicom.web;
