/**
 * Watched folders: new files are found once whole, measured study by study, each content once; what
 * was done outlives a crash.
 */
package org.isopach.job.watch;
