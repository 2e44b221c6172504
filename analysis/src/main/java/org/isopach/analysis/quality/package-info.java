/** How good a scan and its frames are, and what follows from it. */
package org.isopach.analysis.quality;
