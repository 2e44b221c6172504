/** Where a scan's samples lie, in mm and µm. */
package org.isopach.analysis.geometry;
