/** What became of a thickness between two visits. */
package org.isopach.analysis.change;
