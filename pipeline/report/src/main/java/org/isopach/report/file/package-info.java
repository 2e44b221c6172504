/** Files that stand complete under their name or not at all. */
package org.isopach.report.file;
