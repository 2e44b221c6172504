/** Measures the whole chain against phantoms of known truth and prints the errors. */
package org.isopach.cli.accuracy;
