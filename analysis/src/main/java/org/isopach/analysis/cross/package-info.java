/** What somebody else found in a scan, set beside what was found here. */
package org.isopach.analysis.cross;
