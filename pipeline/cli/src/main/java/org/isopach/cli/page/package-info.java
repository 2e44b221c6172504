/** Pages that commands print. */
package org.isopach.cli.page;
