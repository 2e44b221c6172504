package org.isopach.analysis.nerve;

/** What reading a circle gives: a profile, or why there is none. */
public sealed interface CircleResult permits CircleProfile, NoCircle {}
