/** Statistics of weighted values. */
package org.isopach.analysis.stat;
