/** The command line: results to standard output, talk to standard error. */
package org.isopach.cli;
