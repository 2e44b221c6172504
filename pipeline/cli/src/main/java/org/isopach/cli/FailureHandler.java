package org.isopach.cli;

import java.io.IOException;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;

/** Says in one sentence why the program itself failed; with {@code -v} also where. */
final class FailureHandler implements IExecutionExceptionHandler {
  /** Exit code of a failure that is not about single inputs. */
  static final int CODE = 1;

  @Override
  public int handleExecutionException(Exception e, CommandLine line, ParseResult parsed) {
    String what = e instanceof IOException ? "cannot write or read" : "failed";
    line.getErr().println("isopach: " + what + ": " + e);
    line.getErr().flush();
    LoggerFactory.getLogger(FailureHandler.class).debug("the failure was", e);
    return CODE;
  }
}
