/** Patients' eyes: laterality and keys. */
package org.isopach.analysis.eye;
