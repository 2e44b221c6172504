/**
 * What tissue each cell of a coarse picture shows: the model's picture, classes and probabilities.
 */
package org.isopach.segment.tissue;
