/** What there is to say about an object, as values. */
package org.isopach.analysis.finding;
