/** Measures speed and memory of the whole job as ratios within one run. */
package org.isopach.cli.bench;
