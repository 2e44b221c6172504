/**
 * The whole job: from a folder of scans to a folder of results. What the command line, a service or
 * a cluster calls.
 */
package org.isopach.job;
