package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;

/**
 * Finds every file below some places, in the order of names whatever the order of the file system.
 * Symbolic links are followed; one that leads back into a folder it lies in is a finding.
 *
 * <p>A folder {@code .incoming} below one of the places is passed over: a listener keeps there what
 * it has not wholly received yet, and its lock.
 */
public final class FileWalk {
  /** The folder within a listener's folder for objects that are not yet wholly received. */
  public static final String INCOMING = ".incoming";

  private static final int DEEPEST = 256;

  private final Predicate<Path> passedOver;
  private final FileUse use;
  private final List<Path> files = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();
  private final Set<Path> seen = new HashSet<>();
  private final Set<Path> open = new HashSet<>();

  /** Is told each regular file, once, in the order of names. */
  @FunctionalInterface
  public interface FileUse {
    /** Takes a file with its attributes, those of its target where it is a symbolic link. */
    void take(Path file, BasicFileAttributes attributes);
  }

  private FileWalk(Predicate<Path> passedOver, FileUse use) {
    this.passedOver = passedOver;
    this.use = use;
  }

  /** Returns the walk over files and folders. */
  public static FileWalk over(List<Path> inputs) {
    return over(inputs, path -> false, (file, attributes) -> {});
  }

  /**
   * Returns the walk over files and folders.
   *
   * @param passedOver which files and folders below the inputs are left out, with all they hold
   * @param use is told each file as it is found
   */
  public static FileWalk over(List<Path> inputs, Predicate<Path> passedOver, FileUse use) {
    FileWalk walk = new FileWalk(passedOver, use);
    List<Path> sorted = new ArrayList<>(inputs);
    Collections.sort(sorted);
    for (Path input : sorted) {
      walk.visit(input, null, 0);
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

  /**
   * Visits a file or folder.
   *
   * @param parent the folder it lies in, without symbolic links, or null when that is not known
   */
  private void visit(Path path, Path parent, int depth) {
    try {
      BasicFileAttributes own =
          Files.readAttributes(path, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
      boolean plain = parent != null && !own.isSymbolicLink();
      Path real = plain ? parent.resolve(path.getFileName()) : path.toRealPath();
      BasicFileAttributes followed =
          own.isSymbolicLink() ? Files.readAttributes(real, BasicFileAttributes.class) : own;
      if (followed.isDirectory()) {
        visitFolder(path, real, depth);
      } else if (followed.isRegularFile()) {
        visitFile(path, real, followed);
      } else {
        note(FindingKind.UNREADABLE_FILE, path, "it is neither a file nor a folder");
      }
    } catch (NoSuchFileException e) {
      String gone =
          Files.isSymbolicLink(path)
              ? "the symbolic link leads nowhere"
              : "there is no such file or folder";
      note(FindingKind.UNREADABLE_FILE, path, gone);
    } catch (IOException e) {
      note(FindingKind.UNREADABLE_FILE, path, "cannot be read: " + reason(e));
    }
  }

  private void visitFile(Path path, Path real, BasicFileAttributes attributes) {
    boolean first = seen.add(real);
    if (first) {
      files.add(path);
      use.take(path, attributes);
    }
  }

  private void visitFolder(Path folder, Path real, int depth) throws IOException {
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
    } catch (DirectoryIteratorException e) {
      throw e.getCause();
    }
    Collections.sort(children);
    open.add(real);
    for (Path child : children) {
      if (!passedOver(child)) {
        visit(child, real, depth + 1);
      }
    }
    open.remove(real);
  }

  private boolean passedOver(Path child) {
    return passedOver.test(child) || (child.endsWith(INCOMING) && Files.isDirectory(child));
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
