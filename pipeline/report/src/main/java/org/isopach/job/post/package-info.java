/** Sends the FHIR transactions of a run folder to a server; needs no FHIR library. */
package org.isopach.job.post;
