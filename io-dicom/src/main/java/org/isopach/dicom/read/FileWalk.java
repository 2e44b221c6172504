package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;

/**
 * Finds every file below some places, in the order of names whatever the order of the file system.
 * Symbolic links are followed; one that leads back into a folder it lies in is a finding.
 */
public final class FileWalk {
  private static final int DEEPEST = 256;

  private final List<Path> files = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();
  private final Set<Path> seen = new HashSet<>();
  private final Set<Path> open = new HashSet<>();

  private FileWalk() {}

  /** Returns the walk over files and folders. */
  public static FileWalk over(List<Path> inputs) {
    FileWalk walk = new FileWalk();
    List<Path> sorted = new ArrayList<>(inputs);
    Collections.sort(sorted);
    for (Path input : sorted) {
      if (Files.exists(input)) {
        walk.visit(input, 0);
      } else {
        walk.note(FindingKind.UNREADABLE_FILE, input, "there is no such file or folder");
      }
    }
    return walk;
  }

  /** Returns the regular files, each once. */
  public List<Path> files() {
    return List.copyOf(files);
  }

  /** Returns what is wrong with folders and links. */
  public List<Finding> findings() {
    return List.copyOf(findings);
  }

  private void visit(Path path, int depth) {
    try {
      if (Files.isDirectory(path)) {
        visitFolder(path, depth);
      } else if (Files.isRegularFile(path)) {
        visitFile(path);
      } else if (Files.isSymbolicLink(path)) {
        note(FindingKind.UNREADABLE_FILE, path, "the symbolic link leads nowhere");
      } else {
        note(FindingKind.UNREADABLE_FILE, path, "it is neither a file nor a folder");
      }
    } catch (IOException e) {
      note(FindingKind.UNREADABLE_FILE, path, "cannot be read: " + reason(e));
    }
  }

  private void visitFile(Path path) throws IOException {
    boolean first = seen.add(path.toRealPath());
    if (first) {
      files.add(path);
    }
  }

  private void visitFolder(Path folder, int depth) throws IOException {
    Path real = folder.toRealPath();
    if (open.contains(real)) {
      note(FindingKind.LINK_LOOP, folder, "the link leads back to a folder it lies in");
      return;
    }
    if (!seen.add(real)) {
      return;
    }
    if (depth > DEEPEST) {
      note(
          FindingKind.UNREADABLE_FILE, folder, "folders are nested more than " + DEEPEST + " deep");
      return;
    }
    List<Path> children = new ArrayList<>();
    try (DirectoryStream<Path> stream = Files.newDirectoryStream(folder)) {
      stream.forEach(children::add);
    }
    Collections.sort(children);
    open.add(real);
    for (Path child : children) {
      visit(child, depth + 1);
    }
    open.remove(real);
  }

  private void note(FindingKind kind, Path path, String detail) {
    findings.add(new Finding(kind, path.toString(), detail));
  }

  /** Returns an error's reason in words fit for a message. */
  static String reason(IOException e) {
    return e instanceof java.nio.file.AccessDeniedException
        ? "permission denied"
        : e.getClass().getSimpleName() + (e.getMessage() == null ? "" : ": " + e.getMessage());
  }
}
