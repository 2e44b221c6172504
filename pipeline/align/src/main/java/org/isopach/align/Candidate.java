package org.isopach.align;

/**
 * A pose with the correlation of the two pictures under it.
 *
 * @param pose from the follow-up to the baseline
 * @param correlation from -1 to 1 over the places that both pictures show; NaN when these are too
 *     few
 */
record Candidate(Pose pose, double correlation) {}
