/** Reports for people, as PDF: what was measured in a scan, with what it needs to be judged. */
package org.isopach.report.pdf;
