package org.isopach.cli;

import picocli.CommandLine.Option;
import picocli.CommandLine.ParseResult;

/** How the program talks. */
final class TalkOptions {
  private static final String LEVEL = "org.slf4j.simpleLogger.defaultLogLevel";

  /** The toolkit's own remarks, several for each file, help nobody. */
  private static final String TOOLKIT = "org.slf4j.simpleLogger.log.com.pixelmed";

  @Option(names = "--json", description = "Print the result as JSON to standard output.")
  private boolean json;

  @Option(
      names = {"-v", "--verbose"},
      description = "Say more on standard error, also about skipped files.")
  private boolean verbose;

  boolean json() {
    return json;
  }

  boolean verbose() {
    return verbose;
  }

  /** Must run before the first logger is made. */
  static void prepareLogging(ParseResult parsed) {
    boolean verbose = parsed.hasSubcommand() && parsed.subcommand().hasMatchedOption("--verbose");
    System.setProperty(LEVEL, verbose ? "debug" : "error");
    System.setProperty(TOOLKIT, "error");
  }
}
