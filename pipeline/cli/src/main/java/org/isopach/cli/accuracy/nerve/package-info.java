/** Errors of what is measured round the optic disc, on phantoms of known truth. */
package org.isopach.cli.accuracy.nerve;
