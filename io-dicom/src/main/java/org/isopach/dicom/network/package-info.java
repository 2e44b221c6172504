/**
 * DICOM over a network: a listener that stores, a sender, and the upper layer both stand on (DICOM
 * PS3.7, PS3.8). Data sets travel as encoded bytes; nothing here needs the toolkit (decision 0014).
 */
package org.isopach.dicom.network;
