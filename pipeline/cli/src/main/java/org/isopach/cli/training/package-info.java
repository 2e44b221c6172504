/** Makes the data that the tissue model is trained on, from phantom eyes. */
package org.isopach.cli.training;
