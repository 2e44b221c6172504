/** Tables of published figures on the optic nerve: normal limits and test–retest noise. */
package org.isopach.report.normal;
