/** What a person gets to see: tables, pictures, the record of a run. */
package org.isopach.report;
