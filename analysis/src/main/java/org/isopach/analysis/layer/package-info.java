/** Boundaries of the retina and what lies between them. */
package org.isopach.analysis.layer;
