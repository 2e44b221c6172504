package org.isopach.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import picocli.CommandLine;

/**
 * One call of the program, in this process.
 *
 * @param code its exit code
 * @param out what it wrote to standard output
 * @param err what it wrote to standard error
 */
record Call(int code, String out, String err) {
  static Call isopach(Object... arguments) {
    String[] words = new String[arguments.length];
    for (int i = 0; i < words.length; i++) {
      words[i] = arguments[i].toString();
    }
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine line = Isopach.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    line.setColorScheme(CommandLine.Help.defaultColorScheme(CommandLine.Help.Ansi.OFF));
    return new Call(line.execute(words), out.toString(), err.toString());
  }
}
