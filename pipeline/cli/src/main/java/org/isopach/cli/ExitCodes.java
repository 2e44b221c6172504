package org.isopach.cli;

/** The exit codes as the help lists them. */
final class ExitCodes {
  static final String HEADING = "%nExit codes:%n";
  static final String ALL = " 0:everything was measured; single sectors may be refused";
  static final String FAULT = " 1:the program failed, for example on a full disk";
  static final String USAGE = " 2:wrong call; nothing was done";
  static final String SOME = " 3:some inputs were not measured; each is named";
  static final String NOTHING = " 4:nothing could be measured";

  private ExitCodes() {}
}
